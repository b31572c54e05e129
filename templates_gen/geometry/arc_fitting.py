"""Arcs in place of cubics: a closed path as an outline of constant bends."""

from __future__ import annotations

import math
from collections.abc import Sequence

from fontTools.misc.bezierTools import cubicPointAtT, splitCubicAtT

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.sampling import signed_area
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import CORNER, Bend, Outline, starting_at_back
from templates_gen.geometry.path import Edge, Path, contours
from templates_gen.geometry.tolerances import ARC_FIT, ROUNDING


def arc_to(start: Point, heading: float, end: Point) -> Bend:
    """Return the arc that leaves ``start`` in direction ``heading`` and comes to ``end``."""
    chord = math.dist(start, end)
    half = math.remainder(math.atan2(end[1] - start[1], end[0] - start[0]) - heading, math.tau)
    return Bend(chord * (half / math.sin(half) if abs(half) > ROUNDING else 1.0), 2 * half)


def biarc(start: Point, heading: float, end: Point, arriving: float) -> tuple[Bend, Bend]:
    """Return two arcs, of equal tangents, between two points with given directions."""
    vx, vy = end[0] - start[0], end[1] - start[1]
    ax, ay = math.cos(heading), math.sin(heading)
    bx, by = math.cos(arriving), math.sin(arriving)
    along, square = vx * (ax + bx) + vy * (ay + by), vx * vx + vy * vy
    spread = 1 - (ax * bx + ay * by)
    if spread > 1e-12:
        reach = (math.sqrt(along**2 + 2 * spread * square) - along) / (2 * spread)
    else:
        reach = square / (2 * along)
    joint = (
        (start[0] + end[0] + reach * (ax - bx)) / 2,
        (start[1] + end[1] + reach * (ay - by)) / 2,
    )
    first = arc_to(start, heading, joint)
    return first, arc_to(joint, heading + first.turn, end)


def from_path(path: Path, tolerance: float = ARC_FIT) -> Outline:
    """Return the outline of one closed contour of lines and cubics, round the origin.

    Cubics become arcs within ``tolerance`` mm. Raises GeometryError for anything else.
    """
    edges = _edges(path)
    if signed_area([edge[0] for edge in edges]) < 0:
        edges = [edge[::-1] for edge in reversed(edges)]
    bends: list[Bend] = []
    heading = first = _leaving(edges[0])
    for edge in edges:
        if (turn := math.remainder(_leaving(edge) - heading, math.tau)) and abs(turn) > ROUNDING:
            bends.append(Bend(0.0, turn, abs(turn) > CORNER))
        bends += _arcs(edge, tolerance)
        heading = _leaving(edge[::-1]) + math.pi
    closing = math.remainder(first - heading, math.tau)
    if abs(closing) > ROUNDING:
        bends.append(Bend(0.0, closing, abs(closing) > CORNER))
    return starting_at_back(edges[0][0], first, bends)


def _edges(path: Path) -> list[Edge]:
    """Return the edges of one closed contour. Raises GeometryError for any other path."""
    (edges, is_closed), *others = contours(path)
    if others or not is_closed:
        raise GeometryError("an outline is one closed curve")
    return [edge for edge in edges if max(math.dist(edge[0], p) for p in edge[1:]) > ROUNDING]


def _leaving(edge: Edge) -> float:
    """Return the direction in which an edge leaves its start."""
    x, y = edge[0]
    far = next(point for point in edge[1:] if math.dist(point, edge[0]) > ROUNDING)
    return math.atan2(far[1] - y, far[0] - x)


def _arcs(edge: Edge, tolerance: float) -> list[Bend]:
    """Return the segments of an edge: a line, or arcs near a cubic, halved until near enough."""
    if len(edge) == 2:
        return [Bend(math.dist(*edge), 0.0)]
    start, arriving = _leaving(edge), _leaving(edge[::-1]) + math.pi
    pair = biarc(edge[0], start, edge[3], arriving)
    gentle = sum(abs(bend.turn) for bend in pair) < math.pi / 2
    if gentle and _farthest(edge, start, pair) <= tolerance:
        return list(pair)
    first, second = splitCubicAtT(*edge, 0.5)
    return _arcs(first, tolerance) + _arcs(second, tolerance)


def _farthest(edge: Edge, heading: float, pair: Sequence[Bend]) -> float:
    """Return how far a cubic leaves two arcs, at seven places on it."""
    joint, turned = pair[0].after(edge[0], heading)
    arcs = ((edge[0], heading, pair[0]), (joint, turned, pair[1]))
    places = (cubicPointAtT(*edge, step / 8) for step in range(1, 8))
    return max(min(_from_arc(place, *arc) for arc in arcs) for place in places)


def _from_arc(point: Point, start: Point, heading: float, bend: Bend) -> float:
    """Return the distance of a point from the circle or line that a segment is part of."""
    dx, dy = point[0] - start[0], point[1] - start[1]
    if abs(bend.turn) < 1e-6:
        return abs(dy * math.cos(heading) - dx * math.sin(heading))
    radius = bend.length / bend.turn
    from_centre = math.hypot(dx + radius * math.sin(heading), dy - radius * math.cos(heading))
    return abs(from_centre - abs(radius))
