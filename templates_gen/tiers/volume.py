"""How much a tier holds."""

from __future__ import annotations

import math

from templates_gen.geometry.areas.booleans import centroid
from templates_gen.tiers.ball import Ball
from templates_gen.tiers.inner_boards import inner_boards
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.tiers.tunnel import hollow


def volume(tier: Solid, layer: Layer) -> float:
    """Return what a surface of a tier goes round, mm3, less a hole through the tier.

    The rule of the frustum, exact for upright sides and for tapered ones; under a sloped top, which
    is flat, the mean depth is that over the centroid of the plan.
    """
    if layer.ball is not None:
        return _ball_volume(layer.ball)
    rim, foot = layer.rim.area, layer.foot.area
    depth = layer.depth
    if layer.fall is not None:
        depth -= layer.fall.at(centroid(layer.rim.path()))
    return depth / 3 * (rim + math.sqrt(rim * foot) + foot) - hollow(tier, layer)


def inner_volume(tier: Solid) -> float:
    """Return what the boards inside a tier take, mm3."""
    return sum(board.outline.area * board.thickness for board in inner_boards(tier))


def _ball_volume(ball: Ball) -> float:
    """Return the volume of a ball, or of the cap of a sphere that a ball with a cut foot is."""
    if not ball.is_cut:
        return 4 / 3 * math.pi * ball.radius**3
    return math.pi * ball.depth**2 * (3 * ball.radius - ball.depth) / 3
