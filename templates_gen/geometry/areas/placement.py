"""Where an area or a point lies in another: distances, and room for a move."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cached_property

import numpy as np
import numpy.typing as npt
import shapely
from shapely import LineString, Polygon, STRtree
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import substring

from templates_gen.geometry.areas.booleans import Area, filled, outreach, region
from templates_gen.geometry.areas.lines import sampled_lines
from templates_gen.geometry.areas.sampling import as_point
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.roots import halved
from templates_gen.geometry.tolerances import ARC_FIT, MOVE_FIT, SAMPLING

LOT = 64
"""Places are looked at by so many: most often one of the first will do."""


def overlapping(shapes: Sequence[Sequence[Point]]) -> list[tuple[int, int]]:
    """Return the pairs of convex polygons that have something in common, the lesser place first."""
    if not shapes:
        return []
    polygons = [shapely.polygons(points) for points in shapes]
    found = STRtree(polygons).query(polygons, "intersects").T
    return sorted((int(one), int(other)) for one, other in found if one < other)


def clearance(inner: Path, outer: Path) -> float:
    """Return the smallest distance from ``inner`` to the edge of ``outer`` round it, mm.

    Negative when ``inner`` reaches out of ``outer``: by how far at the most.
    """
    inside, around = region(inner, ARC_FIT), region(outer, ARC_FIT)
    if around.covers(inside):
        edge = around.boundary
        shapely.prepare(edge)  # each has thousands of short lines
        return float(shapely.distance(edge, inside.boundary))
    return 0.0 - outreach(inside, around)


def contains_all(outer: Path, paths: Sequence[Path]) -> bool:
    """Tell whether everything that ``paths`` fill lies in the area of ``outer``."""
    around = shapely.buffer(region(outer), SAMPLING)
    return all(around.covers(filled(path)) for path in paths)


def free_travel(inner: Path, outer: Path, way: Point, most: float) -> float:
    """Return how far ``inner`` can go one way, of length 1, and stay in ``outer``, mm.

    At the most ``most``; 0 where it does not lie in ``outer`` to begin with.
    """
    inside, around = region(inner, ARC_FIT), region(outer, ARC_FIT)
    shapely.prepare(around)

    def stays(far: float) -> bool:
        return bool(around.covers(translate(inside, way[0] * far, way[1] * far)))

    return halved(stays, 0.0, most, MOVE_FIT)[0]


def deepest(area: Area) -> tuple[Point, float]:
    """Return the point of an area farthest from its edge, and how far it is, mm.

    That is the centroid where it is as far as any point but for a thousandth.
    """
    found = shapely.maximum_inscribed_circle(area, tolerance=SAMPLING)
    point, far = as_point(found.coords[0]), float(found.length)
    centroid = area.centroid
    from_middle = float(shapely.distance(centroid, area.boundary)) if area.covers(centroid) else 0.0
    return ((centroid.x, centroid.y), from_middle) if from_middle > 0.999 * far else (point, far)


def contains(area: Area, point: Point, slack: float = SAMPLING) -> bool:
    """Tell whether a point lies in an area, or within ``slack`` mm of it."""
    return bool(shapely.distance(area, shapely.Point(point)) <= slack)


def from_edge(area: Area, points: Sequence[Point]) -> float:
    """Return how far the farthest of some points is from the edge of an area, mm."""
    places = shapely.points(np.reshape(points, (-1, 2)))
    return float(np.max(shapely.distance(places, area.boundary), initial=0.0))


def inside(path: Path) -> Callable[[Point], bool]:
    """Return a function that tells whether a point lies in the area of a path: sooner for many."""
    area = region(path)
    shapely.prepare(area)
    return lambda point: bool(shapely.contains_xy(area, *point))


class Edges:
    """What of the outer edges of an area lies in ``open_area``: each edge from its back on."""

    def __init__(self, area: Area, open_area: Area) -> None:
        self._area, self._open = area, open_area

    @cached_property
    def _lines(self) -> list[LineString]:
        rings = [_from_back(part.exterior) for part in shapely.get_parts(self._area)]
        return rings if self._open is self._area else list(_kept(rings, self._open))

    @cached_property
    def _ends(self) -> npt.NDArray[np.float64]:
        return np.cumsum([each.length for each in self._lines])

    def spread(self, count: int, phase: float) -> list[Point]:
        """Return points spread evenly along them, the first ``phase`` of a step on."""
        along = (np.arange(count) + phase) * (self._ends[-1] / count)
        which = np.minimum(np.searchsorted(self._ends, along), len(self._lines) - 1)
        rest = along - np.concatenate(([0.0], self._ends))[which]
        places = shapely.line_interpolate_point(np.array(self._lines)[which], rest)
        return [as_point(place) for place in shapely.get_coordinates(places).tolist()]


def _kept(rings: Sequence[LineString], open_area: Area) -> Iterator[LineString]:
    """Yield the parts of rings that lie in an area."""
    around = shapely.buffer(open_area, SAMPLING)
    for ring in rings:
        for each in shapely.get_parts(shapely.line_merge(shapely.intersection(ring, around))):
            if isinstance(each, LineString) and each.length:
                yield each


def _from_back(ring: LineString) -> LineString:
    """Return a closed line that starts at its back: the place farthest back in mid-width."""
    x0, y0, x1, y1 = ring.bounds
    x = (x0 + x1) / 2
    met = shapely.intersection(ring, LineString([(x, y0 - 1), (x, y1 + 1)]))
    back = shapely.Point(x, shapely.bounds(met)[3])  # of a heart that is its notch
    start = float(shapely.line_locate_point(ring, back))
    line = LineString(ring.coords)
    first, second = substring(line, start, line.length), substring(line, 0.0, start)
    coords = [*first.coords, *second.coords[1:]] if start else line.coords
    return LineString(coords)


def clear_of(
    areas: Sequence[tuple[Path, float]], lines: Sequence[tuple[Path, float]]
) -> Callable[[Point, float], bool]:
    """Return a function that tells whether a disc of a radius is clear of closed areas and lines.

    Each comes with the distance in mm that is kept from it.
    """
    shapes: list[tuple[BaseGeometry, float]] = [(filled(path), by) for path, by in areas]
    shapes += [(sampled_lines(path), by) for path, by in lines]
    distances = sorted({by for _, by in shapes})
    trees = [(STRtree([shape for shape, by in shapes if by == each]), each) for each in distances]

    def is_clear(middle: Point, radius: float) -> bool:
        if not trees:
            return True
        place = shapely.Point(middle)
        # what is sampled lies within a tolerance of the true shape, so that is added
        near = (tree.query(place, "dwithin", radius + by + SAMPLING) for tree, by in trees)
        return not any(map(len, near))

    return is_clear


def lowest_span(path: Path, x: float, wide: float) -> float | None:
    """Return the lowest y at which a level line ``wide`` mm long about x lies in an area.

    Tried every half mm; None where there is none.
    """
    area = filled(path)
    _, y0, _, y1 = area.bounds
    for index in range(int(2 * (y1 - y0))):
        y = y0 + (index + 0.5) / 2
        if area.covers(LineString([(x - wide / 2, y), (x + wide / 2, y)])):
            return y
    return None


def bounds_of(area: Area) -> Box:
    """Return the smallest upright box round an area."""
    return Box(*area.bounds)


def is_seen_from(area: Area, point: Point) -> bool:
    """Tell whether every place of an area without holes lies on a straight way from a point."""
    around = shapely.buffer(area, SAMPLING)
    places = (as_point(place) for place in shapely.get_coordinates(area))
    return isinstance(area, Polygon) and all(
        around.covers(LineString([point, place])) for place in places
    )


def paired(outer: Area, inner: Area, step: float) -> list[tuple[Point, Point]]:
    """Return points of the edge of one area, each with the nearest on that of one within it.

    And those of the inner edge, each with the nearest on the outer one: once round from the back,
    counter-clockwise, at most ``step`` mm apart. Empty where an area is in parts or has holes.
    """
    if not (isinstance(outer, Polygon) and isinstance(inner, Polygon)):
        return []
    if outer.interiors or inner.interiors:
        return []
    ring, core = (_from_back(shapely.orient_polygons(each).exterior) for each in (outer, inner))
    outwards, inwards = (
        [shapely.Point(place) for place in shapely.segmentize(each, step).coords[:-1]]
        for each in (ring, core)
    )
    lines = [shapely.shortest_line(place, core) for place in outwards]
    lines += [shapely.shortest_line(ring, place) for place in inwards]
    found: list[tuple[float, Point, Point]] = []
    first = 0.0
    for line in lines:
        p, q = (as_point(place) for place in line.coords)
        at_ring, at_core = (
            float(shapely.line_locate_point(each, shapely.Point(place), normalized=True))
            for each, place in ((ring, p), (core, q))
        )
        # both edges start at the first pair, so that places on both go round together
        first = first if found else at_core
        at_core -= first
        found.append((at_ring + at_core + round(at_ring - at_core), p, q))
    return [(p, q) for _, p, q in sorted(found)]


class FreeSpace:
    """An area beside boxes that are ``taken`` and ``lines``, in which a box can have a place."""

    def __init__(self, area: Area, taken: Sequence[Box], lines: Sequence[Path]) -> None:
        self._area = area
        shapely.prepare(area)
        solid = [shapely.box(*box) for box in taken] + [sampled_lines(path) for path in lines]
        self._tree = STRtree(solid)

    def place(self, width: float, height: float, step: float = 3.0) -> Point | None:
        """Return where the lower left of a box of some size can lie, or None.

        Of the places tried, ``step`` mm apart, it is the nearest to the middle of the area.
        """
        x0, y0, x1, y1 = self._area.bounds
        size, middle = np.array((width, height)), shapely.get_coordinates(self._area.centroid)
        columns, rows = int((x1 - x0 - width) // step) + 1, int((y1 - y0 - height) // step) + 1
        xs = x0 + np.arange(max(columns, 0)) * step
        ys = y0 + np.arange(max(rows, 0)) * step
        places = np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2)
        far = np.hypot(*(places + size / 2 - middle).T)
        places = places[np.lexsort((places[:, 1], places[:, 0], far))]
        for start in range(0, len(places), LOT):
            some = places[start : start + LOT]
            boxes = shapely.box(*some.T, *(some + size).T)
            free = shapely.covers(self._area, boxes)
            free[self._tree.query(boxes, predicate="intersects")[0]] = False
            if free.any():
                return as_point(some[int(np.flatnonzero(free)[0])].tolist())
        return None
