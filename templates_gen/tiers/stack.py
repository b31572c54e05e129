"""The tiers one upon the other, on the drum."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

from templates_gen.cake.model import Cake
from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.polygons import clearance
from templates_gen.errors import CakeError, Problem
from templates_gen.tiers.outline import Outline, Round
from templates_gen.tiers.solid import Solid

DRUM = "drum"
TOUCHING = 1e-6
"""Clearance in mm that still counts as none."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A surface a tier is set on: the drum, or the top of the tier below.

    ``clearance`` is the least distance from the upper tier's covered outline to the edge, mm.
    """

    name: str
    slug: str
    outline: Outline
    upper: Solid
    clearance: float


@dataclass(frozen=True, slots=True)
class Stack:
    """A whole cake as solids, from the bottom up; ``seats`` has one for each tier."""

    title: str
    drum: Outline
    tiers: tuple[Solid, ...]
    seats: tuple[Seat, ...]


def build_stack(cake: Cake) -> Stack:
    """Return the cake as solids. Raises CakeError for each tier that overhangs what it stands on."""
    tiers = tuple(
        Solid(tier, place, name)
        for place, (tier, name) in enumerate(zip(cake.tier, cake.names, strict=True))
    )
    drum = Round(cake.drum_size.mm)
    seats = [_seat(DRUM, DRUM, drum, tiers[0])]
    for lower, upper in pairwise(tiers):
        seats.append(_seat(lower.name, lower.slug, lower.covered.outline, upper))
    problems = [_overhang(seat) for seat in seats if seat.clearance < -TOUCHING]
    if problems:
        raise CakeError(problems)
    return Stack(cake.title, drum, tiers, tuple(seats))


def _seat(name: str, slug: str, outline: Outline, upper: Solid) -> Seat:
    space = clearance(upper.covered.outline.path(), outline.path())
    return Seat(name, slug, outline, upper, space)


def _overhang(seat: Seat) -> Problem:
    upper = seat.upper
    below = "the drum" if seat.slug == DRUM else f"tier “{seat.name}”"
    return Problem(
        upper.key("size"),
        f"tier “{upper.name}”, covered {in_both(upper.covered.outline.across)} across,"
        f" on {below}, {in_both(seat.outline.across)} across",
        "a tier that lies inside what it stands on",
        "use a larger drum: [drum] size"
        if seat.slug == DRUM
        else "tiers are listed from the bottom up: check their order and sizes",
    )
