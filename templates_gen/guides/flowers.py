"""Flowers as they are made: each part with its size, the form that it dries in, and its wire."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.cakefile.flowers import Flower
from templates_gen.drawing.flowers import FLOWERS
from templates_gen.errors import CakeError
from templates_gen.geometry.path import Path
from templates_gen.units import at_least, in_both

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

    The outline has its base at (0, 0) and its tip up. It dries on a ball ``form`` mm wide.
    """

    name: str
    count: int
    outline: Path
    length: float
    width: float
    form: float
    green: bool
    wire: Wire | None


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
    def parts(self) -> tuple[Part, ...]:
        """Every part, petals from the middle out first."""
        return tuple(_parts(self.spec))

    def refuse_thin(self) -> None:
        """Raise CakeError where a part is too narrow to be cut."""
        least = min(part.width for part in self.parts)
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


def _parts(spec: Flower) -> Iterator[Part]:
    kind, width = FLOWERS[spec.kind], spec.width.mm
    for whorl in kind.whorls:
        length, wide = whorl.size(width / 2)
        outline, form = whorl.form.outline(length, wide), whorl.ball(width / 2)
        wire = _wire(spec, length) if not whorl.green else None
        yield Part(whorl.name, whorl.count, outline, length, wide, form, whorl.green, wire)
    if spec.leaves:
        length = kind.leaf.long * width
        wide = kind.leaf.wide * length
        outline, form = kind.leaf.form.outline(length, wide), LEAF_FORM * length
        wire = _wire(spec, length)
        yield Part("leaf", spec.leaves, outline, length, wide, form, green=True, wire=wire)


def _wire(spec: Flower, length: float) -> Wire | None:
    """Return the wire of a petal or leaf: half-way up it."""
    if not spec.wired:
        return None
    gauge = next(gauge for most, gauge in GAUGES if length <= most)
    return Wire(gauge, length / 2 + FREE)
