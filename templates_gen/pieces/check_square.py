"""The check square: to draw or cut first, and to measure, before anything that matters is cut."""

from __future__ import annotations

from templates_gen.drawing.drawing import Anchor, Drawing, Label
from templates_gen.drawing.piece import PACK, Piece
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.units import decimal

SIDE = 100.0
"""Its side, mm."""


def check_square() -> Piece:
    """Return the square as a piece of its own, which belongs to no tier."""
    words = f"{decimal(SIDE)} mm square"
    use = f"Cut or draw this first: each side must measure {decimal(SIDE)} mm."
    return Piece(
        owner=PACK,
        kind="check-square",
        title="Check square",
        surface="",
        use=use,
        outline=rectangle(Box(0, 0, SIDE, SIDE)),
        drawing=Drawing(labels=(Label(words, (SIDE / 2, SIDE / 2), 5, Anchor.MIDDLE),)),
    ).finished()
