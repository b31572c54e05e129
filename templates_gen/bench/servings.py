"""For how many a cake is: portions of each tier and in all, and stacks of tins for a number."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from templates_gen.cakefile.estimates import Estimates
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.volume import volume
from templates_gen.units import MM_PER_INCH, counted

SIZES: Mapping[str, tuple[float, float]] = {
    "wedding": (1.0, 2.0),
    "coffee": (1.0, 1.0),
    "party": (2.0, 2.0),
}
"""Portions in inches, 4 in tall: sponge 1 by 2, fruit cake 1 by 1, dessert 2 by 2
(celebratewithcake.co.uk)."""
ROUNDS = {6: 12, 8: 24, 10: 38, 12: 56, 14: 76}
"""Wedding portions of rounds, inches across: bakewithsarah.com, servings; huppahsblog, 2010/12.

Charts that promise more than the area holds are not followed.
"""
USED = Estimates().portions_used
"""What whole portions take of a shape that is no square, in percent: our estimate."""
LOW = 91.0
"""A tier less deep than this, mm, has portions lower than the 4 in of the charts: our choice."""
NEAR = 0.5
"""A tin that is within this of one in the chart has its portions, mm."""


@dataclass(frozen=True, slots=True)
class Servings:
    """The portions of a tier by their size, each ``tall_mm``; a dummy has none.

    What is ``beside`` is no tier.
    """

    tier: str
    edible: bool
    portions: Mapping[str, int]
    tall_mm: float
    beside: bool = False


def servings(stack: DecoratedStack) -> tuple[Servings, ...]:
    """Return the portions of each tier, from the bottom up."""
    return tuple(
        Servings(
            tier.name,
            not tier.spec.dummy,
            {
                size: 0 if tier.spec.dummy else _of_tier(tier, size, stack.estimates)
                for size in SIZES
            },
            tall_mm=tier.part_depth,
        )
        for tier in stack.tiers
    )


def too_few(eaten: Sequence[Servings], guests: int | None) -> str:
    """Say of portions for fewer than so many guests how many are missing; else nothing."""
    has = sum(each.portions["wedding"] for each in eaten)
    if guests is None or guests <= has:
        return ""
    return (
        f"{has} wedding portions for {counted(guests, 'guest')}, {guests - has} too few: make tiers"
        " larger or deeper, add one, or serve the rest from cakes in the kitchen."
    )


def _of_tier(tier: DecoratedTier, size: str, estimates: Estimates) -> int:
    """Count the portions of a tier of cake; one that is built of several is cut as often."""
    bare = tier.bare
    is_straight = tier.lies_flat and not bare.is_tapered and bare.fall is None
    across = bare.rim.across if bare.rim.radius and is_straight else None
    # the mean of all heights: of a tier that narrows, or whose top slopes, less than its plan
    area = volume(tier, bare) / bare.depth / MM_PER_INCH**2
    square = tier.spec.shape in ("square", "rectangle") and not tier.spec.corner
    used = estimates.portions_used
    cakes = _of_cakes(tier, estimates)
    return cakes * _portions(area, size, across, square=square, used=used)


def _portions(
    area: float, size: str, across: float | None, *, square: bool, used: float = USED
) -> int:
    """Count portions of an area in square inches; ``across`` in mm is that of a round."""
    wide, long = SIZES[size]
    if square:
        return math.floor(area / (wide * long) + 1e-9)
    if across is not None and size == "wedding":
        for inches, count in ROUNDS.items():
            if abs(across - inches * MM_PER_INCH) < NEAR:
                return count
    return math.floor(area * used / 100 / (wide * long) + 1e-9)


TINS = (4, 6, 8, 10, 12, 14, 16)
"""Tins in even inches: common practice, no source."""
MOST_TIERS = 5
STEPS = (2, 4)
"""How much smaller than the tier below a tier is, inches."""
MOST_SHOWN = 6


@dataclass(frozen=True, slots=True)
class Proposal:
    """A stack of tins in inches, from the bottom up, with its portions, each tier 4 in deep."""

    tins: tuple[int, ...]
    portions: int


def of_tin(inches: int, shape: str, size: str) -> int:
    """Return the portions of a tin, ``shape`` round or square, in inches."""
    square = shape == "square"
    area = inches**2 * (1.0 if square else math.pi / 4)
    return _portions(area, size, None if square else inches * MM_PER_INCH, square=square)


def proposals(wanted: int, shape: str, size: str) -> tuple[Proposal, ...]:
    """Return stacks of even tins for so many portions, those with the least left over first."""
    found = sorted(
        (each for each in _stacks(shape, size) if each.portions >= wanted),
        key=lambda each: (each.portions, len(each.tins), each.tins),
    )
    return tuple(found[:MOST_SHOWN])


def most_portions(shape: str, size: str) -> int:
    """Return the portions of the largest stack that is proposed."""
    return max(each.portions for each in _stacks(shape, size))


def _stacks(shape: str, size: str) -> Iterator[Proposal]:
    for count in range(1, MOST_TIERS + 1):
        for tins in combinations(reversed(TINS), count):
            if all(below - above in STEPS for below, above in pairwise(tins)):
                yield Proposal(tins, sum(of_tin(tin, shape, size) for tin in tins))


def _of_cakes(tier: Solid, estimates: Estimates) -> int:
    """Return of how many cakes, one on the other, a tier is built: by its boards or its depth."""
    if tier.inner_boards:
        return tier.inner_boards + 1
    return max(1, math.ceil(tier.spec.depth.mm / estimates.deepest.mm - 1e-3))
