"""The finished side of a tier as it is seen from the front."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property

from templates_gen.geometry.areas.booleans import Area, shadow
from templates_gen.geometry.areas.silhouettes import is_hidden
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path, polyline
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.tiers.pose import Pose

FINE = 0.05
"""How far a sampled curve may leave the true one, mm."""
STEP = 3.0
"""The longest straight step on a side for ``FINE``, mm: it leaves a 4 in round by 0.02 mm."""
NUDGE = 1e-3
"""A step on the side, to see which way it faces, mm."""
ROUND = 360
"""Places round a tier at which its outline is looked for."""
LEVELS = 24
"""Heights of a side with hollows at which it is looked what hides what."""
SHARP = math.radians(15)
"""A sharper change of direction is an edge of the side."""
IN_FRONT = 1.0
"""What hides a point lies more than this in front of it, mm."""


@dataclass(frozen=True)
class View:
    """The finished side of a tier where it stands, as seen from the front.

    What is drawn on it leaves the true curve by no more than ``fine`` mm.
    """

    tier: DecoratedTier
    place: Pose
    foot: float
    fine: float = FINE

    @property
    def step(self) -> float:
        """The longest straight step on the side, mm: its height over an arc goes by its square."""
        return STEP * math.sqrt(self.fine / FINE)

    @property
    def girth(self) -> float:
        """The largest u of the side, mm."""
        return self.tier.covered.side.girth

    @property
    def depth(self) -> float:
        """The largest v of the side, mm."""
        return self.tier.covered.side.depth

    def foot_at(self, u: float) -> float:
        """Return v at the foot, mm; under a sloped top it is not the same all round."""
        return self.tier.covered.side.foot_at(u)

    def in_space(self, u: float, v: float) -> tuple[float, float, float]:
        """Return where (u, v) of the finished side lies: x, y, and the height above the drum."""
        x, y, z = self.tier.covered.side.in_space(u, v)
        return (*self.place.at((x, y)), z + self.foot)

    def seen(self, u: float, v: float) -> Point:
        """Return where (u, v) lies on the elevation."""
        x, _, z = self.in_space(u, v)
        return x, z

    def faces(self, u: float, v: float) -> float:
        """Return how much the side at (u, v) faces the viewer: from -1 to 1, 0 where it is edge on.

        Seen level, a side that leans faces the viewer as much as an upright one.
        """
        return math.cos(self.tier.covered.side.direction(u, v) + math.radians(self.place.turn))

    @cached_property
    def is_simple(self) -> bool:
        """Whether no part of the side can hide another that faces the viewer."""
        return self.tier.covered.rim.is_convex

    @cached_property
    def edges(self) -> tuple[float, ...]:
        """Each u at which the side has an edge, mm."""
        rim = self.tier.covered.rim
        return tuple(
            u * self.girth / rim.girth
            for u in rim.corners
            if abs(rim.heading_at(u + NUDGE) - rim.heading_at(u - NUDGE)) > SHARP
        )

    @cached_property
    def in_sight(self) -> tuple[float, float]:
        """From which u on, and how far, a convex side faces the viewer, mm."""
        rim, turn = self.tier.covered.rim, math.radians(self.place.turn)
        start, end = (rim.turned_to(quarter * math.pi / 2 - turn) for quarter in (-1, 1))
        return start, (end - start) % self.girth

    @cached_property
    def _sections(self) -> dict[int, Area]:
        return {}

    def _section(self, v: float) -> Area:
        """Return the plan of the side near the height of v."""
        level = round(v / self.depth * LEVELS)
        if level not in self._sections:
            height = level * self.depth / LEVELS
            us = (index * self.girth / ROUND for index in range(ROUND))
            points = [self.in_space(u, height)[:2] for u in us]
            self._sections[level] = shadow(polyline(points, closed=True))
        return self._sections[level]

    def may_be_seen(self, path: Path) -> bool:
        """Tell whether anything of a path in (u, v) can be seen: what lies behind none is drawn."""
        if not self.is_simple:
            return True
        us = [u for _, points in path.commands for u, _ in points]
        start, length = self.in_sight
        first = (min(us) - start) % self.girth
        return first < length or first + max(us) - min(us) > self.girth

    def is_seen(self, u: float, v: float) -> bool:
        """Tell whether (u, v) is seen from the front."""
        if self.is_simple:
            start, length = self.in_sight
            return 0 < (u - start) % self.girth < length
        if self.faces(u, v) <= 0:
            return False
        x, y, _ = self.in_space(u, v)
        return not is_hidden(self._section(v), (x, y - IN_FRONT))
