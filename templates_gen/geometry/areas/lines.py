"""Lines clipped by areas."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import cached_property
from itertools import pairwise

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, MultiLineString
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from templates_gen.geometry.areas.booleans import Area, covers, filled
from templates_gen.geometry.areas.sampling import as_point, sampled
from templates_gen.geometry.areas.segments import Segments
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, polyline, together
from templates_gen.geometry.tolerances import ROUNDING, SAMPLING

Line = MultiLineString
"""The contours of a path as lines of points, as the functions of this folder hand them on."""


def spans_on(area: Area, start: Point, end: Point) -> list[tuple[Point, Point]]:
    """Return the parts of the line from ``start`` to ``end`` that lie in ``area``, in order."""
    inside = shapely.intersection(LineString([start, end]), area)
    parts = [
        part for part in shapely.get_parts(inside) if isinstance(part, LineString) and part.length
    ]
    ends = [(as_point(part.coords[0]), as_point(part.coords[-1])) for part in parts]
    dx, dy = end[0] - start[0], end[1] - start[1]

    def along(point: Point) -> float:
        return (point[0] - start[0]) * dx + (point[1] - start[1]) * dy

    ordered = [(a, b) if along(a) <= along(b) else (b, a) for a, b in ends]
    return sorted(ordered, key=lambda part: along(part[0]))


def clipped(path: Path, box: Box, area: Area | None = None) -> Path:
    """Return the part of the line of ``path`` inside ``box``, or the ``area`` in that box.

    A path wholly inside comes back untouched; else its curves are sampled.
    """
    if box.contains(path.bounds) and (area is None or covers(area, path.bounds)):
        return path
    around = shapely.box(*box) if area is None else area
    return merged(shapely.intersection(sampled_lines(path), around))


def within(path: Path, area: Area) -> Path:
    """Return the part of the line of ``path`` inside ``area``; untouched if that is all."""
    if covers(area, path.bounds):
        return path
    lines = sampled_lines(path)
    return path if area.covers(lines) else merged(shapely.intersection(lines, area))


def cutter(areas: Sequence[Area]) -> Callable[[Path], Path]:
    """Return a function that takes the part of a line in any of ``areas`` away.

    A line clear of them all comes back untouched; else its curves are sampled. Only areas that a
    line meets are united for it: many lines and many areas take time in proportion.
    """
    tree = shapely.STRtree(areas)

    def cut(path: Path) -> Path:
        lines = sampled_lines(path)
        met = [areas[index] for index in sorted(tree.query(lines, predicate="intersects"))]
        return merged(shapely.difference(lines, shapely.union_all(met))) if met else path

    return cut


def sampled_lines(path: Path) -> Line:
    """Return the contours of a path as lines of points."""
    # made by arrays of points: the classes of shapely look at each point on its own
    lines = [shapely.linestrings(points) for points, _ in sampled(path)]
    found: Line = shapely.multilinestrings(lines)
    return found


def along_axes(paths: Sequence[Path], lean: float, least: float) -> tuple[list[float], list[float]]:
    """Return x where paths run upright, and y where they run level, for ``least`` mm or more.

    They may ``lean`` by so much to a mm, as a curve does where it turns.
    """
    segments = Segments.of(paths).ends
    steps, middles = np.abs(segments[:, 1] - segments[:, 0]), segments.mean(axis=1)
    upright, level = (
        (steps[:, axis] <= lean * steps[:, 1 - axis]) & (steps[:, 1 - axis] >= least)
        for axis in (0, 1)
    )
    return middles[upright, 0].tolist(), middles[level, 1].tolist()


def as_lines(segments: npt.NDArray[np.float64]) -> list[LineString]:
    """Return straight lines, n by 2 by 2, as lines of shapely."""
    return list(np.asarray(shapely.linestrings(segments)))


def merged(lines: BaseGeometry) -> Path:
    """Return what shapely left of lines, without crumbs."""
    parts = []
    for part in shapely.get_parts(shapely.line_merge(lines)):
        if isinstance(part, LineString) and part.length > SAMPLING:
            places = [as_point(place) for place in part.coords]
            # a closed curve ends where it starts, but for rounding
            apart = [b for a, b in pairwise(places) if math.dist(a, b) > ROUNDING]
            parts.append(polyline([places[0], *apart]))
    return together(parts)


class Overlap:
    """Whether lines run into closed areas, or do when those are moved along x by a turn.

    What lines and areas are is looked up once, however often they are held against others.
    """

    def __init__(self, paths: Sequence[Path], turns: Sequence[float]) -> None:
        self._paths, self._turns = paths, turns

    @cached_property
    def _lines(self) -> shapely.STRtree:
        return shapely.STRtree([sampled_lines(path) for path in self._paths])

    @cached_property
    def _areas(self) -> list[BaseGeometry]:
        inked = [filled(path) for path in self._paths]
        return [translate(area, turn) for turn in self._turns for area in inked]

    def meets(self, other: Overlap) -> bool:
        """Tell whether a line of another runs into an area of this."""
        return bool(other._lines.query(self._areas, predicate="intersects").size)


def overlap(areas: Sequence[Path], lines: Sequence[Path], turns: Sequence[float]) -> bool:
    """Tell whether any line runs into a closed area, or does when moved along x by a turn."""
    return Overlap(areas, turns).meets(Overlap(lines, turns))
