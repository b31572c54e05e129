"""Fringe: strips slit into threads, that hang in rows."""

from __future__ import annotations

from templates_gen.drawing.designs.motif import Cell, Hung, Motif
from templates_gen.geometry.box import nearest_count

HELD = 5.0
"""How much of a fringe is left whole above the slits, mm: common practice, no source."""


def fringe(cell: Cell, *, height: float = 25.0, rows: int | None = None) -> Motif:
    """Return a line to hang each row from, about ``height`` mm apart, or for a number of ``rows``.

    Each row hangs down to the line below it and is held by a whole edge above.
    """
    count = rows or nearest_count(cell.height, height)
    tall = cell.height / count
    tops = tuple(row * tall for row in range(count))
    return Motif(
        levels=tops,
        values={"repeat_count": count, "slit_length_mm": tall},
        hung=tuple(Hung(top, tall + HELD) for top in tops),
    )
