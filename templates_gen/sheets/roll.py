"""Pieces on a roll: whole, beside and after each other, on as short a length as can be found."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from templates_gen.drawing.piece import Piece
from templates_gen.geometry.roots import halved
from templates_gen.sheets.frame import Frame
from templates_gen.sheets.layout import Layout, arranged, lay_out

STEP = 10.0
"""The length is found to this, mm."""
SHORTEST = 250.0
"""A shorter piece of a roll is a nuisance to print, mm."""


def lay_out_roll(
    pieces: Sequence[Piece], frame_of: Callable[[float], Frame], longest: float
) -> Layout:
    """Lay pieces out on a roll, whose frame is that of a length in mm, up to the ``longest``.

    Where one length does not hold them all there are several of the same length. A piece is split
    only where it is wider than the roll whichever way it lies.
    """
    fewest = _parts(pieces, frame_of(longest))

    def is_short(length: float) -> bool:
        return _parts(pieces, frame_of(length)) != fewest

    return lay_out(pieces, frame_of(halved(is_short, SHORTEST, longest, STEP)[1]))


def _parts(pieces: Sequence[Piece], frame: Frame) -> tuple[int, int]:
    """Return how many parts of pieces there are on a frame, and how many sheets they take."""
    found = arranged(pieces, frame.field)
    return len(found.spots), found.sheets
