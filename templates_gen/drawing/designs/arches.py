"""Arches: windows side by side, round or pointed."""

from __future__ import annotations

import math
from typing import Literal

from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.geometry.arcs import arc_cubics
from templates_gen.geometry.path import Command, Path


def arches(
    cell: Cell, *, breadth: float | None = None, form: Literal["round", "pointed"] = "round"
) -> Motif:
    """Return one arch to a repeat, ``breadth`` mm wide or four fifths of the repeat.

    Round: a half circle on upright jambs. Pointed: two arcs, each about the foot of the other, on
    jambs. Raises CakeError where the band is too low for the arcs.
    """
    wide = cell.width * 0.8 if breadth is None else breadth
    within("breadth", wide, cell.width, "a repeat")
    share = 1 / 2 if form == "round" else math.sqrt(3) / 2
    what = "the band of the design, the height of the arc alone"
    rise = share * within("breadth", wide, cell.height / share, what)
    left, right = (cell.width - wide) / 2, (cell.width + wide) / 2
    spring = rise
    arch = Path(
        (
            ("moveTo", ((left, cell.height),)),
            ("lineTo", ((left, spring),)),
            *_arc(left, right, spring, form),
            ("lineTo", ((right, cell.height),)),
            ("closePath", ()),
        )
    )
    return Motif((arch,), values={"arch_width_mm": wide, "arch_rise_mm": rise})


def _arc(left: float, right: float, spring: float, form: str) -> tuple[Command, ...]:
    """Return the arc over the jambs from left to right; v runs down, so up is towards 0."""
    wide = right - left
    if form == "round":
        return arc_cubics(((left + right) / 2, spring), wide / 2, math.pi, math.pi)
    third = math.pi / 3
    return (
        *arc_cubics((right, spring), wide, math.pi, third),
        *arc_cubics((left, spring), wide, -third, third),
    )
