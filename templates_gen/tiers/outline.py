"""The plan outline of a tier: one class a shape, one line each in the table of shapes.

The frame of every outline: origin in the middle, x to the right, y to the back, as seen from above.
Arc length s runs from the back, counter-clockwise: to the right for someone who stands outside.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Protocol

from templates_gen.cake.model import Tier
from templates_gen.drawing.path import Path, Point, circle

BACK = math.pi / 2
"""The angle of the back, where every outline starts."""


class Outline(Protocol):
    """A closed plan curve. All lengths in mm."""

    @property
    def across(self) -> float:
        """The largest width."""
        ...

    @property
    def girth(self) -> float:
        """The length once round."""
        ...

    def grown(self, by: float) -> Outline:
        """Return the outline with a layer of thickness ``by`` round it, square to the curve."""
        ...

    def path(self) -> Path:
        """Return the closed curve, from the back, counter-clockwise."""
        ...

    def at(self, s: float) -> Point:
        """Return the point at arc length ``s`` from the back."""
        ...


@dataclass(frozen=True, slots=True)
class Round:
    """A circle."""

    across: float

    @property
    def girth(self) -> float:
        """Pi times across."""
        return math.pi * self.across

    def grown(self, by: float) -> Round:
        """Return the larger circle; its girth is 2 pi larger for each mm."""
        return Round(self.across + 2 * by)

    def path(self) -> Path:
        """Return the circle, from the back."""
        return circle((0, 0), self.across / 2, BACK)

    def at(self, s: float) -> Point:
        """Return the point at arc length ``s`` from the back."""
        angle = BACK + 2 * s / self.across
        return self.across / 2 * math.cos(angle), self.across / 2 * math.sin(angle)


def _round(tier: Tier) -> Outline:
    return Round(tier.size.mm)


SHAPES: dict[str, Callable[[Tier], Outline]] = {
    "round": _round,
}
"""The bare outline of a tier, by the word the cake file has for its shape."""
