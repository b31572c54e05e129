"""The parts of an area, each as an outline with its holes."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from templates_gen.geometry.areas.booleans import edge_of, filled
from templates_gen.geometry.areas.sampling import as_point
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path, polyline


def parts_of(path: Path) -> tuple[Path, ...]:
    """Return what a path fills part by part, from the left; as it is where that is one."""
    parts = shapely.get_parts(filled(path))
    if len(parts) == 1:
        return (path,)
    ordered = sorted(parts, key=lambda part: part.bounds)
    return tuple(edge_of(part) for part in ordered)


def outer_and_holes(path: Path) -> tuple[Path, tuple[Path, ...]]:
    """Return the outer edge of an area in one part, and the edges of its holes."""
    (part,) = shapely.get_parts(filled(path))
    return _ring(part.exterior.coords), tuple(_ring(ring.coords) for ring in part.interiors)


def covered(path: Path, by: float) -> tuple[Path, int]:
    """Return the outline of an area covered ``by`` mm thick, and how many gaps that closes.

    A gap that closes is filled, as in ``walls``; a hole that closes is gone.
    """
    whole, closed = [], 0
    for part in shapely.get_parts(filled(path)):
        outer = shapely.buffer(shapely.Polygon(part.exterior), by, quad_segs=64)
        closed += len(outer.interiors)
        holes = [
            shapely.buffer(shapely.Polygon(ring), -by, quad_segs=64) for ring in part.interiors
        ]
        whole.append(shapely.difference(shapely.Polygon(outer.exterior), shapely.union_all(holes)))
    return edge_of(shapely.union_all(whole)), closed


def _ring(coords: Sequence[Sequence[float]]) -> Path:
    points: list[Point] = [as_point(place) for place in coords][:-1]
    return polyline(points, closed=True)
