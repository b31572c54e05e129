"""Shells: a piped border along the base of a band, along its top edge, or both."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Literal

from fontTools.misc.bezierTools import cubicPointAtT

from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path

TALL = 0.75
"""How tall a shell is, over the length that it takes, where nothing is said: our choice."""
UPPER: tuple[tuple[Point, ...], ...] = (
    ((0.0, 0.0), (0.0, 0.28), (0.12, 0.5), (0.3, 0.5)),
    ((0.3, 0.5), (0.55, 0.5), (0.75, 0.0), (1.0, 0.0)),
)
"""The upper half of a shell from its head to its tail, over its length and its height."""
STEPS = 200


def shells(
    cell: Cell,
    *,
    height: float | None = None,
    form: Literal["bottom", "top", "both"] = "bottom",
) -> Motif:
    """Return a shell ``height`` mm tall as long as a repeat: the next begins where its tail ends.

    They stand at the bottom of the band, at its top, or both. Raises CakeError where that has no
    room for them.
    """
    rows = 2 if form == "both" else 1
    usual = min(TALL * cell.width, cell.height / rows)
    tall = within("height", usual if height is None else height, cell.height / rows, "the band")
    middles = {"top": tall / 2, "bottom": cell.height - tall / 2}
    drawn = (
        _shell(cell.width, tall, middle) for at, middle in middles.items() if form in (at, "both")
    )
    return Motif(tuple(drawn), values={"rows": rows, "shell_height_mm": tall})


def _shell(long: float, tall: float, middle: float) -> Path:
    """Return the outline of a shell, its head at u = 0 and its tail at u = ``long``."""
    there = [[(x * long, middle - y * tall) for x, y in edge] for edge in UPPER]
    back = [[(x * long, middle + y * tall) for x, y in edge[::-1]] for edge in UPPER[::-1]]
    curves = (("curveTo", tuple(edge[1:])) for edge in (*there, *back))
    return Path((("moveTo", ((0.0, middle),)), *curves, ("closePath", ())))


def shell_volume(long: float, tall: float) -> float:
    """Return the icing of a shell, mm3: it is as deep as it is tall, so round along its length.

    Our estimate: the nozzle is held so that icing fills the corner or covers the edge.
    """
    along = [cubicPointAtT(*edge, step / STEPS) for edge in UPPER for step in range(STEPS + 1)]
    slices = ((b[0] - a[0]) * (a[1] ** 2 + a[1] * b[1] + b[1] ** 2) / 3 for a, b in pairwise(along))
    return math.pi * long * tall**2 * float(sum(slices))
