"""Flowers as they are made: each part with its size, the form that it dries in, and its wire."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from fontTools.misc.transform import Transform

from templates_gen.cakefile.flowers import Flower
from templates_gen.drawing.flowers import FLOWERS, Whorl
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import merged
from templates_gen.geometry.path import Path
from templates_gen.units import at_least, counted, in_both

NARROWEST = 3.0
"""A petal narrower than this tears as it is thinned, mm: common practice, no source."""
LEAF_FORM = 1.2
"""How wide the ball is over which a leaf dries, over its length: our choice."""
GAUGES = ((25.0, 30), (45.0, 28), (80.0, 26), (120.0, 24), (float("inf"), 22))
"""Up to which length of petal, mm, which gauge of wire: common practice, no source."""
THICK = {30: 0.315, 28: 0.376, 26: 0.457, 24: 0.559, 22: 0.711, 20: 0.914, 18: 1.219}
"""Thickness of wire by its gauge, mm: the Standard Wire Gauge (BS 3737:1964)."""
WIRE = 360.0
"""The length in which wires for flowers are sold, mm: common practice, no source."""
FREE = 70.0
"""How much of a wire is left below a petal to bind, mm: common practice, no source."""
STEM = 150.0
"""Length of the wire that carries the middle, mm: our choice."""
LARGE = 60.0
"""A flower wider than this is carried by a stouter wire, mm: common practice, no source."""


def flower_name(number: int) -> str:
    """Return what the flowers of a table are called, by its number in the cake file."""
    return f"flower {number}"


@dataclass(frozen=True, slots=True)
class Wire:
    """A wire: its gauge and its length, mm."""

    gauge: int
    length: float

    @property
    def from_one(self) -> int:
        """How many are cut from one wire as it is sold."""
        return int(WIRE / self.length)


@dataclass(frozen=True, slots=True)
class Part:
    """Petals, sepals or leaves alike: how many one flower has, outline and size, mm.

    The outline has its base at (0, 0) and its tip up. It dries on a ball ``form`` mm wide. What is
    a ring in one piece has its ``middle`` so far up. ``Glued`` ones go round the middle while soft.
    """

    name: str
    count: int
    outline: Path
    length: float
    width: float
    form: float
    green: bool
    wire: Wire | None
    glued: bool = False
    middle: float | None = None


@dataclass(frozen=True, slots=True)
class Flowers:
    """Flowers of one table of the cake file, by its place there."""

    index: int
    spec: Flower

    @property
    def name(self) -> str:
        """What they are called."""
        return flower_name(self.index + 1)

    @property
    def stem(self) -> Wire | None:
        """The wire that carries the middle of each."""
        gauge = 18 if self.spec.width.mm > LARGE else 20
        return Wire(gauge, STEM) if self.spec.wired else None

    @property
    def singles(self) -> tuple[Part, ...]:
        """Every part one by one, petals from the middle out first."""
        return (*(_single(self.spec, whorl) for whorl in self._whorls), *_leaves(self.spec))

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every part as it is cut: rings in one piece, and what is single, in the same order."""
        radius = self.spec.width.mm / 2
        rings = (
            _joined(found) if whorl.in_one_piece(radius) else found
            for whorl, found in zip(self._whorls, self.singles, strict=False)
        )
        return (*rings, *_leaves(self.spec))

    @property
    def _whorls(self) -> tuple[Whorl, ...]:
        return FLOWERS[self.spec.kind].whorls

    def refuse_thin(self) -> None:
        """Raise CakeError where a part is too narrow to be cut."""
        least = min(part.width for part in self.singles)
        if least < NARROWEST:
            enough = self.spec.width.mm * NARROWEST / least
            raise CakeError.at(
                ("flower", self.index, "width"),
                f"“{self.spec.width}”: a part of a {self.spec.kind} so wide is only"
                f" {in_both(least)} wide",
                f"parts {at_least(NARROWEST)} wide or more, so that they do not tear",
                f'write width = "{int(enough) + 1} mm" or more',
            )

    @property
    def centre(self) -> float:
        """The paste that is modelled in the middle of one flower, mm3."""
        centre = FLOWERS[self.spec.kind].centre
        return centre.volume(self.spec.width.mm) if centre else 0.0


def _single(spec: Flower, whorl: Whorl) -> Part:
    """Return the parts of a whorl one by one."""
    radius = spec.width.mm / 2
    length, wide = whorl.size(radius)
    has_wire = not whorl.green and not whorl.glued
    outline, form = whorl.form.outline(length, wide), whorl.ball(radius)
    wire = _wire(spec, length) if has_wire else None
    name, green = whorl.name, whorl.green
    return Part(name, whorl.count, outline, length, wide, form, green, wire, whorl.glued)


def _joined(single: Part) -> Part:
    """Return the ring that parts make which are cut in one piece, the tip of one at the top."""
    turns = (Transform().rotate(math.tau * n / single.count) for n in range(single.count))
    (ring,) = merged([single.outline.transformed(turn) for turn in turns])
    box = ring.bounds
    middle = -box.y0
    name = f"{'calyx' if single.green else 'ring'} of {counted(single.count, single.name)}"
    outline = ring.moved(0.0, middle)
    return replace(
        single,
        name=name,
        count=1,
        outline=outline,
        length=box.height,
        width=box.width,
        wire=None,
        middle=middle,
    )


def _leaves(spec: Flower) -> Iterator[Part]:
    if spec.leaves:
        leaf = FLOWERS[spec.kind].leaf
        length = leaf.long * spec.width.mm
        wide = leaf.wide * length
        outline, form = leaf.form.outline(length, wide), LEAF_FORM * length
        wire = _wire(spec, length)
        yield Part("leaf", spec.leaves, outline, length, wide, form, green=True, wire=wire)


def _wire(spec: Flower, length: float) -> Wire | None:
    """Return the wire of a petal or leaf: half-way up it."""
    if not spec.wired:
        return None
    gauge = next(gauge for most, gauge in GAUGES if length <= most)
    return Wire(gauge, length / 2 + FREE)
