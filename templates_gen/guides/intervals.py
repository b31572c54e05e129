"""Where the repeats of a design close: the intervals of a side, and the band it is in."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.cakefile.designs import SMALLEST_REPEAT, Design
from templates_gen.cakefile.lengths import Length
from templates_gen.drawing.designs import DESIGNS
from templates_gen.errors import CakeError, Problem
from templates_gen.geometry.box import nearest_count
from templates_gen.guides.faces import faces
from templates_gen.guides.repeats import repeat
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer
from templates_gen.units import at_least, at_most, decimal, in_both

EVEN_WITHIN = 1 / 8
"""How far the repeats may be from their usual width so that their number is even, over that.

A side with an even number of them folds in four. Our choice, no source.
"""
LOWEST_BAND = 3.0
"""Height of a band, mm, in which a design can still be drawn."""


@dataclass(frozen=True, slots=True)
class Interval:
    """A part of a side from u = ``start`` that repeats fill, mm; all round, or a face."""

    start: float
    length: float
    count: int

    @property
    def pitch(self) -> float:
        """From one repeat to the next, mm."""
        return self.length / self.count

    @property
    def places(self) -> tuple[float, ...]:
        """Where each repeat begins."""
        return tuple(self.start + index * self.pitch for index in range(self.count))


def intervals(layer: Layer, spec: Design) -> tuple[Interval, ...]:
    """Return the intervals that repeats fill: once round, or each face between two corners.

    At the top of the band each repeat is about as wide as the design asks. Raises CakeError, keys
    within the design, where there are no faces or not one repeat fits.
    """
    girth = layer.side.girth
    wider = layer.side.girth_ratio(band(layer, spec)[0])
    runs_on = DESIGNS[spec.kind].repeat is None
    if spec.per == "round" or runs_on:
        count = _count(girth * wider, spec)
        begins = repeat(count, girth, at_front=spec.start == "between").place(0)
        # what runs once round begins and ends at the join, wherever its repeats would begin
        at_join = spec.start == "join" or runs_on
        return (Interval(0.0 if at_join else begins % (girth / count), girth, count),)
    found = faces(layer.rim)
    if not found:
        raise CakeError.at(
            ("per",),
            "“face” on a tier without corners",
            "“round”, or a shape with corners",
            'leave per out, or write per = "round"',
        )
    return tuple(
        Interval(face.start, face.length, _count(face.length * wider, spec)) for face in found
    )


def _count(length: float, spec: Design) -> int:
    """Return how many repeats close on a length. Raises CakeError where they are too small."""
    if DESIGNS[spec.kind].repeat is None:
        return 1  # once round
    wanted = spec.width.mm if spec.width else DESIGNS[spec.kind].repeat or length
    mirrored = spec.mirror and "mirror" in DESIGNS[spec.kind].keys
    count = spec.count or nearest_count(length, wanted, 2 if mirrored else 1)
    if not (spec.count or spec.width or spec.per == "face"):
        even = nearest_count(length, wanted, 2)
        count = even if abs(length / even - wanted) <= EVEN_WITHIN * wanted else count
    if mirrored and count % 2:
        raise CakeError.at(
            ("count",),
            f"{count} repeats, every other one mirrored",
            "an even number of repeats, so that they close",
            f"write count = {count + 1}, or leave mirror out",
        )
    if length / count < SMALLEST_REPEAT / 2:
        raise CakeError.at(
            ("count" if spec.count else "width",),
            f"{count} repeats, {decimal(length / count, 1)} mm each, on {in_both(length)}",
            f"repeats of {at_least(SMALLEST_REPEAT)} or more",
            f"write count = {int(length // SMALLEST_REPEAT)} or less"
            if spec.count
            else f"make them wider: {at_least(SMALLEST_REPEAT)} or more",
        )
    return count


def band(layer: Layer, spec: Design) -> tuple[float, float]:
    """Return from which v to which v a design stands. Raises CakeError where it cannot."""
    depth = layer.side.depth
    top = spec.top.mm if spec.top else 0.0
    foot = spec.bottom.mm if spec.bottom else depth
    for key, length in (("top", spec.top), ("bottom", spec.bottom)):
        if length is not None and length.mm > depth + 1e-9:
            least = LOWEST_BAND if key == "top" else 0.0
            raise CakeError([_below_side(key, length, depth, least)])
    if foot - top < LOWEST_BAND:
        found = f"a band {in_both(foot - top)} tall, from {in_both(top)} to {in_both(foot)}"
        advice = "set top and bottom farther apart"
        key = "bottom" if spec.bottom else "top"
        raise CakeError.at((key,), found, f"a band {at_least(LOWEST_BAND)} tall or more", advice)
    return top, foot


def _below_side(key: str, length: Length, depth: float, least: float) -> Problem:
    """Say that a line of a band lies below the side; ``least`` mm must be left below it."""
    return Problem(
        (key,),
        f"“{length}” on a side {in_both(depth)} deep",
        f"up to {at_most(depth - least)}, down from the rim",
        "move the design up",
    )


def true_width(side: Side, spec: Design, band: tuple[float, float]) -> float:
    """Return how wide a repeat truly is over its width at the rim: at the top of its band.

    Of a design of true size, which does not follow the side, where it is narrowest.
    """
    return min(map(side.girth_ratio, band[: 2 if DESIGNS[spec.kind].true_size else 1]))
