"""A layer square to a tapered side: its outlines at two levels, matched segment for segment.

A tapered side is part of a cone over its plan, whose lean differs from place to place. With the
cone's tip over the origin the plan narrows by a share c of itself on each mm upwards. At a place p
with outward direction n the side leans by atan(c h), h = p.n, and a layer of thickness t square to
it lies, at any level, by t (n + c^2 h p) / sqrt(1 + c^2 h^2) outside the section of the side: the
plane that touches the cone there, moved by t. Layer and side face the same way at matching places,
so the layer's side has straight rulings too and lies flat without stretching.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from templates_gen.geometry.arc_fitting import biarc
from templates_gen.geometry.areas.booleans import is_simple
from templates_gen.geometry.box import Point
from templates_gen.geometry.offset import Laid, offset, segments
from templates_gen.geometry.outline import CORNER, Bend, Outline, back_of, starting_from

STEP = math.radians(10)
"""The most that a segment turns that two arcs stand for: they leave the curve by under 0.001 mm."""
_ROUNDS = 30
_CLOSE = 1e-9

State = tuple[Point, float]
"""A place and the way a curve goes there."""


@dataclass(frozen=True, slots=True)
class _Branch:
    """What lies between two creases of a plan: places on it, and which steps are of corners."""

    states: tuple[State, ...]
    corners: tuple[bool, ...]


def layer(
    plan: Outline, narrowing: float, thick: float, levels: Sequence[float]
) -> list[Outline] | None:
    """Return a layer of ``thick`` mm square to a tapered side, at each of some levels.

    The plan narrows by ``narrowing`` of itself a mm; ``levels`` are its sizes there over that of
    the foot. None where neighbouring segments do not meet, or others than neighbours do.
    """
    if plan.radius is not None:
        aside = thick * math.hypot(1.0, narrowing * plan.radius)
        return [offset(plan.scaled(size), aside) for size in levels]
    branches, has_creases = _branches(plan)
    moved_levels = [
        [tuple(_moved(state, narrowing, thick, size) for state in each.states) for each in branches]
        for size in levels
    ]
    if not all(_goes_on(states) for level in moved_levels for states in level):
        return None
    if has_creases:
        rings = _trimmed(branches, moved_levels)
    else:
        rings = [_curve(states, branches[0].corners) for (states,) in moved_levels]
    if rings is None or not all(is_simple(ring.path()) for ring in rings):
        return None
    place = back_of(rings[0])
    return [starting_from(ring, *place) for ring in rings]


def _moved(state: State, narrowing: float, thick: float, size: float) -> State:
    """Return where a place of the foot lies at a level of the layer."""
    (x, y), heading = state
    nx, ny = math.sin(heading), -math.cos(heading)
    lean = narrowing * (x * nx + y * ny)
    by, share = thick / math.hypot(1.0, lean), narrowing * lean
    return (size * x + by * (nx + share * x), size * y + by * (ny + share * y)), heading


def _goes_on(states: Sequence[State]) -> bool:
    """Tell whether a curve goes forward at each step: none has vanished under the layer."""
    for (p, a), (q, b) in pairwise(states):
        way = a + math.remainder(b - a, math.tau) / 2
        if (q[0] - p[0]) * math.cos(way) + (q[1] - p[1]) * math.sin(way) < _CLOSE:
            return False
    return True


def _branches(plan: Outline) -> tuple[list[_Branch], bool]:
    """Return what lies between the creases of a plan, and whether it has creases at all."""
    laid, joints = segments(plan)
    creases = [index for index, joint in enumerate(joints) if joint and joint.turn < 0]
    first = creases[-1] + 1 if creases else 0
    order = [(index + first) % len(laid) for index in range(len(laid))]
    branches: list[_Branch] = []
    states: list[State] = []
    corners: list[bool] = []
    for index in order:
        for number, (state, corner) in enumerate(_steps(laid[index], joints[index])):
            # where the last segment ended this one starts
            if number or not states:
                corners += [corner] if states else []
                states.append(state)
        if index in creases:
            branches.append(_Branch(tuple(states), tuple(corners)))
            states, corners = [], []
    return (branches, True) if creases else ([_Branch(tuple(states), tuple(corners))], False)


def _steps(each: Laid, joint: Bend | None) -> Iterator[tuple[State, bool]]:
    """Yield places along a segment and round the sharp corner after it, each once."""
    corner = each.bend.corner
    count = max(1, math.ceil(abs(each.bend.turn) / STEP))
    yield from ((each.at(step / count), corner) for step in range(count + 1))
    if joint is not None and joint.turn > 0:
        place, heading = each.at(1.0)
        count = math.ceil(joint.turn / STEP)
        for step in range(1, count + 1):
            yield (place, heading + joint.turn * step / count), joint.corner


def _arcs(one: State, other: State, corner: bool) -> list[Bend]:
    """Return the two arcs from one place to another."""
    if math.dist(one[0], other[0]) < _CLOSE:
        return [Bend(0.0, 0.0, corner)] * 2
    return [Bend(bend.length, bend.turn, corner) for bend in biarc(*one, *other)]


def _curve(states: Sequence[State], corners: Sequence[bool]) -> Outline:
    """Return a curve through places, two arcs to a step; it need not be closed."""
    bends = [
        bend
        for (one, other), corner in zip(pairwise(states), corners, strict=True)
        for bend in _arcs(one, other, corner)
    ]
    return Outline(*states[0], tuple(bends))


_Levels = Sequence[Sequence[Sequence[State]]]
"""At each level, of each branch, where its places lie under the layer."""


def _trimmed(branches: Sequence[_Branch], moved_levels: _Levels) -> list[Outline] | None:
    """Return at each level all branches, each cut off where it crosses its neighbours."""
    curves = [
        [_curve(states, each.corners) for states, each in zip(level, branches, strict=True)]
        for level in moved_levels
    ]
    bends: list[list[Bend]] = [[] for _ in curves]
    starts: list[State] = []
    for index, branch in enumerate(branches):
        spans = []
        for level in curves:
            here, after = level[index], level[(index + 1) % len(level)]
            start, end = _crossing(level[index - 1], here), _crossing(here, after)
            if start is None or end is None:
                return None
            spans.append((start[1], end[0]))
        kept = _kept(spans, [level[index] for level in curves])
        if kept is None:
            return None
        for number, (level, span) in enumerate(zip(curves, spans, strict=True)):
            part = _part(level[index], moved_levels[number][index], branch.corners, span, kept)
            joint = _joint(level[index], span[1], level[(index + 1) % len(level)])
            bends[number] += [*part, joint]
            if not index:
                starts.append(level[0].state(span[0]))
    return [Outline(*start, tuple(each)) for start, each in zip(starts, bends, strict=True)]


def _crossing(one: Outline, other: Outline) -> tuple[float, float] | None:
    """Return at which lengths the end of a curve crosses the start of the next (Newton's rule)."""
    a, b = one.girth * (1 - _CLOSE), other.girth * _CLOSE
    for _ in range(_ROUNDS):
        (x, y), (p, q) = one.at(a), other.at(b)
        along, across = one.direction(a), other.direction(b)
        gap = p - x, q - y
        sine = math.sin(across - along)
        if abs(sine) < _CLOSE:
            return None
        step = gap[0] * math.sin(across) - gap[1] * math.cos(across)
        back = gap[0] * math.sin(along) - gap[1] * math.cos(along)
        a, b = a + step / sine, b + back / sine
        if not (0 < a < one.girth and 0 < b < other.girth):
            return None
        if math.hypot(*gap) < _CLOSE:
            return a, b
    return None


def _kept(
    spans: Sequence[tuple[float, float]], curves: Sequence[Outline]
) -> tuple[int, int] | None:
    """Return the first and last place of a branch that no level cuts off."""
    first, last = 0, len(curves[0].bends)
    for (start, end), curve in zip(spans, curves, strict=True):
        ends = [0.0, *curve.ends[1::2]]
        first = max(first, bisect_right(ends, start))
        last = min(last, bisect_right(ends, end) - 1)
    return (first, last) if first <= last else None


def _part(
    curve: Outline,
    states: Sequence[State],
    corners: Sequence[bool],
    span: tuple[float, float],
    kept: tuple[int, int],
) -> list[Bend]:
    """Return a curve between two lengths, whole steps between the places that are kept."""
    first, last = kept
    return [
        *_arcs(curve.state(span[0]), states[first], corners[first - 1]),
        *curve.bends[2 * first : 2 * last],
        *_arcs(states[last], curve.state(span[1]), corners[min(last, len(corners) - 1)]),
    ]


def _joint(one: Outline, end: float, other: Outline) -> Bend:
    """Return the sharp corner where a curve crosses the next."""
    crossing = _crossing(one, other)
    if crossing is None:
        raise AssertionError("the curves were found to cross")
    turn = math.remainder(other.direction(crossing[1]) - one.direction(end), math.tau)
    return Bend(0.0, turn, corner=abs(turn) > CORNER)
