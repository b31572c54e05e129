"""The table of flowers to cut: the petals of each whorl, sepals and leaves, as simple curves.

How many parts a whorl has is botany that anyone may count: five petals and five sepals of a wild
rose or a cherry, four of a poppy in two pairs, six tepals of a lily in threes, 21 rays of a daisy.
Proportions are our own. How the parts of each kind are held together is common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path, both_halves

Tip = Literal["round", "notched", "pointed"]
NOTCH = 0.1
"""How deep a notch is, over the length of its petal."""
ALWAYS = math.inf
"""How wide a flower may be whose ring is cut in one piece at any size."""
APART = 0.94
"""How much of a circle parts in one piece take where they are widest: a blade goes between them."""


@dataclass(frozen=True, slots=True)
class Form:
    """The outline of a petal: ``widest`` at a share of its length, its ``base`` over its width."""

    widest: float
    base: float
    tip: Tip = "round"

    def outline(self, length: float, width: float) -> Path:
        """Return the outline, its base at (0, 0) and its tip up; ``length`` and ``width`` in mm."""
        return both_halves([(x * width / 2, y * length) for x, y in self._right()])

    def _right(self) -> list[Point]:
        """Return the right half for a half width and a length of 1: level at the widest place."""
        h, b = self.widest, self.base
        side = [(b, 0.0), (b + (1 - b) * 0.5, h * 0.35), (1.0, h * 0.6), (1.0, h)]
        up = 1 - h
        if self.tip == "round":
            return [*side, (1.0, h + 0.6 * up), (0.6, 1.0), (0.0, 1.0)]
        if self.tip == "pointed":
            return [*side, (1.0, h + 0.4 * up), (0.35, h + 0.72 * up), (0.0, 1.0)]
        lobe = [(1.0, h + 0.55 * up), (0.75, 1.0), (0.45, 1.0)]
        return [*side, *lobe, (0.25, 1.0), (0.08, 1 - 0.4 * NOTCH), (0.0, 1 - NOTCH)]


@dataclass(frozen=True, slots=True)
class Whorl:
    """Parts alike in a ring: how many, how far they reach over the radius of the flower.

    Each is dried in the hollow of a ball, from its middle to ``rise`` degrees up; where it is
    widest, all of them together go ``round`` so many times. A ``green`` one is of sepals. In a
    flower up to ``joined`` mm wide all are cut in one piece; ``glued`` ones go round the middle
    while they are soft; each other one has a wire of its own.
    """

    name: str
    count: int
    reach: float
    rise: float
    round: float
    form: Form
    green: bool = False
    joined: float = 0.0
    glued: bool = False

    def ball(self, radius: float) -> float:
        """Return how wide the ball is that it dries in, mm: the tip is at r sin(rise)."""
        return 2 * self.reach * radius / math.sin(math.radians(self.rise))

    def size(self, radius: float) -> tuple[float, float]:
        """Return the length and width of a part of a flower of such a radius, mm.

        It lies along an arc of the ball, r rise long; a share h up it is r sin(h rise) from the
        axis, where a circle round the axis is shared by all parts.
        """
        rise, ball = math.radians(self.rise), self.ball(radius) / 2
        across = self.round * ball * math.sin(self.form.widest * rise)
        if self.in_one_piece(radius):
            across = min(across, APART * self.form.widest * ball * rise)
        return ball * rise, math.tau * across / self.count

    def in_one_piece(self, radius: float) -> bool:
        """Tell whether the parts of a flower of such a radius are cut as one."""
        return 2 * radius <= self.joined


@dataclass(frozen=True, slots=True)
class Centre:
    """What is modelled in the middle: a dome or a cone, its width over that of the flower."""

    form: Literal["dome", "cone"]
    wide: float

    def volume(self, width: float) -> float:
        """Return its paste in a flower of a width, mm3: half a ball, or a cone twice as tall."""
        wide = self.wide * width
        return math.pi * wide**3 / (12 if self.form == "dome" else 6)


@dataclass(frozen=True, slots=True)
class Leaf:
    """A leaf: its length over the width of the flower, its width over its length."""

    long: float
    wide: float
    form: Form


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of flower: its whorls from the middle out, its middle and its leaves."""

    whorls: tuple[Whorl, ...]
    centre: Centre | None
    leaf: Leaf


