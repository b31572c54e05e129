"""Where to cut a piece along one of its axes: few stretches, and no match line through words."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from templates_gen.drawing.apart import blocks
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box, union_box

OVERLAP = 10.0
"""What neighbouring windows both show, mm."""
CLEAR = 4.5
"""Room for a register mark on either side of a match line, mm."""
WANDER = 60
"""How far a match line may move to keep clear of words and small things, mm."""
SMALL = 14.0
"""A line that extends less along the axis should not be cut, mm."""

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis of a piece: from where to where, and how many things a cut at each mm would hit."""

    start: float
    end: float
    hits: tuple[int, ...]

    def hits_at(self, place: float) -> int:
        """Return how many things a match line at ``place`` would hit."""
        return self.hits[min(max(round(place - self.start), 0), len(self.hits) - 1)]

    def extended(self, before: float, after: float) -> Axis:
        """Return the axis with more at its ends, where a cut would hit nothing."""
        hits = (0,) * round(before) + self.hits + (0,) * round(after)
        return Axis(self.start - before, self.end + after, hits)


def fewest(axis: Axis, most: float) -> int:
    """Return how many overlapping stretches of at most ``most`` cover an axis."""
    length = axis.end - axis.start
    return max(1, math.ceil((length - OVERLAP) / (most - OVERLAP) - 1e-9))


def axes(piece: Piece, box: Box) -> tuple[Axis, Axis]:
    """Return the axes of a piece along x and y, from edge to edge of ``box``."""
    words = [union_box(label.box for label in block) for block in blocks(piece.drawing.labels)]
    lines = [stroke.path.bounds for stroke in piece.drawing.strokes]
    along_x = [(each.x0, each.x1) for each in words]
    along_y = [(each.y0, each.y1) for each in words]
    along_x += [(each.x0, each.x1) for each in lines if each.width < SMALL]
    along_y += [(each.y0, each.y1) for each in lines if each.height < SMALL]
    return _axis(box.x0, box.x1, along_x), _axis(box.y0, box.y1, along_y)


def _axis(start: float, end: float, things: Iterable[Span]) -> Axis:
    hits = [0] * (math.ceil(end - start) + 1)
    for low, high in things:
        first = max(math.ceil(low - CLEAR - start), 0)
        for place in range(first, min(math.floor(high + CLEAR - start) + 1, len(hits))):
            hits[place] += 1
    return Axis(start, end, tuple(hits))


def spans(axis: Axis, most: float, *, equal: bool) -> list[Span]:
    """Cover an axis with the fewest overlapping stretches of at most ``most``.

    They are as long as possible, or equal, as far as keeping clear of words lets them be.
    """
    length = axis.end - axis.start
    count = fewest(axis, most)
    size = (length + (count - 1) * OVERLAP) / count
    found: list[Span] = []
    start = axis.start
    for left in range(count - 1, 0, -1):
        latest = start + most - OVERLAP / 2
        # the least that the stretches still to come can do; not beyond by a rounding
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
    for step in range(1, WANDER + 1):
        for place in (wanted - step, wanted + step):
            if not fewest_hits:
                return best
            if earliest <= place <= latest and axis.hits_at(place) < fewest_hits:
                best, fewest_hits = place, axis.hits_at(place)
    return best
