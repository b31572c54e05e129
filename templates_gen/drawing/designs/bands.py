"""Bands: level lines that part a side into equal bands."""

from __future__ import annotations

from templates_gen.drawing.designs.motif import Cell, Motif
from templates_gen.geometry.box import nearest_count


def bands(cell: Cell, *, height: float = 20.0, rows: int | None = None) -> Motif:
    """Return level bands about ``height`` mm tall, or a number of ``rows``."""
    count = rows or nearest_count(cell.height, height)
    tall = cell.height / count
    levels = tuple(row * tall for row in range(count + 1))
    return Motif(levels=levels, values={"repeat_count": count, "band_height_mm": tall})
