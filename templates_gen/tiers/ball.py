"""A ball, or what is left of one whose foot is cut off: its sizes at every layer."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from templates_gen.drawing.drawing import Drawing
from templates_gen.geometry.arcs import arc_cubics, circle
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.tiers.side import Side, Sphere, laid

STAND = 0.5
"""Width of the ring a whole ball is stood in over its own: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Ball:
    """A sphere of ``radius`` round a centre ``raised`` above the plane it stands on, mm."""

    radius: float
    raised: float
    is_cut: bool
    """Whether the foot is cut off."""

    def offset(self, by: float) -> Ball:
        """Return the ball with a layer all round.

        The plane of a cut foot stays; a whole ball stands on its layer, which raises its middle.
        """
        return replace(
            self, radius=self.radius + by, raised=self.raised + (0.0 if self.is_cut else by)
        )

    @property
    def depth(self) -> float:
        """From the plane it stands on to the top."""
        return self.radius + self.raised

    @property
    def across(self) -> float:
        """The largest width: of the sphere, or of the foot of less than half a ball."""
        return 2 * (self.radius if self.raised >= 0 else self.foot_radius)

    @property
    def foot_radius(self) -> float:
        """Radius of the flat foot; nothing for a whole ball."""
        return math.sqrt(max(self.radius**2 - self.raised**2, 0.0))

    @property
    def stand(self) -> float:
        """Width of the ring the ball stands in: its foot, or a share of a whole ball."""
        return 2 * self.foot_radius if self.is_cut else 2 * self.radius * STAND

    @property
    def meridian(self) -> float:
        """The way over the surface from the top to the foot."""
        angle = math.acos(max(-1.0, -self.raised / self.radius)) if self.is_cut else math.pi
        return self.radius * angle

    def height_at(self, point: Point) -> float:
        """Return how high the ball is over a point of its plan, 0 at its middle, mm."""
        return self.raised + math.sqrt(max(self.radius**2 - math.hypot(*point) ** 2, 0.0))

    def half_width(self, from_top: float, count: int) -> float:
        """Return half the width of one of ``count`` gores at a way from the top.

        Width at a level is the girth there over the number: *Making a Sphere from Flat Material*.
        """
        return math.pi * self.radius * max(math.sin(from_top / self.radius), 0.0) / count


@dataclass(frozen=True, slots=True)
class BallSide(Side):
    """The surface of a ball: u round its equator, v over it from the top.

    On paper it lies as a gore does, with true lengths along its levels and down its middle: the
    sinusoidal projection. Other lengths are stretched, so nothing is marked on it.
    """

    ball: Ball

    @property
    def girth(self) -> float:
        """The length of the equator."""
        return math.tau * self.ball.radius

    @property
    def depth(self) -> float:
        """From the top over the ball to its foot."""
        return self.ball.meridian

    @property
    def area(self) -> float:
        """The area of the sphere down to its foot: its girth times its depth (Archimedes)."""
        return math.tau * self.ball.radius * self.ball.depth

    @property
    def lies_flat(self) -> bool:
        """No: gores come near."""
        return False

    @property
    def profile(self) -> Path | None:
        """A circle, or what is left of one above a cut foot."""
        radius, raised = self.ball.radius, self.ball.raised
        centre = 0.0, raised
        if not self.ball.is_cut:
            return circle(centre, radius)
        below = math.asin(max(-1.0, min(1.0, -raised / radius)))
        arc = arc_cubics(centre, radius, below, math.pi - 2 * below)
        start = radius * math.cos(below), 0.0
        return Path((("moveTo", (start,)), *arc, ("closePath", ())))

    @property
    def sphere(self) -> Sphere | None:
        """The ball."""
        foot = self.ball.foot_radius if self.ball.is_cut else 0.0
        return Sphere(self.ball.radius, self.ball.raised, foot)

    def girth_ratio(self, v: float) -> float:
        """Return how long the ball is round at ``v``, over its equator."""
        return math.sin(v / self.ball.radius)

    def in_space(self, u: float, v: float) -> tuple[float, float, float]:
        """Return the point at ``v`` from the top, turned by ``u`` from the back."""
        radius, turn, down = self.ball.radius, u / self.ball.radius, v / self.ball.radius
        wide = radius * math.sin(down)
        return (
            -wide * math.sin(turn),
            wide * math.cos(turn),
            self.ball.raised + radius * math.cos(down),
        )

    def flat(self, u: float, v: float) -> Point:
        """Return where (u, v) lies about the meridian of the front."""
        middle = self.girth / 2
        return middle + (u - middle) * self.girth_ratio(v), -v

    def place_at(self, point: Point, near: float) -> Point:
        """Return the (u, v) that lies at a point of the paper; at the top u is ``near``."""
        middle, v = self.girth / 2, -point[1]
        wide = self.girth_ratio(v)
        return middle + (point[0] - middle) / wide if wide else near, v

    def direction(self, u: float, v: float) -> float:
        """Return the direction round the equator."""
        return math.pi + u / self.ball.radius

    def unroll(self, drawing: Drawing) -> Drawing:
        """Return a drawing made in (u, v) as it lies on the paper; labels keep their turn."""
        return laid(drawing, self.flat, lambda _: 0.0)


def ball(size: float, depth: float) -> Ball:
    """Return a bare ball of width ``size`` cut to ``depth`` mm; as deep as wide it is whole."""
    return Ball(size / 2, depth - size / 2, is_cut=depth < size - 1e-6)
