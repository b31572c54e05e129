"""What the shape, the taper, the slope and the hole of a bare tier may be."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.cakefile.body import Body
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.rules import Broken
from templates_gen.cakefile.shape_keys import BALL, shape_keys
from templates_gen.units import at_least, at_most, in_both

STEEPEST = 2.0
"""How far a tapered side may lean, mm a mm of depth."""
_NOT_BOTH = (
    ("top_size", "shallowest_depth"),
    ("top_size", "opening"),
    ("shallowest_depth", "opening"),
)


def body_errors(body: Body) -> Iterator[Broken]:
    """Yield the problems of the body of a tier."""
    yield from _missing(body)
    yield from _too_long(body)
    if body.shape == BALL:
        yield from _too_deep_for_a_ball(body)
    yield from _not_both(body)
    if body.top_size is not None:
        yield from _too_steep(body, body.top_size)
    if body.shallowest_depth is not None:
        yield from _not_the_shallowest(body, body.shallowest_depth)
    if body.opening is not None and not body.dummy:
        yield Broken(
            "a hole through cake",
            "dummy = true for a tier with a hole right through",
            "write dummy = true: such a tier is polystyrene, never cake",
            ("opening",),
        )


def _missing(body: Body) -> Iterator[Broken]:
    """Yield each key that the shape needs and that was not given."""
    for key, needed in shape_keys(body.shape).items():
        if needed and getattr(body, key) is None:
            info = type(body).model_fields[key]
            example = (info.examples or ["…"])[0]
            means = (info.description or "").removeprefix(f"{body.shape}: ")
            what = f"for the shape “{body.shape}”: {means}"
            yield Broken(f"no {key}", what, f"add {key} = {example}", (key,))


def _too_long(body: Body) -> Iterator[Broken]:
    """Yield what is longer than the shape lets it be."""
    taken = shape_keys(body.shape)
    short = body.short if "short" in taken else None
    if short is not None and short.mm > body.size.mm:
        yield Broken(
            f"“{short}”, longer than size “{body.size}”",
            f"up to {at_most(body.size.mm)}",
            "swap size and short",
            ("short",),
        )
    least = min(body.size.mm, short.mm if short else body.size.mm)
    if "corner" in taken and body.corner is not None and body.corner.mm > least / 2:
        yield Broken(
            f"“{body.corner}” on a tier {in_both(least)} wide",
            f"up to half of that, {at_most(least / 2)}",
            "use a smaller radius, or the shape “round”",
            ("corner",),
        )


def _too_deep_for_a_ball(body: Body) -> Iterator[Broken]:
    if body.depth.mm > body.size.mm + 1e-6:
        yield Broken(
            f"“{body.depth}” on a ball “{body.size}” wide",
            f"up to {at_most(body.size.mm)}: a whole ball is as deep as wide",
            "half the size makes a half ball; between the two the ball is flat-bottomed",
            ("depth",),
        )


def _not_both(body: Body) -> Iterator[Broken]:
    for one, other in _NOT_BOTH:
        if getattr(body, one) is not None and getattr(body, other) is not None:
            yield Broken(
                f"{one} and {other} on one tier", "one of the two", "leave one out", (other,)
            )


def _too_steep(body: Body, top: Length) -> Iterator[Broken]:
    least = body.size.mm - 2 * STEEPEST * body.depth.mm
    most = body.size.mm + 2 * STEEPEST * body.depth.mm
    if not least <= top.mm <= most:
        yield Broken(
            f"“{top}” on a tier of size “{body.size}”, depth “{body.depth}”",
            f"{at_least(max(least, 25))} to {at_most(most)}",
            "use a top size nearer to the size of the base, or a deeper tier",
            ("top_size",),
        )


def _not_the_shallowest(body: Body, low: Length) -> Iterator[Broken]:
    if low.mm > body.depth.mm:
        yield Broken(
            f"“{low}”, more than depth “{body.depth}”",
            f"up to {at_most(body.depth.mm)}",
            "depth is where the tier is deepest, shallowest_depth where it is shallowest",
            ("shallowest_depth",),
        )
