"""Where to cut a piece along one of its axes: few intervals, and no match line through words."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from templates_gen.drawing.apart import blocks
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box, Point, Span, union_box
from templates_gen.geometry.path import straights

OVERLAP = 10.0
"""What neighbouring windows both show, mm."""
CLEAR = 4.5
"""Room for a register mark on either side of a match line, mm."""
SMALL = 14.0
"""A line that extends less along the axis should not be cut, mm."""
LONG, BESIDE, TOO_NEAR = 10.0, 8.0, 2.0
"""A match line should be so far from a line as long and parallel to it, and not nearer, mm."""
SHORT = 4.0
"""A line as long and parallel to a match line should not be nearer than TOO_NEAR, mm: a tick."""
_LONG_WEIGHTS, _SHORT_WEIGHTS = ((BESIDE, 50), (TOO_NEAR, 200)), ((TOO_NEAR, 50),)
"""What a cut nearer than this to such a line counts as, in things hit: words can be moved."""
_STAYING_WEIGHT = 50
"""What a cut through words counts as that cannot be moved, in things hit."""
LEAN = 0.02
"""A line that leans no more than this, mm per mm, is as good as parallel: about 1 degree."""

Hits = tuple[float, float, int]
"""From where to where a cut hits a number of things."""


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis of a piece: from where to where, and how many things a cut at each mm would hit."""

    start: float
    end: float
    hits: tuple[int, ...]

    def hits_at(self, place: float) -> int:
        """Return how many things a match line at ``place`` would hit."""
        return self.hits[min(max(round(place - self.start), 0), len(self.hits) - 1)]

    def is_near_line(self, place: float) -> bool:
        """Tell whether a match line at ``place`` lies too near to a line parallel to it."""
        return self.hits_at(place) >= _LONG_WEIGHTS[0][1]

    def extended(self, before: float, after: float) -> Axis:
        """Return the axis with more at its ends, where a cut would hit nothing."""
        hits = (0,) * round(before) + self.hits + (0,) * round(after)
        return Axis(self.start - before, self.end + after, hits)


def fewest(axis: Axis, most: float) -> int:
    """Return how many overlapping intervals of at most ``most`` cover an axis."""
    length = axis.end - axis.start
    return max(1, math.ceil((length - OVERLAP) / (most - OVERLAP) - 1e-9))


def axes(piece: Piece, box: Box) -> tuple[Axis, Axis]:
    """Return the axes of a piece along x and y, from edge to edge of ``box``."""
    texts = blocks(piece.drawing.labels)
    words = [union_box(label.box for label in block) for block in texts]
    weights = [_STAYING_WEIGHT if block[0].stays else 1 for block in texts]
    lines = [stroke.path.bounds for stroke in piece.drawing.strokes]
    straight = [each for stroke in piece.drawing.strokes for each in straights(stroke.path)]

    def along(axis: int) -> Axis:
        small = [(each, 1) for each in lines if each.size[axis] < SMALL]
        things = (*zip(words, weights, strict=True), *small)
        hits = ((each[axis], each[axis + 2], weight) for each, weight in things)
        return _axis(box[axis], box[axis + 2], hits, _parallel(straight, axis=1 - axis))

    return along(0), along(1)


def _parallel(straight: Iterable[tuple[Point, Point]], *, axis: int) -> Iterator[Hits]:
    """Yield what a cut along an axis, 0 or 1, hits near the straight lines that run along it."""
    for a, b in straight:
        if runs_along(a, b, axis=axis, least=SHORT):
            low, high = span(a[1 - axis], b[1 - axis])
            long = runs_along(a, b, axis=axis)
            for away, count in _LONG_WEIGHTS if long else _SHORT_WEIGHTS:
                yield low - away, high + away, count


def runs_along(a: Point, b: Point, *, axis: int, least: float = LONG) -> bool:
    """Tell whether a straight line is a long one along an axis, 0 or 1."""
    long = abs(a[axis] - b[axis])
    return long > least and abs(a[1 - axis] - b[1 - axis]) <= LEAN * long


def span(one: float, other: float) -> Span:
    """Return the interval between two places."""
    return min(one, other), max(one, other)


def _axis(start: float, end: float, things: Iterable[Hits], lines: Iterable[Hits]) -> Axis:
    """Return an axis with these things on it, and what cuts near lines across it hit."""
    counted = [*((low - CLEAR, high + CLEAR, count) for low, high, count in things), *lines]
    hits = [0] * (math.ceil(end - start) + 1)
    for low, high, count in counted:
        # of places that are nearest to a whole mm one that hits is enough
        first, last = math.ceil(low - start - 0.5), math.floor(high - start + 0.5)
        for index in range(max(first, 0), min(last + 1, len(hits))):
            hits[index] += count
    return Axis(start, end, tuple(hits))


def spans(axis: Axis, most: float, *, equal: bool, more: int = 0) -> list[Span]:
    """Cover an axis with the fewest overlapping intervals up to ``most``, or with some ``more``.

    They are as long as possible, or equal, as far as keeping clear of words lets them be.
    """
    length = axis.end - axis.start
    count = fewest(axis, most) + more
    size = (length + (count - 1) * OVERLAP) / count
    found: list[Span] = []
    start = axis.start
    for left in range(count - 1, 0, -1):
        latest = start + most - OVERLAP / 2
        # the least that the intervals still to come can do; not beyond by a rounding
        earliest = min(axis.end + OVERLAP / 2 - left * most + (left - 1) * OVERLAP, latest)
        wanted = axis.start + (count - left) * (size - OVERLAP) + OVERLAP / 2 if equal else latest
        cut = _clear_cut(axis, earliest, latest, wanted)
        found.append((start, cut + OVERLAP / 2))
        start = cut - OVERLAP / 2
    return [*found, (start, axis.end)]


def _clear_cut(axis: Axis, earliest: float, latest: float, wanted: float) -> float:
    """Return the place nearest to ``wanted`` at which a cut hits the fewest things."""
    wanted = min(max(wanted, earliest), latest)
    best, fewest_hits = wanted, axis.hits_at(wanted)
    for step in range(1, math.ceil(latest - earliest) + 1):
        for place in (wanted - step, wanted + step):
            if not fewest_hits:
                return best
            if earliest <= place <= latest and axis.hits_at(place) < fewest_hits:
                best, fewest_hits = place, axis.hits_at(place)
    return best
