"""Where something stands in plan: how far from the middle, and how it is turned."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property

from fontTools.misc.transform import Transform

from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path


@dataclass(frozen=True)
class Pose:
    """A pose in plan: mm to the right and to the back, and the turn in degrees, anticlockwise."""

    right: float = 0.0
    back: float = 0.0
    turn: float = 0.0

    @cached_property
    def transform(self) -> Transform:
        """The map from the frame of what stands there to the frame it stands in."""
        return Transform().translate(self.right, self.back).rotate(math.radians(self.turn))

    @property
    def turned(self) -> Pose:
        """The same turn in the middle."""
        return Pose(turn=self.turn)

    def of(self, outline: Outline) -> Path:
        """Return an outline as it lies there."""
        return outline.path().transformed(self.transform)

    def at(self, point: Point) -> Point:
        """Return where a point of what stands there lies."""
        (x, y), (cos, sin, _, _, right, back) = point, self.transform
        return cos * x - sin * y + right, sin * x + cos * y + back

    def then(self, right: float, back: float) -> Pose:
        """Return the place moved on."""
        return replace(self, right=self.right + right, back=self.back + back)

    @property
    def distance(self) -> float:
        """How far it lies from the middle, mm."""
        return math.hypot(self.right, self.back)