_PETAL, _NOTCHED = Form(0.68, 0.25), Form(0.7, 0.22, "notched")
_TEPAL, _RAY = Form(0.55, 0.35), Form(0.75, 0.45)
_POINTED, _SEPAL = Form(0.5, 0.3, "pointed"), Form(0.3, 0.6, "pointed")
_OVATE, _LANCE = Leaf(0.6, 0.6, Form(0.4, 0.2, "pointed")), Leaf(0.9, 0.22, _POINTED)

FLOWERS: Mapping[str, Kind] = {
    "wild rose": Kind(
        (
            Whorl("petal", 5, 1.0, 35, 1.2, _NOTCHED, joined=60),
            Whorl("sepal", 5, 0.55, 25, 1.0, _SEPAL, green=True, joined=ALWAYS),
        ),
        Centre("dome", 0.22),
        _OVATE,
    ),
    "rose": Kind(
        (
            Whorl("first petal", 5, 0.4, 85, 1.3, _PETAL, glued=True),
            Whorl("second petal", 5, 0.6, 70, 1.3, _PETAL, glued=True),
            Whorl("third petal", 5, 0.8, 55, 1.25, _PETAL, glued=True),
            Whorl("outer petal", 5, 1.0, 40, 1.2, _PETAL),
            Whorl("sepal", 5, 0.55, 30, 0.9, _SEPAL, green=True, joined=ALWAYS),
        ),
        Centre("cone", 0.22),
        _OVATE,
    ),
    "peony": Kind(
        (
            Whorl("first petal", 8, 0.5, 80, 1.5, _NOTCHED),
            Whorl("second petal", 8, 0.75, 65, 1.4, _NOTCHED),
            Whorl("outer petal", 6, 1.0, 50, 1.3, _PETAL),
            Whorl("sepal", 5, 0.4, 35, 1.2, _SEPAL, green=True, joined=ALWAYS),
        ),
        Centre("dome", 0.25),
        Leaf(0.8, 0.35, _POINTED),
    ),
    "cherry": Kind(
        (
            Whorl("petal", 5, 1.0, 25, 1.05, _NOTCHED, joined=60),
            Whorl("sepal", 5, 0.45, 20, 1.2, _SEPAL, green=True, joined=ALWAYS),
        ),
        Centre("dome", 0.15),
        Leaf(0.9, 0.5, Form(0.45, 0.15, "pointed")),
    ),
    "anemone": Kind(
        (
            Whorl("inner petal", 4, 0.9, 40, 0.8, _TEPAL),
            Whorl("outer petal", 4, 1.0, 30, 0.8, _TEPAL),
        ),
        Centre("dome", 0.2),
        _LANCE,
    ),
    "poppy": Kind(
        (
            Whorl("inner petal", 2, 0.85, 55, 0.75, Form(0.7, 0.2)),
            Whorl("outer petal", 2, 1.0, 45, 0.75, Form(0.7, 0.2)),
        ),
        Centre("dome", 0.18),
        _LANCE,
    ),
    "daisy": Kind((Whorl("ray", 21, 1.0, 20, 1.0, _RAY, joined=150),), Centre("dome", 0.3), _LANCE),
    "lily": Kind(
        (
            Whorl("inner petal", 3, 1.0, 60, 0.6, Form(0.5, 0.25, "pointed")),
            Whorl("outer petal", 3, 1.0, 60, 0.45, Form(0.5, 0.25, "pointed")),
        ),
        None,
        _LANCE,
    ),
}
"""By the word the cake file has for it."""
