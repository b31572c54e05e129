"""The words of a piece on its windows: each text on one of them, whole, and over no other text."""

from __future__ import annotations

import math

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import Text, blocks, clear_move, into
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.geometry.box import Box, union_box
from templates_gen.sheets.tiling import Lattice


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
    moving: list[Text] = []
    for text in map(Text.of, blocks(lattice.piece.drawing.labels)):
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
            x, y = union_box(label.box for label in lines).centre
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
    text: Text, rooms: dict[str, Box], shared: dict[str, list[Label]]
) -> tuple[str, list[Label]]:
    """Return a window with a free place for a text, and its lines there.

    Where there is none, the text goes beside the match line whatever is there.
    """
    codes = sorted(rooms, key=lambda code: _shown(rooms[code], text.box), reverse=True)
    for narrower in text.narrower:
        for code in codes:
            taken = [label.box for label in shared[code]]
            move = clear_move(narrower.box, rooms[code], taken)
            if move is not None:
                return code, narrower.moved(*move)
    return codes[0], text.moved(*into(text.box, rooms[codes[0]]))
