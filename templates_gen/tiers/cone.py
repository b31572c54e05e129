"""The side of a round taper: a piece of a cone, whose paper is part of a ring."""

from __future__ import annotations

import math
from functools import cached_property

from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.tiers.slanted import SlantedSide

_UPRIGHT = 1e-6
"""A foot that is wider than the rim by no more is as wide, mm: its rulings are parallel."""


def side_between(
    rim: Outline, foot: Outline, height: float, *, is_matched: bool = True
) -> SlantedSide:
    """Return the side between a rim at ``height`` and a foot on z = 0, mm."""
    if rim.radius is not None and foot.radius is not None:
        return ConeSide(rim, foot, height, is_matched)
    return SlantedSide(rim, foot, height, is_matched)


class ConeSide(SlantedSide):
    """The side between two circles one above the other.

    On the paper its rulings meet in one point, the tip, and the rim is an arc about it of
    360 degrees times the sine of the slant off the upright. So a place is found at once.
    """

    @property
    def figures(self) -> dict[str, float]:
        """The slant, the radii of the unrolled ring and its angle.

        The angle is 360 degrees times sin(alpha).
        """
        radii, out = self._radii, self._out
        slant = math.hypot(out, self.height)
        if abs(out) < _UPRIGHT:
            return {"slant_mm": slant}
        inner, outer = sorted(abs(radius * slant / out) for radius in radii)
        return {
            "slant_mm": slant,
            "inner_radius_mm": inner,
            "outer_radius_mm": outer,
            "angle_deg": 360 * abs(out) / slant,
        }

    def ruling(self, u: float) -> tuple[Point, Point]:
        """Return the rim on the paper at u, and the step along its ruling for one mm of v."""
        if self._tip is None:
            return super().ruling(u)
        (x, y), radius = self._tip, self._radius
        heading = self.heading(u)
        dx, dy = math.sin(heading), -math.cos(heading)
        return (x + radius * dx, y + radius * dy), (dx, dy)

    def place_at(self, point: Point, near: float) -> Point:
        """Return the (u, v) that lies at a point of the paper, the one nearest to u = ``near``."""
        if self._tip is None:
            return super().place_at(point, near)
        radius = self._radius
        # what narrows downwards has its tip below
        sign = math.copysign(1.0, radius)
        x, y = sign * (point[0] - self._tip[0]), sign * (point[1] - self._tip[1])
        beside = math.remainder(math.atan2(x, -y) - self.heading(near), math.tau)
        return near + beside * radius, sign * math.hypot(x, y) - radius

    def heading(self, u: float) -> float:
        """Return the direction of the rim on the paper at ``u``, radians."""
        return (u - self.girth / 2) / self._radius

    @cached_property
    def _radii(self) -> tuple[float, float]:
        """The radii of rim and foot."""
        return self.rim.girth / math.tau, self.foot.girth / math.tau

    @cached_property
    def _out(self) -> float:
        """How far the foot lies outside the rim."""
        rim, foot = self._radii
        return foot - rim

    @cached_property
    def _radius(self) -> float:
        """The radius of the rim on the paper, negative where the foot lies inside it."""
        if abs(self._out) < _UPRIGHT:
            return math.inf
        return self._radii[0] * math.hypot(self._out, self.height) / self._out

    @cached_property
    def _tip(self) -> Point | None:
        """The point of the paper where the rulings meet, if they do; the rim starts at (0, 0)."""
        radius = self._radius
        if math.isinf(radius):
            return None
        heading = self.heading(0.0)
        return -radius * math.sin(heading), radius * math.cos(heading)
