"""A tier carved from ordinary cakes: its sections at every layer, and the tin of each layer."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import count
from typing import Literal

from templates_gen.cakefile.carving import Carving
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.lengths import UNITS, mostly_inches
from templates_gen.cakefile.shape_keys import BALL
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import clipped_area, region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import EMPTY, Path
from templates_gen.tiers.layered import layered
from templates_gen.tiers.side import Fall
from templates_gen.tiers.solid import Layer, Solid

ORDINARY = {"in": range(4, 17, 2), "cm": range(10, 41, 5)}
"""Widths of tins that most bakers have, by their unit: common practice, no source."""
SMALLEST = 10.0
"""What is narrower than this is carved by eye, mm."""
TIP = 1e-3
"""A section narrower than this is none, mm."""
STRIPS = 8
"""Parts in which the volume of a layer is added up."""
Shape = Literal["round", "square"]


@dataclass(frozen=True, slots=True, order=True)
class Tin:
    """A tin by its width in whole inches or centimetres."""

    width: int
    unit: str
    shape: Shape

    @property
    def across(self) -> float:
        """Its width, mm."""
        return float(self.width * UNITS[self.unit])

    @property
    def area(self) -> float:
        """The area of its bottom, mm2."""
        square = self.across**2
        return square * math.pi / 4 if self.shape == "round" else square

    @property
    def is_ordinary(self) -> bool:
        """Whether most bakers have one."""
        return self.width <= ORDINARY[self.unit][-1]

    def __str__(self) -> str:
        return f"{self.shape} {self.width} {self.unit}"


@dataclass(frozen=True, slots=True)
class CarvedLayer:
    """A layer from ``base`` to ``top`` mm above the base of its tier.

    Of its cake from a ``tin`` it keeps ``kept`` mm3 and loses ``cut_off``.
    """

    number: int
    base: float
    top: float
    tin: Tin
    kept: float

    @property
    def cut_off(self) -> float:
        """What is carved off its cake, mm3."""
        return self.tin.area * (self.top - self.base) - self.kept


def is_carved(tier: Solid) -> bool:
    """Tell whether a tier is to be carved, and is not baked as it is."""
    spec = tier.spec
    return spec.carving is not None and not spec.dummy and not spec.has_own_tin


def is_trimmed(tier: Solid) -> bool:
    """Tell whether a ball, or a tier that leans, is cut by eye from straight cakes."""
    spec = tier.spec
    leans = spec.top_size is not None or spec.shallowest_depth is not None
    return (leans or tier.ball is not None) and not spec.dummy and not is_carved(tier)


def tin_to_trim(tier: Solid) -> Tin | None:
    """Return the smallest ordinary tin that holds a tier which is trimmed by eye.

    None for one with a plan of its own, such as a heart, which is baked in a tin of its plan.
    """
    spec = tier.spec
    if not is_trimmed(tier) or spec.shape not in (BALL, "round", "square"):
        return None
    across = tier.ball.across if tier.ball else max(tier.bare.foot.across, tier.bare.rim.across)
    return _fitting(tier, across, "square" if spec.shape == "square" else "round")


def tin_area(tier: Solid, estimates: Estimates) -> float:
    """Return the area of the tins that a tier is baked in, of several sizes the largest, mm2."""
    carved = [layer.tin.area for layer in carved_layers(tier, estimates)]
    if carved:
        return max(carved)
    tin = tin_to_trim(tier)
    return tin.area if tin else max(tier.bare.foot.area, tier.bare.rim.area)


def section(tier: Solid, z: float) -> Path:
    """Return the edge of a bare tier ``z`` mm above its base; the empty path above its top."""
    bare = tier.bare
    if tier.ball is not None:
        radius = section_radius(tier, z)
        return circle((0.0, 0.0), radius) if radius and radius > TIP else EMPTY
    if bare.fall is not None:
        return _under_slope(bare.rim.path(), bare.fall, bare.depth - z)
    return bare.foot.scaled(_narrowed(bare, z)).path()


def section_radius(tier: Solid, z: float) -> float | None:
    """Return the radius of a section that is a circle, mm."""
    bare, ball = tier.bare, tier.ball
    if ball is not None:
        return math.sqrt(max(ball.radius**2 - (z - ball.raised) ** 2, 0.0))
    if bare.fall is not None or bare.foot.radius is None:
        return None
    return bare.foot.radius * _narrowed(bare, z)


def _narrowed(bare: Layer, z: float) -> float:
    """Return how wide an upright or tapered tier is at a height, over its base."""
    return 1 + z / bare.depth * (bare.rim.across / bare.foot.across - 1)


def _under_slope(plan: Path, fall: Fall, below: float) -> Path:
    """Return the part of a plan over which a sloped top is ``below`` mm lower at the most."""
    if fall.rate <= 0:
        return plan
    reach, (x, y), box = fall.start + below / fall.rate, fall.towards, plan.bounds
    kept = Box(
        max(box.x0, -reach) if x < 0 else box.x0,
        max(box.y0, -reach) if y < 0 else box.y0,
        min(box.x1, reach) if x > 0 else box.x1,
        min(box.y1, reach) if y > 0 else box.y1,
    )
    return clipped_area(plan, kept) if min(kept.size) > TIP else EMPTY


def can_be_cut(edge: Path) -> bool:
    """Tell whether a section is wide enough for a guide."""
    return bool(edge.commands) and min(edge.bounds.size) >= SMALLEST


def carved_layers(tier: Solid, estimates: Estimates) -> tuple[CarvedLayer, ...]:
    """Return the layers of a tier that is carved, from the base up; of any other none."""
    cake, spec = layered(tier, estimates), tier.spec.carving
    if cake is None or spec is None or not is_carved(tier):
        return ()
    return tuple(
        CarvedLayer(number, base, top, _tin(tier, spec, base, top), _volume(tier, base, top))
        for number, (base, top) in enumerate(cake.levels, 1)
    )


def filled(tier: Solid, estimates: Estimates) -> float:
    """Return what the fillings of a tier take, each as wide as the bare tier is there, mm3."""
    cake = layered(tier, estimates)
    return sum(_volume(tier, base, top) for base, top in cake.fillings) if cake else 0.0


def _tin(tier: Solid, spec: Carving, base: float, top: float) -> Tin:
    """Return the tin that wastes least of those in which a layer has room, its middle in theirs."""
    widest = [base, top]
    if tier.ball is not None and base < tier.ball.raised < top:
        widest.append(tier.ball.raised)
    points = [place for z in widest for ring, _ in sampled(section(tier, z)) for place in ring]
    reach = {
        "round": max((math.hypot(x, y) for x, y in points), default=0.0),
        "square": max((max(abs(x), abs(y)) for x, y in points), default=0.0),
    }
    shapes: Sequence[Shape] = ("round", "square") if spec.tins == "either" else (spec.tins,)
    tins = [_fitting(tier, 2 * (reach[shape] + spec.spare.mm), shape) for shape in shapes]
    return min(tins, key=lambda tin: tin.area)


def _fitting(tier: Solid, width: float, shape: Shape) -> Tin:
    """Return the smallest tin at least ``width`` mm wide, ordinary or not, in the tier's unit."""
    unit = "in" if mostly_inches([tier.spec.size.text]) else "cm"
    sizes = count(ORDINARY[unit].start, ORDINARY[unit].step)
    tins = (Tin(size, unit, shape) for size in sizes)
    return next(tin for tin in tins if tin.across >= width - 1e-6)


def _volume(tier: Solid, base: float, top: float) -> float:
    """Return what lies in a tier between two heights, mm3.

    Simpson's rule, exact for tapers and balls, whose sections change by the square of the height.
    """
    if tier.ball is None and tier.bare.fall is None and not tier.bare.is_tapered:
        return tier.bare.foot.area * (top - base)
    step = (top - base) / (2 * STRIPS)
    areas = [_area(section(tier, base + number * step)) for number in range(2 * STRIPS + 1)]
    return step / 3 * (areas[0] + areas[-1] + 4 * sum(areas[1:-1:2]) + 2 * sum(areas[2:-1:2]))


def _area(edge: Path) -> float:
    return region(edge).area if edge.commands else 0.0


def in_tins(layers: Sequence[CarvedLayer]) -> dict[Tin, int]:
    """Return how many layers come from each tin, the largest first."""
    counted = Counter(layer.tin for layer in layers)
    return {tin: counted[tin] for tin in sorted(counted, reverse=True)}
