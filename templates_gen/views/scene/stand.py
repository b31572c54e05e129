"""What toppers and flowers stand on: the top tier, or the first letter where there is no tier."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry.areas.booleans import filled
from templates_gen.geometry.areas.placement import deepest
from templates_gen.geometry.box import Box, Point
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.tiers.letter_cakes import BOARD
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.solid import Solid
from templates_gen.views.letter_boards import letter_boards
from templates_gen.views.scene.parts import SpacePose


@dataclass(frozen=True, slots=True)
class Stand:
    """A top with the box round it, where it lies on the drum, and ``foot`` mm above that.

    It is that of a tier, or level.
    """

    box: Box
    place: Pose
    foot: float
    tier: Solid | None = None

    def at(self, on: Point) -> SpacePose:
        """Return where something stands at a place of the top, turned as it is."""
        right, back = self.place.at(on)
        up = 0.0 if self.tier is None else self.tier.covered.height_at(on)
        return right, back, self.foot + up, self.place.turn


def stand(stack: DecoratedStack) -> Stand:
    """Return what toppers and flowers of a cake stand on."""
    if stack.tiers:
        tier = stack.tiers[-1]
        return Stand(tier.covered.rim.bounds, stack.places[-1], stack.feet[-1], tier)
    first = next(letter_boards(stack))
    (x, y), far = deepest(filled(first.outlines[0]))
    top = first.table + BOARD.mm + first.cake.made.wall_height
    return Stand(Box(-far, -far, far, far), Pose(x, y), top)
