"""Oval: an ellipse, longer from left to right."""

from __future__ import annotations

import math
from itertools import pairwise

from templates_gen.geometry.arc_fitting import biarc
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Bend, Outline, starting_at_back

_QUARTERS = 4
_STEPS = 24
"""Pairs of arcs to a quarter: they leave the ellipse by less than a thousandth of a mm."""


def oval(size: float, short: float) -> Outline:
    """Return an ellipse ``size`` mm long from left to right and ``short`` from front to back.

    Its girth agrees with 4 a E(k), DLMF 19.30(i), to better than 0.001 mm in a metre.
    """
    a, b = size / 2, short / 2

    def state(step: int) -> tuple[Point, float]:
        t = math.pi / 2 + step * math.tau / (_QUARTERS * _STEPS)
        point = a * math.cos(t), b * math.sin(t)
        return point, math.atan2(b * math.cos(t), -a * math.sin(t))

    states = [state(step) for step in range(_QUARTERS * _STEPS + 1)]
    bends: list[Bend] = []
    for (start, heading), (end, arriving) in pairwise(states):
        bends += biarc(start, heading, end, arriving)
    return starting_at_back((0.0, b), math.pi, bends)
