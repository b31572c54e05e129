"""Maps of pieces in several parts: which part is on which sheet, and what it meets."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise

import numpy as np

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.flow import Block
from templates_gen.drawing.once import lines_once
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, LOOSE, SMALL, Line, height, set_lines
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import cutter
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import line, rectangle
from templates_gen.geometry.warp import bent
from templates_gen.sheets.lattice import Cell, Lattice

WIDTH, HEIGHT, GAP = 46.0, 34.0, 4.0
"""Room for the map of a split piece, and the gap beside it, mm."""
COLUMN, ROW = 8.0, 9.5
"""The least width of a column of parts in it and the least height of a row, mm."""
COLUMNS = 3
"""Columns of parts that this width holds; a map of more columns is wider."""
TOP = 5.0
"""Room above a map for the name of its piece, mm."""
AIR = 0.5
"""Between words and the lines that stop for them, mm."""

Places = Mapping[str, Mapping[str, int]]
"""For each piece and window code, the sheet it is on, counted from 0 after the cover."""


def least_size(lattice: Lattice) -> tuple[float, float]:
    """Return how wide and tall a map is at the least, mm."""
    return (len(lattice.lines_x) + 1) * COLUMN, TOP + (len(lattice.lines_y) + 1) * ROW


def order_of_parts(lattice: Lattice) -> str:
    """Say how the parts of a piece are arranged where there are too many for a map."""
    columns, rows = len(lattice.lines_x) + 1, len(lattice.lines_y) + 1
    return (
        f"{lattice.piece.title}: {rows} rows of {columns} parts. Part 1 is at the top left; the"
        " others follow from left to right, then down."
    )


def maps(lattices: Sequence[Lattice], places: Places, first: int, width: float) -> list[Block]:
    """Draw the maps of split pieces, as many beside each other as have room."""
    rows: list[tuple[Drawing, float]] = []
    x = width
    for lattice in lattices:
        available = min(WIDTH * math.ceil((len(lattice.lines_x) + 1) / COLUMNS), width)
        scale = _Scale.of(lattice, available)
        available = max(available, scale.xs[-1])
        drawing = _map(lattice, places[lattice.piece.id], first, available, scale)
        if x + available > width:
            rows.append((Drawing(), 0.0))
            x = 0.0
        row, tall = rows[-1]
        drawing = drawing.moved(x, 0)
        rows[-1] = row + drawing, max(tall, TOP + scale.ys[-1])
        x += available + GAP
    return [Block(tall + 3, row) for row, tall in rows]


@dataclass(frozen=True, slots=True)
class _Scale:
    """Where the edges and match lines of a piece are on its map, from its left and its foot, mm."""

    on_piece: tuple[Sequence[float], Sequence[float]]
    xs: Sequence[float]
    ys: Sequence[float]

    @classmethod
    def of(cls, lattice: Lattice, available: float) -> _Scale:
        """Return the scale of a map; rows and columns are stretched so that words have room."""
        size = lattice.piece.size
        xs, ys = (size.x0, *lattice.lines_x, size.x1), (size.y0, *lattice.lines_y, size.y1)
        tall = max(HEIGHT, (len(ys) - 1) * ROW)
        scale = min(available / size.width, tall / size.height)
        across = _stretched(xs, scale * size.width, COLUMN)
        return cls((xs, ys), across, _stretched(ys, scale * size.height, ROW))

    def at(self, x: float, y: float) -> Point:
        """Return where a point of the piece is on the map, whose foot is at its height below 0."""
        xs, ys = self.on_piece
        across, up = float(np.interp(x, xs, self.xs)), float(np.interp(y, ys, self.ys))
        return across, up - self.ys[-1] - TOP


def _stretched(places: Sequence[float], available: float, least: float) -> list[float]:
    """Return places along an axis, scaled to a length; where too close, ``least`` apart or more.

    What is left of the length is then shared out in proportion to the true steps.
    """
    steps = [after - before for before, after in pairwise(places)]
    scale = available / sum(steps)
    if min(steps) * scale < least:
        spare = max(available - least * len(steps), 0.0)
        return [0.0, *accumulate(least + spare * step / sum(steps) for step in steps)]
    return [0.0, *accumulate(scale * step for step in steps)]


def _map(
    lattice: Lattice, places: Mapping[str, int], first: int, available: float, scale: _Scale
) -> Drawing:
    """Draw one map: the outline, its match lines, part and sheet of each."""
    title = fonts.fitted(lattice.piece.title, available, SMALL, bold=True)
    words = [
        label
        for cell in lattice.cells
        for label in _words(lattice, cell, places[cell.code] + first, scale)
    ]
    clear = cutter([region(rectangle(label.box.expanded(AIR))) for label in words])
    drawn = [Stroke(lattice.piece.outline, Role.GUIDE), *_meeting(lattice)]
    strokes = lines_once(Stroke(clear(bent(each.path, scale.at)), each.role) for each in drawn)
    named = Label(title, (0, -3.6), SMALL, bold=True)
    return Drawing(strokes, (named, *words))


def _meeting(lattice: Lattice) -> Iterator[Stroke]:
    size = lattice.piece.size
    for x in lattice.lines_x:
        yield Stroke(line((x, size.y0), (x, size.y1)), Role.MATCH)
    for y in lattice.lines_y:
        yield Stroke(line((size.x0, y), (size.x1, y)), Role.MATCH)


def _words(lattice: Lattice, cell: Cell, sheet: int, scale: _Scale) -> tuple[Label, ...]:
    """Say in the middle of a part which it is and on which sheet, shorter where it is narrow."""
    tile, number = lattice.tile(cell), lattice.number(cell)
    box = Box(*scale.at(tile.x0, tile.y0), *scale.at(tile.x1, tile.y1))
    ways = [
        (Line(part, LEAST_TEXT), Line(on, LEAST_TEXT, bold=True))
        for part, on in ((f"part {number}", f"sheet {sheet}"), (f"{number}:", f"{sheet}"))
    ]
    fitting = (way for way in ways if max(line.width for line in way) + 2 * AIR < box.width)
    lines = next(fitting, ways[-1])
    x, y = box.centre
    return set_lines(lines, (x, y + height(lines, LOOSE) / 2), Anchor.MIDDLE, LOOSE)
