"""The windows in which a piece is printed, on a lattice, each with its caption."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from templates_gen.drawing.drawing import Label
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.booleans import Area
from templates_gen.geometry.box import Box
from templates_gen.sheets import captions
from templates_gen.sheets.captions import Caption, strip_width
from templates_gen.sheets.spans import CLEAR

GAP = 3.0
"""Between windows on one sheet, mm."""
NARROW = 40.0
"""A window narrower than this is awkward to tape, mm."""
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"


@dataclass(frozen=True)
class Cell:
    """A window that has no place yet: row and column of the lattice, box in the piece's frame.

    Its ``caption`` stands above it, or along its left when ``upright``; where there are ``labels``
    they are the caption set on the piece itself, in the piece's frame.
    """

    row: int
    column: int
    box: Box
    upright: bool
    caption: Caption
    labels: tuple[Label, ...] = ()

    @property
    def code(self) -> str:
        """Row letter and column number; rows from the top, no I and no O."""
        return code(self.row, self.column)

    @cached_property
    def strip_width(self) -> float:
        """Room for the caption along one side of the window, mm."""
        return 0.0 if self.labels else strip_width(self.caption)

    @cached_property
    def size(self) -> tuple[float, float]:
        """Width and height with the caption and half a gap all round."""
        long = 0.0 if self.labels else captions.width(self.caption)
        if self.upright:
            return self.box.width + GAP + self.strip_width, max(self.box.height, long) + GAP
        return max(self.box.width, long) + GAP, self.box.height + GAP + self.strip_width


@dataclass(frozen=True)
class Lattice:
    """A piece's windows, and the match lines in the middle of the overlaps: x of each, y of each.

    ``words`` are the labels of the piece but for what a caption on it says. Of a piece in several
    windows it holds the filled outline, ``area``. It ``is_misleading`` where a match line lies so
    near to a parallel line of the piece that one is taken for the other.
    """

    piece: Piece
    cells: tuple[Cell, ...]
    words: tuple[Label, ...]
    area: Area | None = None
    lines_x: tuple[float, ...] = ()
    lines_y: tuple[float, ...] = ()
    is_misleading: bool = False

    def number(self, cell: Cell) -> int:
        """Return which part of the piece a window shows, from 1."""
        return self.cells.index(cell) + 1

    def part(self, cell: Cell) -> str:
        """Say which part of the piece a window shows: ``part 2 of 4``."""
        return part(self.number(cell), len(self.cells))

    @cached_property
    def is_silent(self) -> bool:
        """Whether its first window has no room to say what to do."""
        return all(line.bold for line in self.cells[0].caption)

    @property
    def is_unnamed(self) -> bool:
        """Whether a window has no room for the names of tier and piece."""
        return not all(captions.is_named(self.piece, cell.caption) for cell in self.cells)

    @cached_property
    def small_names(self) -> int:
        """How many windows have their name smaller than it should be."""
        return sum(captions.is_small(cell.caption) for cell in self.cells)

    @cached_property
    def narrowest(self) -> float:
        """The least length of a window along an axis that is split, mm."""
        return min(map(self._narrow, self.cells))

    @cached_property
    def slivers(self) -> int:
        """How many windows are awkward to tape."""
        return sum(self._narrow(cell) < NARROW for cell in self.cells)

    def _narrow(self, cell: Cell) -> float:
        across = [cell.box.width] if self.lines_x else []
        return min([*across, *([cell.box.height] if self.lines_y else [])], default=math.inf)

    def tile(self, cell: Cell) -> Box:
        """Return the part of the piece between the match lines round a window."""
        size = self.piece.size
        xs = (size.x0, *self.lines_x, size.x1)
        ys = (size.y0, *self.lines_y, size.y1)[::-1]
        return Box(xs[cell.column], ys[cell.row + 1], xs[cell.column + 1], ys[cell.row])

    def space_of(self, cell: Cell) -> Box:
        """Return what a window shows of its tile, without what marks on its match lines take."""
        tile = self.tile(cell)
        space = Box(
            tile.x0 + (CLEAR if tile.x0 in self.lines_x else 0),
            tile.y0 + (CLEAR if tile.y0 in self.lines_y else 0),
            tile.x1 - (CLEAR if tile.x1 in self.lines_x else 0),
            tile.y1 - (CLEAR if tile.y1 in self.lines_y else 0),
        )
        # a window reaches no farther than the piece
        return space.intersection(cell.box) or space


def part(number: int, count: int) -> str:
    """Return the name of one of several parts of a piece."""
    return f"part {number} of {count}"


def code(row: int, column: int) -> str:
    """Return row letter and column number, from 1."""
    return f"{letters(row)}{column + 1}"


def letters(index: int) -> str:
    """Return A, B to Z without I and O, then AA, AB and so on."""
    rest, last = divmod(index, len(_LETTERS))
    return (letters(rest - 1) if rest else "") + _LETTERS[last]
