"""Words kept off each other: which lines of text stay together, and where else a text has room."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Anchor, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEADING, LEAST_TEXT
from templates_gen.geometry.areas.booleans import Area
from templates_gen.geometry.areas.placement import outside, overlapping
from templates_gen.geometry.box import Box, Point, union_box

APART = 1.0
"""What is left between a text that had to move and any other, mm."""
NARROWER = (1, 2, 3, 4, 6)
"""In how many parts a line of text that finds no place is broken."""
STEP, REACH = 3.0, 45.0
"""Farther places are tried so far apart, up to so far away, mm."""
_TOUCH = 1e-6
"""Texts that share less stand beside each other, mm."""


@dataclass(frozen=True, slots=True)
class Text:
    """Lines that stay together, and the box round them."""

    lines: Sequence[Label]
    box: Box

    @classmethod
    def of(cls, lines: Sequence[Label]) -> Text:
        """Return the text of some lines."""
        return cls(lines, union_box(label.box for label in lines))

    def moved(self, dx: float, dy: float) -> list[Label]:
        """Return its lines at another place."""
        return [replace(label, at=(label.at[0] + dx, label.at[1] + dy)) for label in self.lines]

    @property
    def narrower(self) -> Iterable[Text]:
        """The text as it is, then with its lines broken to a part of the width."""
        for parts in NARROWER:
            yield self._broken(parts) if parts > 1 else self

    @property
    def smaller(self) -> Text:
        """The text with its lines no larger than the least that can be read."""
        return Text.of([replace(each, size=min(each.size, LEAST_TEXT)) for each in self.lines])

    def _broken(self, parts: int) -> Text:
        """Return the text with its lines broken to a part of the width, about the same middle."""
        width = max(label.width for label in self.lines) / parts + 2 * self.lines[0].size
        rows = [
            replace(label, text=row, anchor=Anchor.MIDDLE, continues=True)
            for label in self.lines
            for row in lettering.wrapped(label.text, width, label.size, bold=label.bold)
        ]
        (x, y), down = self.box.centre, 0.0
        for index, row in enumerate(rows):
            turn = math.radians(row.turn)
            at = x + down * math.sin(turn), y - down * math.cos(turn)
            rows[index] = replace(row, at=at, continues=index > 0)
            down += row.size * LEADING
        return Text.of(rows)


def blocks(labels: Iterable[Label]) -> list[list[Label]]:
    """Return labels that stay together: the lines of a text, or one label alone."""
    gathered: list[list[Label]] = []
    for label in labels:
        if label.continues and gathered:
            gathered[-1].append(label)
        else:
            gathered.append([label])
    return gathered


def into(box: Box, room: Box) -> Point:
    """Return by how much to move ``box`` so that it lies in ``room``, its start at the least."""
    return (
        max(room.x0 - box.x0, min(room.x1 - box.x1, 0.0)),
        max(room.y0 - box.y0, min(room.y1 - box.y1, 0.0)),
    )


def clear_move(
    box: Box, room: Box, taken: Iterable[Box], holds: Callable[[Box], bool] | None = None
) -> Point | None:
    """Return the least move that brings ``box`` into ``room`` and clear of ``taken``, if any.

    The nearest free place is beside another text, so those are tried: along the line first. Where
    a room ``holds`` less than its box, places round about are tried too.
    """
    if box.width > room.width or box.height > room.height:
        return None
    dx, dy = into(box, room)
    others = [each.grown(APART) for each in taken]
    xs = [dx, *(x for each in others for x in (each.x0 - box.x1, each.x1 - box.x0))]
    ys = [dy, *(y for each in others for y in (each.y0 - box.y1, each.y1 - box.y0))]
    inner = box.grown(-_TOUCH)
    tries = [[(x, dy) for x in xs], list(product(xs, ys))]
    if holds is not None:
        tries.append([(dx + across, dy + up) for across, up in product(_STEPS, _STEPS)])
    for moves in tries:
        for move in sorted(moves, key=lambda move: math.hypot(*move)):
            there = inner.moved(*move)
            free = room.holds(there) and not any(other.common(there) for other in others)
            if free and (holds is None or holds(there)):
                return move
    return None


_STEPS = [STEP * step for step in range(-int(REACH / STEP), int(REACH / STEP) + 1)]


def words_apart(piece: Piece) -> Piece:
    """Return a piece with each word inside it, clear of its openings, and none on another.

    Of two texts the longer is moved: a short one stands at what it names. A text for which a small
    or crowded piece has no place at all is left out: the caption beside the piece names it.
    """
    whole = [Text.of(lines) for lines in blocks(piece.drawing.labels)]
    if not whole:
        return piece
    area = piece.paper
    order = sorted(range(len(whole)), key=lambda place: (whole[place].box.width, place))
    astray = _astray(whole, order, area)
    texts: list[Text | None] = [*whole]
    for place in order:
        if place in astray:
            others = [text for each, text in enumerate(texts) if text and each != place]
            texts[place] = _moved(whole[place], others, area)
    if not astray:
        return piece
    labels = tuple(label for text in texts if text for label in text.lines)
    return replace(piece, drawing=replace(piece.drawing, labels=labels))


def _astray(texts: Sequence[Text], order: Sequence[int], area: Area) -> set[int]:
    """Return which texts are to move: those on one earlier in ``order``, or not inside the area."""
    owner = [place for place in order for _ in texts[place].lines]
    frames = [_frame(label) for place in order for label in texts[place].lines]
    found = {owner[index] for index in outside(area, frames)}
    # of a pair the second is later in the order
    return found | {owner[b] for a, b in overlapping(frames) if owner[a] != owner[b]}


def _frame(label: Label) -> Sequence[Point]:
    """Return the corners of what a label takes, without a hair's breadth round it."""
    top, foot = lettering.CAP_HEIGHT * label.size, -lettering.DESCENT * label.size
    corners: Sequence[Point] = label.frame.transformPoints(
        Box(0, foot, label.width, top).grown(-_TOUCH).corners
    )
    return corners


def _moved(text: Text, others: Sequence[Text], area: Area) -> Text | None:
    """Return a text at the nearest place inside a piece that no other takes, smaller if need be."""
    room = Box(*area.bounds)
    taken = [label.box for other in others for label in other.lines]
    for narrower in (*text.narrower, *text.smaller.narrower):
        start = narrower.box

        def holds(there: Box, lines: Text = narrower, start: Box = start) -> bool:
            moved = lines.moved(there.x0 - start.x0, there.y0 - start.y0)
            return not outside(area, [_frame(label) for label in moved])

        move = clear_move(start, room, taken, holds)
        if move is not None:
            return Text.of(narrower.moved(*move))
    return None
