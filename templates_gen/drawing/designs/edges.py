"""Torn and stepped edges: a band opened all round a side, and geodes let into it.

They are drawn from a shuffle number: the same number gives the same edge.
"""

from __future__ import annotations

import math
import random
from collections.abc import Sequence
from typing import Literal

from fontTools.misc.transform import Transform

from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.drawing.piece import Value
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Command, Path, polyline
from templates_gen.units import at_least, in_both

TEAR = 14.0
"""From one turn of an edge to the next, mm: our choice."""
UNEVEN = 0.3
"""How far a turn may be from its even place, over the way to the next."""
STEPS = 4
"""Levels of a stepped edge."""
LEAST = 3
"""The least number of turns."""
LINED = 10.0
"""A narrower geode has no room for crystals, mm: common practice, no source."""
ROUGH = 0.3
"""How far the edge of a geode goes in from its oval, over the radius."""


def fault(
    cell: Cell,
    *,
    form: Literal["torn", "stepped"] = "torn",
    drop: float | None = None,
    breadth: float = TEAR,
    shuffle: int = 1,
) -> Motif:
    """Return the edges of a band all round: the upper and the lower one, each ``drop`` mm tall.

    ``breadth`` is from one turn of an edge to the next. Each ends as it begins, in height and in
    slope, and at least a third of the cell is open between them.
    """
    tall = min(12.0, cell.height / 4) if drop is None else drop
    within("drop", tall, cell.height / 3, "each edge of the band")
    draw = random.Random(shuffle)
    made = [_edge(cell.width, tall, breadth, form, draw) for _ in range(2)]
    upper, lower = made[0], made[1].moved(0.0, cell.height - tall)
    values: dict[str, Value] = {"repeat_count": 1, "edge_height_mm": tall}
    return Motif((upper, lower), values=values)


def _edge(width: float, tall: float, pitch: float, form: str, draw: random.Random) -> Path:
    count = max(LEAST, round(width / pitch))
    xs = [
        (number + draw.uniform(-UNEVEN, UNEVEN) * (number > 0)) * width / count
        for number in range(count)
    ]
    if form == "stepped":
        return _steps(xs, [draw.randrange(STEPS) * tall / (STEPS - 1) for _ in xs], width)
    return _torn([*xs, width], [draw.uniform(0.0, tall) for _ in xs])


def _steps(xs: Sequence[float], ys: Sequence[float], width: float) -> Path:
    """Return level treads, each risen to half-way to the next place; the ends are one tread."""
    points = [(0.0, ys[0])]
    for index in range(1, len(xs)):
        x = (xs[index - 1] + xs[index]) / 2
        if ys[index] != ys[index - 1]:
            points += [(x, ys[index - 1]), (x, ys[index])]
    if ys[-1] != ys[0]:
        x = (xs[-1] + width) / 2
        points += [(x, ys[-1]), (x, ys[0])]
    return polyline([*points, (width, ys[0])])


def _torn(xs: Sequence[float], ys: Sequence[float]) -> Path:
    """Return cubics through places that rise and fall with them, and never beyond them.

    Slopes are those of Fritsch and Carlson (SIAM J. Numer. Anal. 17, 1980): 0 at a turn, else the
    harmonic mean of the chords; before the first place comes the last.
    """
    heights = [*ys, ys[0]]
    chords = [(heights[i + 1] - heights[i]) / (xs[i + 1] - xs[i]) for i in range(len(ys))]
    slopes = [_slope(chords[i - 1], chords[i]) for i in range(len(ys))]
    slopes.append(slopes[0])
    commands: list[Command] = [("moveTo", ((xs[0], heights[0]),))]
    for i in range(len(ys)):
        third = (xs[i + 1] - xs[i]) / 3
        handles = (
            (xs[i] + third, heights[i] + slopes[i] * third),
            (xs[i + 1] - third, heights[i + 1] - slopes[i + 1] * third),
        )
        commands.append(("curveTo", (*handles, (xs[i + 1], heights[i + 1]))))
    return Path((*commands, ("endPath", ())))


def _slope(before: float, after: float) -> float:
    return 0.0 if before * after <= 0 else 2 * before * after / (before + after)


def geode(cell: Cell, *, breadth: float | None = None, shuffle: int = 1) -> Motif:
    """Return the rough edge of a geode ``breadth`` mm wide, as tall as the cell.

    Its corners lie in an oval about the middle of the cell, in order round it, so it never crosses
    itself; it is then stretched to its width and its height.
    """
    usual = min(cell.width, cell.height) * 0.7
    wide = within("breadth", usual if breadth is None else breadth, cell.width, "one repeat")
    if wide < LINED:
        allowed, advice = f"{at_least(LINED)} or more", "make it larger"
        raise CakeError.at(("breadth",), f"a geode {in_both(wide)} wide", allowed, advice)
    middle = cell.width / 2, cell.height / 2
    draw = random.Random(shuffle)
    count = max(9, round(math.pi * (wide + cell.height) / 2 / TEAR))
    rough = polyline([_corner(count, number, draw) for number in range(count)], closed=True)
    box = rough.bounds
    stretch = Transform().translate(*middle).scale(wide / box.width, cell.height / box.height)
    x, y = box.centre
    return Motif(
        (rough.transformed(stretch.translate(-x, -y)),),
        values={"geode_width_mm": wide, "geode_height_mm": cell.height},
        about=middle,
    )


def _corner(count: int, number: int, draw: random.Random) -> Point:
    """Return a corner in a circle of radius 1 about (0, 0)."""
    turn = math.tau * (number + draw.uniform(-UNEVEN, UNEVEN)) / count
    far = 1 - draw.uniform(0.0, ROUGH)
    return far * math.cos(turn), far * math.sin(turn)
