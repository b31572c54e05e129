"""The side of a tier: where something drawn on it lies on flat paper, and where in space.

Everything on a side is drawn once in (u, v): u = mm round the rim from the back join, to the right
as seen from outside; v = mm down from the rim. The back join is u = 0, the front u = girth / 2.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import Protocol

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import FLIP
from templates_gen.geometry.warp import Map, bent

PLACES = 360
"""Places round a tier at which the depth of a side is taken."""


@dataclass(frozen=True, slots=True)
class Sphere:
    """A ball: its radius, its middle above its foot, and the radius of what is cut flat, mm."""

    radius: float
    middle: float
    foot: float


class Side(Protocol):
    """A side, whatever the kind of its tier. All lengths in mm.

    What has an answer here is so for most sides: they lie flat, and straight lines run down them.
    """

    __slots__ = ()

    @property
    def girth(self) -> float:
        """The length of the rim: the largest u."""

    @property
    def depth(self) -> float:
        """From the rim, at its highest, to the foot along the side: the largest v."""

    @property
    def area(self) -> float:
        """The area of the side, mm2."""

    @property
    def lies_flat(self) -> bool:
        """Whether it lies flat on paper without stretching, so that it can be marked."""
        return True

    @property
    def is_level(self) -> bool:
        """Whether level lines lie straight on the paper, and as long as the rim."""
        return False

    @property
    def profile(self) -> Path | None:
        """Its outline on its foot, (0, 0) in the middle, where it is alike from every direction."""
        return None

    @property
    def sphere(self) -> Sphere | None:
        """The sphere that it is a part of; None where straight lines run down it."""
        return None

    @property
    def figures(self) -> dict[str, float]:
        """The figures of its paper, where that has a shape of geometry."""
        return {}

    @property
    def least_depth(self) -> float:
        """From rim to foot where a sloped top is lowest; else the depth."""
        return self.depth

    @property
    def shortest(self) -> float:
        """The shortest straight way down the side from rim to foot."""
        return self.least_depth

    @property
    def longest(self) -> float:
        """The longest straight way down the side from rim to foot."""
        return self.depth

    def down(self, u: float, length: float) -> float:
        """Return v at a true length down the side from the rim at ``u``."""
        return length

    def foot_at(self, u: float) -> float:
        """Return v at the foot, which is less than the depth where a sloped top is lower."""
        return self.depth

    def girth_ratio(self, v: float) -> float:
        """Return how much longer than the rim the side is round at ``v``."""

    def flat(self, u: float, v: float) -> Point:
        """Return where (u, v) lies on the paper, printed side up, y up."""

    def place_at(self, point: Point, near: float) -> Point:
        """Return the (u, v) that lies at a point of the paper, looked for from u = ``near`` on."""

    def direction(self, u: float, v: float) -> float:
        """Return which way a level line goes at (u, v) in plan, radians."""

    def in_space(self, u: float, v: float) -> tuple[float, float, float]:
        """Return where (u, v) lies on the tier that stands on z = 0, front towards -y."""

    def unroll(self, drawing: Drawing) -> Drawing:
        """Return a drawing made in (u, v) as it lies on the paper.

        A label's turn is counter-clockwise from the direction of u, as the paper shows it.
        """

    def unrolled(self, path: Path) -> Path:
        """Return a path drawn in (u, v) as it lies on the paper."""
        return self.unroll(Drawing((Stroke(path, Role.CUT),))).strokes[0].path


def laid(drawing: Drawing, flat: Map, lean: Callable[[float], float]) -> Drawing:
    """Return a drawing made in (u, v) as ``flat`` lays it on the paper.

    There the rim goes up to the right by ``lean`` degrees at a u.
    """
    return Drawing(
        tuple(Stroke(bent(each.path, flat), each.role) for each in drawing.strokes),
        tuple(
            replace(each, at=flat(*each.at), turn=each.turn + lean(each.at[0]))
            for each in drawing.labels
        ),
    )


@dataclass(frozen=True, slots=True)
class Fall:
    """How the rim of a sloped top falls: by ``rate`` mm a mm towards a direction from ``start``."""

    towards: Point
    rate: float
    start: float

    def at(self, place: Point) -> float:
        """Return how far below the highest place of the rim it is over a place in plan, mm."""
        along = place[0] * self.towards[0] + place[1] * self.towards[1]
        return (along - self.start) * self.rate


@dataclass(frozen=True, slots=True)
class UprightSide(Side):
    """The side of a tier with upright walls: flat by the identity, v downwards from the rim."""

    outline: Outline
    depth: float = field()  # not the property of the protocol
    fall: Fall | None = None

    @property
    def girth(self) -> float:
        """The length of the rim in plan."""
        return self.outline.girth

    @property
    def area(self) -> float:
        """The girth times the mean depth."""
        depths = (self.foot_at(self.girth * step / PLACES) for step in range(PLACES))
        return self.girth * sum(depths) / PLACES

    @property
    def is_level(self) -> bool:
        """Whether the rim is level."""
        return self.fall is None

    @property
    def least_depth(self) -> float:
        """From rim to foot where the rim is lowest: as low as a corner of the box round the plan.

        A top slopes to the front, the back or a side, so along one way of that box it is level.
        """
        if self.fall is None:
            return self.depth
        return self.depth - max(map(self.fall.at, self.outline.path().bounds.corners))

    def girth_ratio(self, v: float) -> float:
        """Return 1: an upright side is as long round everywhere."""
        return 1.0

    def foot_at(self, u: float) -> float:
        """Return v at the foot."""
        return self.depth - self._fallen(u)

    def _fallen(self, u: float) -> float:
        return self.fall.at(self.outline.at(u)) if self.fall else 0.0

    def _leaning(self, u: float) -> float:
        """Return the direction of the rim on the paper at u, degrees."""
        return math.degrees(math.atan(self._fallen(u - 0.5) - self._fallen(u + 0.5)))

    def flat(self, u: float, v: float) -> Point:
        """Return (u, -v), as much lower as the rim is there: the same lengths on paper."""
        return u, -v - self._fallen(u)

    def place_at(self, point: Point, near: float) -> Point:
        """Return the (u, v) that lies at a point of the paper."""
        u, y = point
        return u, -y - self._fallen(u)

    def direction(self, u: float, v: float) -> float:
        """Return the direction of the outline."""
        return self.outline.direction(u)

    def in_space(self, u: float, v: float) -> tuple[float, float, float]:
        """Return the point of the outline at u, at the height of v."""
        return (*self.outline.at(u), self.depth - self._fallen(u) - v)

    def unroll(self, drawing: Drawing) -> Drawing:
        """Return the drawing with v turned into y."""
        if self.fall:
            return laid(drawing, self.flat, self._leaning)
        return Drawing(
            tuple(each.transformed(FLIP) for each in drawing.strokes),
            tuple(replace(each, at=self.flat(*each.at)) for each in drawing.labels),
        )
