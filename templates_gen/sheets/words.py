"""The words of a piece on its windows: each text on one of them, whole, and over no other text."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import product

from fontTools.misc.transform import Transform

from templates_gen.drawing import lettering
from templates_gen.drawing.path import Box, Point, joined
from templates_gen.drawing.piece import Anchor, Drawing, Label
from templates_gen.sheets.split import Lattice
from templates_gen.sheets.stretches import blocks

APART = 1.0
"""What is left between a text that had to move and any other, mm."""
LEADING = 1.35
NARROWER = (1, 2, 3, 4, 6)
"""In how many parts a line of text that finds no place is broken."""
_TOUCH = 1e-6
"""Texts that share less stand beside each other, mm."""


@dataclass(frozen=True, slots=True)
class _Text:
    """Lines that stay together, and the box round them."""

    lines: Sequence[Label]
    box: Box

    @classmethod
    def of(cls, lines: Sequence[Label]) -> _Text:
        return cls(lines, joined(label.box for label in lines))

    def moved(self, dx: float, dy: float) -> list[Label]:
        return [replace(label, at=(label.at[0] + dx, label.at[1] + dy)) for label in self.lines]

    def broken(self, parts: int) -> _Text:
        """Return the text with its lines broken to a part of its width, about the same middle."""
        width = self.box.width / parts + 2 * self.lines[0].size
        rows = [
            replace(label, text=row, anchor=Anchor.MIDDLE, continues=True)
            for label in self.lines
            for row in lettering.wrapped(label.text, width, label.size, bold=label.bold)
        ]
        (x, y), down = self.box.centre, 0.0
        for place, row in enumerate(rows):
            rows[place] = replace(row, at=(x, y - down), continues=place > 0)
            down += row.size * LEADING
        return _Text.of(rows)


def shared_out(lattice: Lattice) -> dict[str, list[Label]]:
    """Share the labels of a piece out to its windows, by code.

    A text goes to the window that shows most of it. One that lies across a match line is moved
    beside the line, to the nearest place free of other texts; if that window has none, another's;
    if none has, its lines are broken.
    """
    if len(lattice.cells) == 1:
        return {lattice.cells[0].code: list(lattice.piece.drawing.labels)}
    shared: dict[str, list[Label]] = {cell.code: [] for cell in lattice.cells}
    rooms = {cell.code: lattice.room(cell) for cell in lattice.cells}
    moving: list[_Text] = []
    for text in map(_Text.of, blocks(lattice.piece.drawing.labels)):
        code = max(rooms, key=lambda code: _shown(rooms[code], text.box))
        if rooms[code].holds(text.box):
            shared[code] += text.lines
        else:
            moving.append(text)
    for text in moving:
        code, lines = _placed(text, rooms, shared)
        shared[code] += lines
    return shared


def readable(drawing: Drawing) -> Drawing:
    """Return a drawing whose texts are not upside down: those that were are turned about."""
    labels: list[Label] = []
    for lines in blocks(drawing.labels):
        if 90.5 < lines[0].turn % 360 < 269.5:
            x, y = joined(label.box for label in lines).centre
            about = Transform(-1, 0, 0, -1, 2 * x, 2 * y)
            labels += [label.transformed(about) for label in lines]
        else:
            labels += lines
    return Drawing(drawing.strokes, tuple(labels))


def _shown(room: Box, box: Box) -> tuple[float, float]:
    """Return how much of ``box`` a room holds, and how near its middle is, for comparing."""
    part = room.common(box)
    area = part.width * part.height if part else 0.0
    return area, -math.dist(room.centre, box.centre)


def _placed(
    text: _Text, rooms: dict[str, Box], shared: dict[str, list[Label]]
) -> tuple[str, list[Label]]:
    """Return a window with a free place for a text, and its lines there.

    Where there is none, the text goes beside the match line whatever is there.
    """
    codes = sorted(rooms, key=lambda code: _shown(rooms[code], text.box), reverse=True)
    level = not any(label.turn for label in text.lines)
    for parts in NARROWER if level else NARROWER[:1]:
        narrower = text.broken(parts) if parts > 1 else text
        for code in codes:
            taken = [label.box for label in shared[code]]
            move = _clear_move(narrower.box, rooms[code], taken)
            if move is not None:
                return code, narrower.moved(*move)
    return codes[0], text.moved(*_into(text.box, rooms[codes[0]]))


def _into(box: Box, room: Box) -> Point:
    """Return by how much to move ``box`` so that it lies in ``room``, its start at the least."""
    return (
        max(room.x0 - box.x0, min(room.x1 - box.x1, 0.0)),
        max(room.y0 - box.y0, min(room.y1 - box.y1, 0.0)),
    )


def _clear_move(box: Box, room: Box, taken: Iterable[Box]) -> Point | None:
    """Return the least move that brings ``box`` into ``room`` and clear of ``taken``, if any.

    The nearest free place is beside another text, so those are tried: along the line first.
    """
    if box.width > room.width or box.height > room.height:
        return None
    dx, dy = _into(box, room)
    others = [each.grown(APART) for each in taken]
    xs = [dx, *(x for each in others for x in (each.x0 - box.x1, each.x1 - box.x0))]
    ys = [dy, *(y for each in others for y in (each.y0 - box.y1, each.y1 - box.y0))]
    inner = box.grown(-_TOUCH)
    for moves in ([(x, dy) for x in xs], product(xs, ys)):
        for move in sorted(moves, key=lambda move: math.hypot(*move)):
            there = inner.moved(*move)
            if room.holds(there) and not any(other.common(there) for other in others):
                return move
    return None
