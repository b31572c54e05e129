"""Waves: lines that rise and fall."""

from __future__ import annotations

import math

from templates_gen.drawing.designs.motif import Cell, Motif, rising, stacked, within
from templates_gen.geometry.box import Point
from templates_gen.geometry.curves import graph

PIECES = 16
"""Cubics to a wave: they leave it by less than 7e-5 of its half drop."""


def waves(cell: Cell, *, drop: float | None = None, rows: int = 1) -> Motif:
    """Return ``rows`` sine waves, each ``drop`` mm from its crests to its troughs.

    A trough stands in the middle of the repeat.
    """
    usual = min(cell.width / 3, cell.height / rows)
    tall = within("drop", usual if drop is None else drop, cell.height, "the band of the design")
    turn = math.tau / cell.width

    def curve(x: float) -> Point:
        return tall / 2 * (1 - math.cos(turn * x)), tall / 2 * turn * math.sin(turn * x)

    wave = graph(curve, 0.0, cell.width, PIECES)
    return Motif(
        stacked([wave], rising(cell.height, tall, rows)),
        values={"rows": rows, "wave_height_mm": tall},
    )
