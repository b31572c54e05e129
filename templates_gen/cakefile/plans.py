"""The plan of a tier as it was asked for: which keys its shape takes, and what they may hold."""

from __future__ import annotations

import inspect
from collections.abc import Iterator
from functools import cache
from typing import TYPE_CHECKING, Any

from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.rules import Broken
from templates_gen.drawing.shapes import SHAPES
from templates_gen.units import in_both

if TYPE_CHECKING:
    from templates_gen.cakefile.model import Tier

BALL = "ball"
"""The one shape that is no plan raised to a depth."""
PLAN_KEYS = tuple(
    dict.fromkeys(key for make in SHAPES.values() for key in inspect.signature(make).parameters)
)
"""Every key that some shape takes, ``size`` included."""


@cache
def shape_keys(shape: str) -> dict[str, bool]:
    """Return the keys that a shape takes, and whether each must be given."""
    taken = inspect.signature(SHAPES["round" if shape == BALL else shape]).parameters
    return {key: each.default is inspect.Parameter.empty for key, each in taken.items()}


def plan(tier: Tier) -> dict[str, Any]:
    """Return what the shape of a tier is made from: lengths in mm, counts, path data."""
    given = {key: getattr(tier, key) for key in shape_keys(tier.shape)}
    return {
        key: value.mm if isinstance(value, Length) else value
        for key, value in given.items()
        if value is not None
    }


def plan_faults(tier: Tier) -> list[Broken]:
    """Return what is wrong with the plan of a tier."""
    return [*_lacking(tier), *_too_long(tier), *solid_faults(tier)]


def _lacking(tier: Tier) -> Iterator[Broken]:
    """Yield each key that the shape needs and that was not given."""
    for key, needed in shape_keys(tier.shape).items():
        if needed and getattr(tier, key) is None:
            info = type(tier).model_fields[key]
            example = (info.examples or ["…"])[0]
            what = f"{key}, for the shape “{tier.shape}”: {info.description}"
            yield Broken("nothing", what, f"add {key} = {example}", (key,))


def _too_long(tier: Tier) -> Iterator[Broken]:
    """Yield what is longer than the shape lets it be."""
    taken = shape_keys(tier.shape)
    short = tier.short if "short" in taken else None
    if short is not None and short.mm > tier.size.mm:
        yield Broken(
            f"“{short}”, longer than size “{tier.size}”",
            f"up to {in_both(tier.size.mm)}",
            "swap size and short",
            ("short",),
        )
    least = min(tier.size.mm, short.mm if short else tier.size.mm)
    if "corner" in taken and tier.corner is not None and tier.corner.mm > least / 2:
        yield Broken(
            f"“{tier.corner}” on a tier {in_both(least)} wide",
            f"up to half of that, {in_both(least / 2)}",
            "use a smaller radius, or the shape “round”",
            ("corner",),
        )


STEEPEST = 2.0
"""How far a tapered side may lean, mm a mm of depth."""
_NOT_BOTH = (
    ("top_size", "shallowest_depth"),
    ("top_size", "opening"),
    ("shallowest_depth", "opening"),
)
_NOT_ON_A_BALL = (
    "top_size",
    "shallowest_depth",
    "opening",
    "panels",
    "drips",
    "design",
    "lettering",
    "scatter",
)


def solid_faults(tier: Tier) -> Iterator[Broken]:
    """Yield what is wrong with taper, slope, opening and ball, and with several of them at once."""
    if tier.shape == BALL:
        yield from _on_a_ball(tier)
    for one, other in _NOT_BOTH:
        if getattr(tier, one) is not None and getattr(tier, other) is not None:
            yield Broken(
                f"{one} and {other} on one tier", "one of the two", "leave one out", (other,)
            )
    if tier.top_size is not None:
        yield from _too_steep(tier, tier.top_size)
    if tier.shallowest_depth is not None:
        yield from _sloped(tier, tier.shallowest_depth)
    if tier.opening is not None and not tier.dummy:
        yield Broken(
            "a hole through cake",
            "dummy = true for a tier with a hole right through",
            "write dummy = true: such a tier is polystyrene, never cake",
            ("opening",),
        )


def _on_a_ball(tier: Tier) -> Iterator[Broken]:
    for key in _NOT_ON_A_BALL:
        if getattr(tier, key):
            yield Broken(f"{key} on a ball", "a tier with an upright side", "leave it out", (key,))
    if tier.depth.mm > tier.size.mm + 1e-6:
        yield Broken(
            f"“{tier.depth}” on a ball “{tier.size}” wide",
            f"up to {in_both(tier.size.mm)}: a whole ball is as deep as wide",
            "half the size makes a half ball; between the two the ball is flat-bottomed",
            ("depth",),
        )


def _too_steep(tier: Tier, top: Length) -> Iterator[Broken]:
    least = tier.size.mm - 2 * STEEPEST * tier.depth.mm
    most = tier.size.mm + 2 * STEEPEST * tier.depth.mm
    if not least <= top.mm <= most:
        yield Broken(
            f"“{top}” on a tier of size “{tier.size}”, depth “{tier.depth}”",
            f"{in_both(max(least, 25))} to {in_both(most)}",
            "use a top size nearer to the size of the base, or a deeper tier",
            ("top_size",),
        )


def _sloped(tier: Tier, low: Length) -> Iterator[Broken]:
    if low.mm > tier.depth.mm:
        yield Broken(
            f"“{low}”, more than depth “{tier.depth}”",
            f"up to {in_both(tier.depth.mm)}",
            "depth is where the tier is deepest, shallowest_depth where it is shallowest",
            ("shallowest_depth",),
        )
    if tier.drips is not None and tier.drips.guide != "collar":
        yield Broken(
            f"“{tier.drips.guide}” for drips on a sloped top",
            "the collar",
            'write guide = "collar"',
            ("drips", "marks"),
        )
    if tier.panels is not None:
        yield Broken(
            "panels on a tier with a sloped top",
            "panels on a side that is as deep all round",
            "leave panels or shallowest_depth out",
            ("panels",),
        )
