"""How a cake is carried: weights, two-person lifts, and the boxes that hold it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.bench import letter_cakes
from templates_gen.bench.amounts import MM3_PER_ML
from templates_gen.bench.quantities import separator_weight, weight
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.tiers.letter_cakes import BOARD

NIOSH, CLOSE = 23.0, 25.0
"""Recommended weight limit 23 kg × 25/H, H in cm from the ankles to the hands: NIOSH 94-110.

H is half the width of what is held and, from memory of the same guide, 20 cm."""


@dataclass(frozen=True, slots=True)
class Load:
    """Something that is carried: its weight in grams, the inside of its box in mm, who lifts it.

    ``most`` is the weight in kg over which it is a two-person lift.
    """

    what: str
    mass: float
    width: float
    depth: float
    height: float
    most: float

    @property
    def takes_two(self) -> bool:
        """Whether it is a two-person lift."""
        return self.mass / 1000 > self.most


def loads(stack: DecoratedStack) -> tuple[Load, ...]:
    """Return each tier as it is carried apart, from the bottom up, the whole cake, letter cakes."""
    return (*_apart(stack), *_whole(stack), *_beside(stack))


def _apart(stack: DecoratedStack) -> Iterator[Load]:
    for tier in stack.tiers:
        boxes = [tier.covered.rim.bounds, tier.covered.foot.bounds, tier.board.bounds]
        width, depth = (max(getattr(box, side) for box in boxes) for side in ("width", "height"))
        height = tier.covered.depth + tier.board_thickness
        mass = weight(tier, stack.estimates)
        yield _load(tier.name, mass, width, depth, height, stack.estimates)


def _beside(stack: DecoratedStack) -> Iterator[Load]:
    for cake in stack.letter_cakes:
        width, depth = cake.made.board
        height = cake.made.wall_height + BOARD.mm
        mass = letter_cakes.mass_of(cake, stack.estimates)
        name = name_of(cake.index + 1)
        yield _load(name, mass, width, depth, height, stack.estimates)


def _whole(stack: DecoratedStack) -> Iterator[Load]:
    if stack.drum is None:
        return
    drum = stack.drum.bounds
    tiers = sum(weight(tier, stack.estimates) for tier in stack.tiers)
    separators = sum(separator_weight(seat, stack.estimates) for seat in stack.seats)
    mass = tiers + separators + _drum_mass(stack, stack.drum.area)
    width, depth = _spread(stack, drum.width, drum.height)
    height = stack.height + stack.drum_thickness
    yield _load("whole cake", mass, width, depth, height, stack.estimates)


def _spread(stack: DecoratedStack, width: float, depth: float) -> tuple[float, float]:
    """Return how wide and deep a cake is about the middle of its drum: a tier may reach over."""
    standing = zip(stack.tiers, stack.places, strict=True)
    boxes = [place.of(tier.covered.foot).bounds for tier, place in standing]
    reach_x = max(width / 2, *(max(-box.x0, box.x1) for box in boxes))
    reach_y = max(depth / 2, *(max(-box.y0, box.y1) for box in boxes))
    return 2 * reach_x, 2 * reach_y


def _drum_mass(stack: DecoratedStack, area: float) -> float:
    spec = stack.drum_spec
    fondant = spec.fondant.mm if spec.fondant else 0.0
    thick = spec.thickness.mm * stack.estimates.board + fondant * stack.estimates.fondant
    return area * thick / MM3_PER_ML


def _load(
    what: str, mass: float, width: float, depth: float, height: float, estimates: Estimates
) -> Load:
    reach = (estimates.reach.mm + min(width, depth) / 2) / 10
    most = min(estimates.one_lifts, NIOSH * min(1.0, CLOSE / reach))
    margin = 2 * estimates.box_room.mm
    box = (width + margin, depth + margin, height + estimates.box_headroom.mm)
    return Load(what, mass, *box, most)
