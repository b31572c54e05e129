"""Paths carried through a map of the plane that bends them, as smooth lines and cubics again."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from fontTools.misc.bezierTools import cubicPointAtT

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Command, Edge, Path, contours
from templates_gen.geometry.tolerances import WARP_FIT

Map = Callable[[float, float], Point]
_SHORTEST = 1e-4
"""A segment of a path is halved no further, mm: at a crease of the map."""
_STEP = 1e-4
"""The part of a segment over which its direction is taken."""
_DEEPEST = 16


def bent(path: Path, through: Map) -> Path:
    """Return ``path`` carried through a continuous map, to ``WARP_FIT`` of a mm.

    Lines and cubics become cubics, which are halved until they are near enough; a line that stays
    straight stays a line.
    """
    commands: list[Command] = []
    for edges, closed in contours(path):
        start = edges[0][0]
        commands.append(("moveTo", (through(*start),)))
        if closed and math.dist(*edges[-1]) <= _SHORTEST:
            edges.pop()
        for edge in edges:
            commands += _carried(_edge(edge), through)
        if closed:
            # a hair's breadth left open would be an edge that crosses others
            last, reached = commands[-1]
            commands[-1] = last, (*reached[:-1], through(*start))
        commands.append(("closePath" if closed else "endPath", ()))
    return Path(tuple(commands))


def _edge(edge: Edge) -> Callable[[float], Point]:
    """Return a line or cubic as a function of its parameter from 0 to 1."""
    a, *others = edge

    def line(t: float) -> Point:
        (b,) = others
        return a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])

    def cubic(t: float) -> Point:
        point: Point = cubicPointAtT(a, *others, t)
        return point

    return line if len(others) == 1 else cubic


def _carried(edge: Callable[[float], Point], through: Map) -> Iterator[Command]:
    found: dict[float, Point] = {}

    def at(t: float) -> Point:
        # halves meet where their whole was looked at
        if t not in found:
            found[t] = through(*edge(t))
        return found[t]

    return _fitted(at, (0.0, at(0.0)), (1.0, at(1.0)), _DEEPEST)


Placed = tuple[float, Point]
"""A parameter of a curve, and its point there."""


def _fitted(
    at: Callable[[float], Point], first: Placed, last: Placed, deep: int
) -> Iterator[Command]:
    """Yield the cubics, or the one line, that come near a curve between two of its points."""
    (t0, start), (t1, end) = first, last
    # what is still bent after being halved so often has a crease, where there is no tangent
    if deep == 0 or _is_straight(at, t0, t1, start, end):
        yield "lineTo", (end,)
        return
    h = (t1 - t0) * _STEP
    third = (t1 - t0) / 3 / h
    after, before = at(t0 + h), at(t1 - h)
    one = start[0] + (after[0] - start[0]) * third, start[1] + (after[1] - start[1]) * third
    two = end[0] + (before[0] - end[0]) * third, end[1] + (before[1] - end[1]) * third
    if _is_near(at, t0, t1, (start, one, two, end)):
        yield "curveTo", (one, two, end)
        return
    half = (t0 + t1) / 2
    middle = half, at(half)
    yield from _fitted(at, first, middle, deep - 1)
    yield from _fitted(at, middle, last, deep - 1)


def _is_straight(
    at: Callable[[float], Point], t0: float, t1: float, start: Point, end: Point
) -> bool:
    """Tell whether a curve keeps to its chord; also where it is too short to matter."""
    length = math.dist(start, end)
    if length < _SHORTEST:
        return all(math.dist(at(t0 + k * (t1 - t0)), start) < WARP_FIT for k in (0.3, 0.7))
    dx, dy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    for share in (0.13, 0.29, 0.5, 0.71, 0.87):
        x, y = at(t0 + share * (t1 - t0))
        if abs((x - start[0]) * dy - (y - start[1]) * dx) > WARP_FIT / 10:
            return False
    return True


def _is_near(
    at: Callable[[float], Point], t0: float, t1: float, cubic: tuple[Point, Point, Point, Point]
) -> bool:
    """Tell whether a cubic of even pace keeps near a curve."""
    drawn = _edge(cubic)
    shares = (0.15, 0.35, 0.5, 0.65, 0.85)
    return all(math.dist(drawn(share), at(t0 + share * (t1 - t0))) < WARP_FIT for share in shares)
