"""Bows: two loops, a knot and two tails."""

from __future__ import annotations

import math

from templates_gen.drawing.designs.motif import Cell, Flat, Motif, within
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, polyline, rectangle

USUAL = 0.75
"""Width of a bow over that of the repeat, where none is said: our choice."""
RIBBON, KNOT = 0.32, 0.16
"""Width of the ribbon and of the knot over that of the bow: our choice."""
SEAM = 10.0
"""What the ends of a strip lap where they meet, mm: common practice, no source."""
ROUND_KNOT = 2.5
"""How often the height of the knot a strip goes round it: common practice, no source."""


def bows(cell: Cell, *, breadth: float | None = None, drop: float | None = None) -> Motif:
    """Return a bow ``breadth`` mm wide whose tails reach ``drop`` mm down from its top.

    A strip for the loops goes out and back on both sides: twice the width of the bow and a seam.
    """
    usual = min(USUAL * cell.width, cell.height / (1.5 * RIBBON))
    wide = within("breadth", usual if breadth is None else breadth, cell.width, "a repeat")
    tall = RIBBON * wide
    within("breadth", wide, cell.height / RIBBON, "the band of the design")
    deep = min(max(1.1 * wide, tall), cell.height) if drop is None else max(drop, tall)
    within("drop", deep, cell.height, "the band of the design")
    middle = cell.width / 2, tall / 2
    foot = wide * 0.3, deep
    tails = [_tail(middle, (sign * foot[0], foot[1]), tall * 0.6) for sign in (-1, 1)]
    knot = KNOT * wide / 2
    paths = (
        *(_loop(middle, sign * wide / 2, tall) for sign in (-1, 1)),
        rectangle(Box(middle[0] - knot, tall * 0.2, middle[0] + knot, tall * 0.8)),
        *(tails if deep > tall else ()),
    )
    reach = math.hypot(foot[0], deep - tall / 2)
    flats = (
        Flat("loops", 2 * wide + SEAM, tall, 1),
        Flat("knot", ROUND_KNOT * tall, 2 * knot, 1),
        *((Flat("tail", reach, tall * 0.6, 2),) if deep > tall else ()),
    )
    values = {"bow_width_mm": wide, "ribbon_width_mm": tall, "tail_length_mm": reach}
    return Motif(paths, values=values, flats=flats)


def _loop(middle: Point, reach: float, tall: float) -> Path:
    """Return a loop from the knot outwards, and back."""
    (x, y), half = middle, tall / 2
    return Path(
        (
            ("moveTo", (middle,)),
            ("curveTo", ((x + reach / 2, y - half), (x + reach, y - half * 1.2), (x + reach, y))),
            ("curveTo", ((x + reach, y + half * 1.2), (x + reach / 2, y + half), middle)),
            ("closePath", ()),
        )
    )


def _tail(middle: Point, to: Point, wide: float) -> Path:
    """Return a tail from the knot, as wide at its end as its strip, notched."""
    x, (dx, v) = middle[0], to
    ends = (x + dx - wide / 2, v), (x + dx, v - wide / 2), (x + dx + wide / 2, v)
    return polyline((middle, *ends), closed=True)
