"""Maps of pieces in several parts: which part is on which sheet, and what it meets."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.flow import SMALL, Block
from templates_gen.drawing.once import lines_once
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import cutter
from templates_gen.geometry.path import line, rectangle
from templates_gen.sheets.tiling import Cell, Lattice

WIDTH, HEIGHT, ROW, GAP = 46.0, 34.0, 9.5, 4.0
"""Room for the map of a split piece, the least height of a row of parts in it, the gap, mm."""
COLUMNS = 3
"""Columns of parts that this room holds; more get more room."""
TOP = 5.0
"""Room above a map for the name of its piece, mm."""
PITCH = 3.9
"""From one line of words in a part to the next, mm."""
AIR = 0.5
"""Between words and the lines that stop for them, mm."""

Places = Mapping[str, Mapping[str, int]]
"""For each piece and window code, the sheet it is on, counted from 0 after the cover."""


def maps(lattices: Sequence[Lattice], places: Places, first: int, width: float) -> list[Block]:
    """Draw the maps of split pieces, as many beside each other as have room."""
    rows: list[tuple[Drawing, float]] = []
    x = width
    for lattice in lattices:
        room = min(WIDTH * math.ceil((len(lattice.lines_x) + 1) / COLUMNS), width)
        height, shown = _map(lattice, places[lattice.piece.id], first, room)
        if x + room > width:
            rows.append((Drawing(), 0.0))
            x = 0.0
        row, tall = rows[-1]
        rows[-1] = row + shown.transformed(Transform(1, 0, 0, 1, x, 0)), max(tall, height)
        x += room + GAP
    return [Block(tall + 3, row) for row, tall in rows]


def _map(
    lattice: Lattice, places: Mapping[str, int], first: int, room: float
) -> tuple[float, Drawing]:
    """Return height and drawing of one map: the outline, its match lines, part and sheet of each.

    Flat strips are drawn taller than to scale, so that the words have room.
    """
    size = lattice.piece.size
    rows = len(lattice.lines_y) + 1
    across = min(room / size.width, max(HEIGHT, rows * ROW) / size.height)
    along = max(across, ROW * rows / size.height)
    scaled = Transform(across, 0, 0, along, 0, -TOP - size.height * along)
    title = lettering.fitted(lattice.piece.title, room, SMALL, bold=True)
    words = [
        label
        for cell in lattice.cells
        for label in _words(lattice, cell, places[cell.code] + first, scaled)
    ]
    clear = cutter([region(rectangle(label.box.grown(AIR))) for label in words])
    drawn = [Stroke(lattice.piece.outline.transformed(scaled), Role.GUIDE)]
    drawn += [Stroke(each.path.transformed(scaled), Role.MATCH) for each in _meeting(lattice)]
    strokes = lines_once(Stroke(clear(each.path), each.role) for each in drawn)
    named = Label(title, (0, -3.6), SMALL, bold=True)
    return TOP + size.height * along, Drawing(strokes, (named, *words))


def _meeting(lattice: Lattice) -> Iterator[Stroke]:
    size = lattice.piece.size
    for x in lattice.lines_x:
        yield Stroke(line((x, size.y0), (x, size.y1)), Role.MATCH)
    for y in lattice.lines_y:
        yield Stroke(line((size.x0, y), (size.x1, y)), Role.MATCH)


def _words(lattice: Lattice, cell: Cell, sheet: int, scaled: Transform) -> list[Label]:
    """Say in the middle of a part which it is and on which sheet, shorter where it is narrow."""
    box = lattice.tile(cell).transformed(scaled)
    (x, y), number = box.centre, lattice.number(cell)
    ways: list[tuple[str, ...]] = [(f"{number}: sheet {sheet}",), (f"{number}: {sheet}",)]
    if box.height > 2 * PITCH:
        ways = [(f"part {number}", f"sheet {sheet}"), (f"{number}:", f"{sheet}")]
    lines = next((way for way in ways if _wide(way) < box.width), ways[-1])
    top = y + (len(lines) - 1) * PITCH / 2 - LEAST_TEXT / 3
    return [
        Label(text, (x, top - row * PITCH), LEAST_TEXT, Anchor.MIDDLE, bold=row == len(lines) - 1)
        for row, text in enumerate(lines)
    ]


def _wide(lines: Sequence[str]) -> float:
    return max(lettering.text_width(text, LEAST_TEXT, bold=True) for text in lines) + 1
