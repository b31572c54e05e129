"""The tiers one upon the other, on the drum."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from templates_gen.cake.cutting import Topper
from templates_gen.cake.model import Cake
from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.polygons import clearance
from templates_gen.drawing.shapes.round import circle
from templates_gen.errors import Problem
from templates_gen.tiers.solid import Solid

DRUM = "drum"
TOUCHING = 1e-6
"""Clearance in mm that still counts as none."""


@dataclass(frozen=True, slots=True)
class Seat:
    """A surface a tier is set on: the drum, or the top of the tier below.

    ``clearance`` is the least distance from the upper tier's covered outline to the edge, mm;
    ``scored`` is False where no score sheet is wanted.
    """

    name: str
    slug: str
    outline: Outline
    upper: Solid
    clearance: float
    scored: bool = True


@dataclass(frozen=True, slots=True)
class Stack:
    """A whole cake as solids, from the bottom up; ``seats`` has one for each tier.

    ``toppers`` are what is asked to stand on it.
    """

    drum: Outline
    tiers: tuple[Solid, ...]
    seats: tuple[Seat, ...]
    toppers: tuple[Topper, ...] = ()


def build_stack(cake: Cake) -> Stack:
    """Return the cake as solids, whether its tiers overhang or not (see ``overhangs``)."""
    tiers = tuple(
        Solid(tier, place, name)
        for place, (tier, name) in enumerate(zip(cake.tier, cake.names, strict=True))
    )
    drum = circle(cake.drum_size.mm)
    seats = [replace(_seat(DRUM, DRUM, drum, tiers[0]), scored=cake.drum.sheet)]
    for lower, upper in pairwise(tiers):
        seats.append(_seat(lower.name, lower.slug, lower.covered.rim, upper))
    return Stack(drum, tiers, tuple(seats), cake.topper)


def _seat(name: str, slug: str, outline: Outline, upper: Solid) -> Seat:
    return Seat(name, slug, outline, upper, _clearance(upper.covered.foot, outline))


def _clearance(inner: Outline, outer: Outline) -> float:
    """Return the least distance between two outlines one in the other; of circles it is exact."""
    if inner.radius is not None and outer.radius is not None:
        return outer.radius - inner.radius
    return clearance(inner.path(), outer.path())


def overhangs(stack: Stack) -> list[Problem]:
    """Return what is wrong where a tier or its board reaches over what it stands on."""
    return [problem for seat in stack.seats for problem in _overhang(seat)]


def _overhang(seat: Seat) -> Iterator[Problem]:
    upper, wide = seat.upper, seat.outline.across
    below = (
        f"on {'the drum' if seat.slug == DRUM else f'tier “{seat.name}”'}, {in_both(wide)} across"
    )
    if seat.clearance < -TOUCHING:
        yield Problem(
            upper.key("size"),
            f"tier “{upper.name}”, covered {in_both(upper.covered.foot.across)} across, {below}",
            "a tier that lies inside what it stands on",
            "use a larger drum: [drum] size"
            if seat.slug == DRUM
            else "check the sizes; in a cake file tiers are listed from the bottom up",
        )
    if upper.asked.board is not None and upper.board.across > wide:
        yield Problem(
            upper.key("board"),
            f"the board of tier “{upper.name}”, {in_both(upper.board.across)} across, {below}",
            "a board that lies inside what it stands on",
            "use a smaller board, or leave it out",
        )
