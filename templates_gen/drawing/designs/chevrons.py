"""Chevrons: zigzag lines."""

from __future__ import annotations

import math

from templates_gen.drawing.designs.motif import Cell, Motif, rising, stacked, within
from templates_gen.geometry.path import polyline


def chevrons(cell: Cell, *, drop: float | None = None, rows: int = 1) -> Motif:
    """Return ``rows`` zigzag lines, each ``drop`` mm from its tips down to its dips.

    A dip stands in the middle of the repeat. ``line_length_mm`` is that of one line in one repeat.
    """
    usual = min(cell.width / 2, cell.height / rows)
    tall = within("drop", usual if drop is None else drop, cell.height, "the band of the design")
    zigzag = polyline(((0.0, 0.0), (cell.width / 2, tall), (cell.width, 0.0)))
    return Motif(
        stacked([zigzag], rising(cell.height, tall, rows)),
        values={
            "rows": rows,
            "angle_deg": 2 * math.degrees(math.atan2(cell.width / 2, tall)),
            "line_length_mm": 2 * math.hypot(cell.width / 2, tall),
        },
    )
