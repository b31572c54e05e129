"""The pack: numbered sheets on which every coordinate is final, in mm from the lower left."""

from __future__ import annotations

from dataclasses import dataclass

from fontTools.misc.transform import Transform

from templates_gen.cake.papers import Paper
from templates_gen.drawing.path import Box, Point
from templates_gen.drawing.piece import Drawing, Piece


@dataclass(frozen=True, slots=True)
class Mark:
    """A register mark: the same point on the piece and on the sheet."""

    on_piece: Point
    on_sheet: Point


@dataclass(frozen=True, slots=True)
class Window:
    """A part of a piece on a sheet: ``box`` of the piece's frame, and the map to the sheet."""

    piece: Piece
    code: str
    box: Box
    to_sheet: Transform
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Sheet:
    """One page: windows on pieces, and what is drawn over them, labels of the pieces included."""

    number: int
    windows: tuple[Window, ...]
    drawing: Drawing


@dataclass(frozen=True, slots=True)
class Pack:
    """All sheets of a cake on one paper; ``area`` is the printable area used."""

    title: str
    paper: Paper
    area: Box
    sheets: tuple[Sheet, ...]
