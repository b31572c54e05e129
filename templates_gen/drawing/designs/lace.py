"""Lace: bands of lace from mats of one length."""

from __future__ import annotations

from templates_gen.drawing.designs.motif import Cell, Hung, Motif
from templates_gen.geometry.box import nearest_count


def lace(cell: Cell, *, height: float = 40.0, rows: int | None = None) -> Motif:
    """Return the edges of bands about ``height`` mm tall, or of a number of ``rows``."""
    count = rows or nearest_count(cell.height, height)
    tall = cell.height / count
    levels = tuple(row * tall for row in range(count + 1))
    return Motif(
        levels=levels,
        values={"repeat_count": count, "lace_height_mm": tall},
        hung=tuple(Hung(top, tall) for top in levels[:-1]),
    )
