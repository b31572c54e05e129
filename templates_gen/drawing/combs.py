"""The edges of combs: one function and one line for each.

A comb is a function to the places of one tooth, from the base up: how high over the height of the
tooth, and how deep its edge reaches into the coating there, both from 0 to 1.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from itertools import pairwise

from templates_gen.geometry.box import Point
from templates_gen.geometry.profile import profile

PIECES = 64
"""Straight pieces of a round tooth: they leave it by under 0.002 of its depth."""
DRAWN = 400
"""Straight pieces of a contour, which is one tooth as tall as the side."""

Tooth = tuple[Point, ...]


def stripes(line: str | None) -> Tooth:
    """Square ridges and grooves, equally tall."""
    return (0.0, 0.0), (0.25, 0.0), (0.25, 1.0), (0.75, 1.0), (0.75, 0.0), (1.0, 0.0)


def scallops(line: str | None) -> Tooth:
    """Round ridges with sharp grooves between them: half ellipses."""
    turns = (math.pi * step / PIECES for step in range(PIECES + 1))
    return tuple(((1 - math.cos(turn)) / 2, 1 - math.sin(turn)) for turn in turns)


def waves(line: str | None) -> Tooth:
    """Rise and fall as a sine."""
    shares = (step / PIECES for step in range(PIECES + 1))
    return tuple((share, (1 - math.cos(math.tau * share)) / 2) for share in shares)


def contour(line: str | None) -> Tooth:
    """Follow a line from the top edge to the base. Raises GeometryError for one that turns back."""
    low = profile(line or "")
    shares = (step / DRAWN for step in range(DRAWN + 1))
    return tuple((share, low(1 - share)) for share in shares)


COMBS: Mapping[str, Callable[[str | None], Tooth]] = {
    "stripes": stripes,
    "scallops": scallops,
    "waves": waves,
    "contour": contour,
}
"""By the word the cake file has for it, what makes a tooth."""


def mean_depth(tooth: Tooth) -> float:
    """Return how deep a tooth reaches in the mean over its height."""
    return sum((b[0] - a[0]) * (a[1] + b[1]) / 2 for a, b in pairwise(tooth))


def mean_square(tooth: Tooth) -> float:
    """Return the mean of the square of how deep a tooth reaches, over its height."""
    return sum(
        (b[0] - a[0]) * (a[1] ** 2 + a[1] * b[1] + b[1] ** 2) / 3 for a, b in pairwise(tooth)
    )
