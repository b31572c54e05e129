"""Diamonds: the lines of quilting."""

from __future__ import annotations

import math

from templates_gen.drawing.designs.motif import Cell, Motif, rising, stacked
from templates_gen.geometry.box import nearest_count
from templates_gen.geometry.path import polyline


def diamonds(cell: Cell, *, height: float | None = None, rows: int | None = None) -> Motif:
    """Return diamonds as wide as the repeat, in a number of ``rows`` or about ``height`` mm tall.

    Those of one row touch; the ones between the rows come of themselves. ``angle_deg`` is the angle
    at the upper tip, ``slope_deg`` that of the lines against the level.
    """
    count = rows or nearest_count(cell.height, height or cell.width)
    tall, wide = cell.height / count, cell.width
    corners = ((0.0, tall / 2), (wide / 2, tall), (wide, tall / 2), (wide / 2, 0.0))
    diamond = polyline(corners, closed=True)
    slope = math.degrees(math.atan2(tall, wide))
    return Motif(
        stacked([diamond], rising(cell.height, tall, count)),
        values={
            "rows": count,
            "diamond_width_mm": wide,
            "diamond_height_mm": tall,
            "angle_deg": 180 - 2 * slope,
            "slope_deg": slope,
        },
    )
