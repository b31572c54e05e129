"""What a path is made of: lines, arcs that its cubics stand for, and other cubics."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path, contours

ALIKE = 1e-6
"""How far the handles of a cubic may be off those of an arc, as a share of its radius."""
_NOTHING = 1e-9
_STRAIGHT = 1e-4
"""An arc that rises less over its chord is a line, mm: its centre would be kilometres away."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """A part of a circle: ``sweep`` in radians, counter-clockwise above 0."""

    start: Point
    end: Point
    centre: Point
    radius: float
    sweep: float


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic, by its two ends and two controls, that is not an arc."""

    start: Point
    first: Point
    second: Point
    end: Point


Segment = Line | Arc | Cubic


@dataclass(frozen=True, slots=True)
class Contour:
    """Segments that follow each other; of a closed contour the last ends where the first starts."""

    segments: tuple[Segment, ...]
    closed: bool


def with_arcs(path: Path) -> Iterator[Contour]:
    """Yield the contours of a path; parts of one arc are put together, up to half a circle."""
    for edges, closed in contours(path):
        found: list[Segment] = []
        for edge in edges:
            _add(found, Line(*edge) if len(edge) == 2 else _curve(*edge))
        yield Contour(tuple(found), closed)


def _add(found: list[Segment], segment: Segment) -> None:
    """Add a segment, put together with the one before where both are of one arc; no length none."""
    if isinstance(segment, Line) and math.dist(segment.start, segment.end) < _NOTHING:
        return
    before = found[-1] if found else None
    if isinstance(segment, Arc) and isinstance(before, Arc) and _go_on(before, segment):
        sweep = before.sweep + segment.sweep
        found[-1] = Arc(before.start, segment.end, before.centre, before.radius, sweep)
    else:
        found.append(segment)


def _go_on(one: Arc, other: Arc) -> bool:
    """Tell whether one arc goes on as another of the same circle, to no more than half of it."""
    off = max(math.dist(one.centre, other.centre), abs(one.radius - other.radius))
    turns_on = one.sweep * other.sweep > 0 and abs(one.sweep + other.sweep) <= math.pi + ALIKE
    return turns_on and off < 10 * ALIKE * one.radius


def _curve(start: Point, first: Point, second: Point, end: Point) -> Segment:
    """Return the arc or the line that a cubic stands for, or the cubic.

    Of an arc of the angle a and the radius r both handles are 4/3 tan(a / 4) r long, on tangents
    that lean from the chord by a / 2.
    """
    cubic = Cubic(start, first, second, end)
    chord = math.dist(start, end)
    if min(chord, math.dist(start, first), math.dist(second, end)) < _NOTHING:
        return cubic
    along = _heading(start, end)
    leaving = _turn(_heading(start, first), along)
    arriving = _turn(along, _heading(second, end))
    sweep = leaving + arriving
    if abs(leaving - arriving) > ALIKE or not ALIKE < abs(sweep) < math.pi:
        return cubic
    radius = chord / 2 / math.sin(abs(sweep) / 2)
    handle = 4 / 3 * math.tan(abs(sweep) / 4) * radius
    off = max(abs(math.dist(start, first) - handle), abs(math.dist(second, end) - handle))
    if off > ALIKE * radius:
        return cubic
    if chord / 2 * math.tan(abs(sweep) / 4) < _STRAIGHT:
        return Line(start, end)
    to_centre = _heading(start, first) + math.copysign(math.pi / 2, sweep)
    centre = start[0] + radius * math.cos(to_centre), start[1] + radius * math.sin(to_centre)
    return Arc(start, end, centre, radius, sweep)


def _heading(start: Point, end: Point) -> float:
    return math.atan2(end[1] - start[1], end[0] - start[0])


def _turn(one: float, other: float) -> float:
    """Return the angle from one heading to another, from -pi to pi."""
    return math.remainder(other - one, math.tau)
