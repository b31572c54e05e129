"""Ruffles: level lines to set rows of frills along."""

from __future__ import annotations

from typing import Literal

from templates_gen.drawing.designs.motif import Cell, Hung, Motif
from templates_gen.geometry.box import nearest_count

HELD = 6.0
"""What a frill is taller than the space that it shows in, mm: common practice, no source."""
FALL = 0.85
"""A space over the one below it, where spaces fall: common practice, no source."""


def ruffles(
    cell: Cell,
    *,
    height: float = 18.0,
    rows: int | None = None,
    form: Literal["even", "falling"] = "even",
) -> Motif:
    """Return a line for each row of frills, about ``height`` mm apart, or for a number of ``rows``.

    Even: all spaces alike. Falling: each space is less than the one below it. The lowest line
    stands at the foot, and the topmost frill reaches to the top of the band.
    """
    count = rows or nearest_count(cell.height, height)
    shares = [(FALL if form == "falling" else 1.0) ** row for row in range(count)]
    unit = cell.height / sum(shares)
    spaces = tuple(share * unit for share in shares)
    levels = tuple(cell.height - sum(spaces[:row]) for row in range(count))
    hung = tuple(Hung(level, space + HELD) for level, space in zip(levels, spaces, strict=True))
    return Motif(levels=levels, values={"repeat_count": count, "spacing_mm": spaces}, hung=hung)
