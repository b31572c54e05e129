"""Stripes: upright bands from the top of the design to its foot."""

from __future__ import annotations

from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle


def stripes(cell: Cell, *, breadth: float | None = None) -> Motif:
    """Return one stripe to a repeat, ``breadth`` mm wide or half of the repeat."""
    wide = cell.width / 2 if breadth is None else breadth
    within("breadth", wide, cell.width, "a repeat")
    left = (cell.width - wide) / 2
    stripe = rectangle(Box(left, 0, left + wide, cell.height))
    return Motif((stripe,), values={"stripe_width_mm": wide})
