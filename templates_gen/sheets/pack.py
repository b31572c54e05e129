"""The pack: numbered sheets on which every coordinate is final, in mm from the lower left."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from fontTools.misc.transform import Identity, Offset, Transform

from templates_gen.cakefile.papers import Paper
from templates_gen.cakefile.printers import Printer
from templates_gen.cakefile.slug import slug
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box, Point
from templates_gen.units import counted


@dataclass(frozen=True, slots=True)
class Mark:
    """A register mark: the same point on the piece and on the sheet."""

    on_piece: Point
    on_sheet: Point


@dataclass(frozen=True, slots=True)
class Window:
    """A part of a piece on a sheet: ``box`` of the piece's frame, and the map to the sheet.

    Its ``overlaps``, boxes of the same frame, are what it shows beyond match lines: filled grey.
    """

    piece: Piece
    code: str
    box: Box
    to_sheet: Transform
    marks: tuple[Mark, ...] = ()
    overlaps: tuple[Box, ...] = ()

    def placed(self, move: Transform) -> Window:
        """Return the window at another place of the sheet."""
        to_sheet = move.transform(self.to_sheet)
        marks = tuple(
            Mark(mark.on_piece, to_sheet.transformPoint(mark.on_piece)) for mark in self.marks
        )
        return replace(self, to_sheet=to_sheet, marks=marks)


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page: windows on pieces, and what is drawn over them, labels of the pieces included."""

    number: int
    windows: tuple[Window, ...]
    drawing: Drawing

    def moved(self, dx: float, dy: float) -> Sheet:
        """Return the sheet with everything on it moved."""
        move = Offset(dx, dy)
        windows = tuple(window.placed(move) for window in self.windows)
        return Sheet(self.number, windows, self.drawing.transformed(move))


@dataclass(frozen=True, slots=True)
class Pack:
    """All sheets of a cake on one paper; ``area`` is the printable area used.

    With a ``printer`` the sheets are for it alone: a page is a sheet mapped by ``to_page``.
    """

    title: str
    pack_mark: str
    paper: Paper
    area: Box
    sheets: tuple[Sheet, ...]
    printer: Printer | None = None

    @property
    def name(self) -> str:
        """What its files are called, such as ``tea-time-a4``; the printer's name follows."""
        of_printer = f"-{slug(self.printer.name, 'printer')}" if self.printer else ""
        return f"{slug(self.title)}-{self.paper.name}{of_printer}"

    @property
    def to_page(self) -> Transform:
        """The map from a sheet as it must come out to the page in the file, about its middle.

        It undoes what the printer does to lengths: its scale times the printer's is 1 each way.
        """
        if self.printer is None:
            return Identity
        x, y = self.paper.width / 2, self.paper.height / 2
        scaled = Transform().translate(x, y).scale(1 / self.printer.across, 1 / self.printer.up)
        return scaled.translate(-x, -y)

    @property
    def extent(self) -> str:
        """How much it is, in words: ``9 pieces on 12 A4 pages``."""
        pieces = {window.piece.id for sheet in self.sheets for window in sheet.windows}
        pages = counted(len(self.sheets), f"{self.paper.title} page")
        if not pieces:
            return f"cover on {pages}"
        return f"{counted(len(pieces), 'piece')} on {pages}"

    def reworded(self, say: Callable[[str], str]) -> Pack:
        """Return the pack with everything that is written on its sheets in other words."""
        sheets = (replace(each, drawing=each.drawing.reworded(say)) for each in self.sheets)
        return replace(self, sheets=tuple(sheets))

    def on(self, paper: Paper) -> Pack:
        """Return the same sheets in the middle of another paper that was among the shared ones."""
        if paper == self.paper:
            return self
        dx, dy = (paper.width - self.paper.width) / 2, (paper.height - self.paper.height) / 2
        moved = tuple(sheet.moved(dx, dy) for sheet in self.sheets)
        return replace(self, paper=paper, area=self.area.moved(dx, dy), sheets=moved)
