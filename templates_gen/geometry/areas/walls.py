"""The walls of an area: each edge laid out as a strip, with the places of its corners."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, Polygon

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.booleans import filled
from templates_gen.geometry.areas.sampling import as_point
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path

SHARP, CORNER = math.radians(15), math.radians(35)
"""Sharp turns near each other are a corner where they turn so much in all: our choice."""
NEAR = 6.0
"""How near the turns of one corner are, mm."""
FINE = 0.005
"""How far the points of a wall are off its curves, mm."""


@dataclass(frozen=True, slots=True)
class Wall:
    """One edge of an area: its ``length`` some way off it, ``folds`` mm from its start.

    ``corners`` are the places of the start and of the folds on the edge itself; ``bare`` is its own
    length. A ``counter`` is the edge of a hole.
    """

    start: Point
    bare: float
    length: float
    folds: tuple[float, ...]
    corners: tuple[Point, ...]
    counter: bool


def walls(path: Path, by: float) -> tuple[Wall, ...]:
    """Return the walls of what a path fills, ``by`` mm off it, outer edges first.

    A gap too narrow for that is filled. Raises GeometryError where a hole is.
    """
    parts = shapely.get_parts(shapely.orient_polygons(filled(path, FINE)))
    outer = [_wall(part.exterior.coords, by, counter=False) for part in parts]
    inner = [_wall(ring.coords, by, counter=True) for part in parts for ring in part.interiors]
    return (*outer, *inner)


def _wall(coords: Sequence[Sequence[float]], by: float, *, counter: bool) -> Wall:
    """Return the wall along a ring that has its area on the left."""
    points = [as_point(place) for place in coords][:-1]
    found = list(_corners(points))
    highest = max(points, key=lambda point: (point[1], -point[0]))
    start = max(found, key=lambda each: each.at[1], default=_Corner(highest, 0.0, (0.0, 1.0)))
    edge = _moved(Polygon(points), -by if counter else by)
    # shapely does not say which way round a ring runs
    line = LineString(shapely.orient_polygons(edge, exterior_cw=counter).exterior.coords)
    origin = _along(line, start, by)
    others = [each for each in found if each is not start]
    folds = {(_along(line, each, by) - origin) % line.length: each.at for each in others}
    ordered = tuple(sorted(folds))
    corners = (start.at, *(folds[fold] for fold in ordered))
    bare = float(Polygon(points).exterior.length)
    return Wall(start.at, bare, float(line.length), ordered, corners, counter)


@dataclass(frozen=True, slots=True)
class _Corner:
    """A corner of a ring: its turn to the left, radians, and which way is out, half-way in it."""

    at: Point
    turn: float
    out: Point


def _corners(points: Sequence[Point]) -> Iterator[_Corner]:
    """Yield the corners of a ring: sharp turns near each other are one."""
    turns = [_turn(points, index) for index in range(len(points))]
    sharp = [index for index, turn in enumerate(turns) if abs(turn) > SHARP]
    groups: list[list[int]] = []
    for index in sharp:
        if groups and math.dist(points[groups[-1][-1]], points[index]) < NEAR:
            groups[-1].append(index)
        else:
            groups.append([index])
    if len(groups) > 1 and math.dist(points[groups[-1][-1]], points[groups[0][0]]) < NEAR:
        groups[0] = groups.pop() + groups[0]
    for group in groups:
        turn = sum(turns[index] for index in group)
        if abs(turn) > CORNER:
            yield _Corner(points[group[len(group) // 2]], turn, _out(points, group, turn))


def _out(points: Sequence[Point], group: Sequence[int], turn: float) -> Point:
    """Return the direction out of the area half-way through a corner."""
    (x0, y0), (x1, y1) = points[group[0] - 1], points[group[0]]
    heading = math.atan2(y1 - y0, x1 - x0) + turn / 2
    return math.sin(heading), -math.cos(heading)


def _turn(points: Sequence[Point], index: int) -> float:
    """Return by how much a ring turns to the left at a point, radians."""
    (x0, y0), (x1, y1), (x2, y2) = (points[(index + step) % len(points)] for step in (-1, 0, 1))
    return math.remainder(math.atan2(y2 - y1, x2 - x1) - math.atan2(y1 - y0, x1 - x0), math.tau)


def _moved(ring: Polygon, by: float) -> Polygon:
    """Return a ring grown or shrunk; a narrow gap in it that closes is filled."""
    moved = shapely.buffer(ring, by, quad_segs=64) if by else ring
    if not isinstance(moved, Polygon) or moved.is_empty:
        raise GeometryError("a hole closes")
    return Polygon(moved.exterior)


def _along(line: LineString, corner: _Corner, by: float) -> float:
    """Return how far along a line off a ring the middle of a corner is.

    Where it turns out that is on an arc, where it turns in both sides meet farther off.
    """
    far = by if corner.turn >= 0 else by / max(math.cos(corner.turn / 2), 0.1)
    (x, y), (dx, dy) = corner.at, corner.out
    return float(shapely.line_locate_point(line, shapely.Point(x + far * dx, y + far * dy)))
