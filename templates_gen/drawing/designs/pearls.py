"""Pearls: a lattice of round dots or buttons."""

from __future__ import annotations

import math
from typing import Literal

from templates_gen.drawing.designs.motif import Cell, Motif, rising, within
from templates_gen.errors import CakeError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.box import nearest_count
from templates_gen.units import decimal

USUAL = 6.0
"""Width of a pearl, mm, where none is said."""


def pearls(
    cell: Cell,
    *,
    breadth: float | None = None,
    rows: int | None = None,
    form: Literal["square", "staggered"] = "staggered",
) -> Motif:
    """Return pearls ``breadth`` mm wide in ``rows``, one to a repeat in each.

    Left out, the rows stand about as far apart as the lattice asks: a repeat in a square one, so
    that neighbours are equally near in a staggered one. Raises CakeError where pearls overlap.
    """
    wide = min(USUAL, cell.width / 2, cell.height) if breadth is None else breadth
    within("breadth", wide, min(cell.width, cell.height), "a repeat and the band of the design")
    apart = cell.width * (math.sqrt(0.75) if form == "staggered" else 1.0)
    aside = cell.width / 2 if form == "staggered" else 0.0
    free, least = cell.height - wide, math.sqrt(max(wide**2 - aside**2, 0.0))
    most = int(free / max(least, wide / 2))
    count = rows or 1 + min(nearest_count(free, apart) if free else 0, most)
    tops = rising(cell.height, wide, count)
    pitch = tops[1] - tops[0] if count > 1 else cell.height
    if math.hypot(aside, pitch) < wide - 1e-9:
        raise CakeError.at(
            ("rows" if rows else "breadth",),
            f"{count} rows of pearls {decimal(wide, 1)} mm wide, {decimal(pitch, 1)} mm apart",
            "pearls that do not overlap",
            "use fewer rows or smaller pearls, or give the design a taller band",
        )
    places = (
        (cell.width / 2 + (aside if row % 2 else 0.0), top + wide / 2)
        for row, top in enumerate(tops)
    )
    return Motif(
        tuple(circle(place, wide / 2) for place in places),
        values={"rows": count, "pearl_width_mm": wide, "row_spacing_mm": pitch},
    )
