"""The words of a piece on its windows: each on one of them, whole, over no line and no other."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import REACH, Text, blocks, clear_move, into
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box
from templates_gen.sheets.tiling import Lattice


def shared_out(lattice: Lattice) -> dict[str, list[Label]]:
    """Share the labels of a piece out to its windows, by code.

    A text goes to the window that shows most of it. One that lies across a match line is moved
    beside the line, to the nearest place free of lines and texts; if that window has none,
    another's; if none has, its lines are broken.
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
    drawn = Taken([stroke.path for stroke in lattice.piece.drawing.strokes])
    for text in moving:
        code, lines = _placed(text, rooms, shared, drawn)
        shared[code] += lines
    return shared


def readable(drawing: Drawing, lines: Callable[[], Taken] | None = None) -> Drawing:
    """Return a drawing whose texts are not upside down: those that were are turned about.

    Lines of unequal length that then lie on a line of what is drawn are moved off it.
    """
    labels: list[Label] = []
    for text in map(Text.of, blocks(drawing.labels)):
        if 90.5 < text.lines[0].turn % 360 < 269.5:
            x, y = text.box.centre
            about = Transform(-1, 0, 0, -1, 2 * x, 2 * y)
            text = Text.of([label.transformed(about) for label in text.lines])
            if lines is not None and len(text.lines) > 1:
                text = _off_lines(text, lines(), drawing.labels)
        labels += text.lines
    return Drawing(drawing.strokes, tuple(labels))


def _off_lines(text: Text, lines: Taken, labels: Sequence[Label]) -> Text:
    fits = text.fits(lines)
    if all(fits([(0.0, 0.0)])):
        return text
    others = [label.box for label in labels if not label.box.common(text.box)]
    move = clear_move(text.box, text.box.grown(REACH), others, fits)
    return text if move is None else Text.of(text.moved(*move))


def _shown(room: Box, box: Box) -> tuple[float, float]:
    """Return how much of ``box`` a room holds, and how near its middle is, for comparing."""
    part = room.common(box)
    area = part.width * part.height if part else 0.0
    return area, -math.dist(room.centre, box.centre)


def _placed(
    text: Text, rooms: dict[str, Box], shared: dict[str, list[Label]], drawn: Taken
) -> tuple[str, list[Label]]:
    """Return a window with a free place for a text, and its lines there.

    Where there is none, the text goes beside the match line whatever is there.
    """
    codes = sorted(rooms, key=lambda code: _shown(rooms[code], text.box), reverse=True)
    for narrower in (*text.narrower, *text.smaller.narrower):
        for code in codes:
            taken = [label.box for label in shared[code]]
            move = clear_move(narrower.box, rooms[code], taken, narrower.fits(drawn))
            if move is not None:
                return code, narrower.moved(*move)
    return codes[0], text.moved(*into(text.box, rooms[codes[0]]))
