"""Values that can be made and are seldom meant: a tier far too deep, a colour nobody knows."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.fields import values_in
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.spelling import hint
from templates_gen.cakefile.tier import Tier
from templates_gen.drawing.colour_words import WORDS, shade_of
from templates_gen.drawing.designs import DESIGNS
from templates_gen.errors import Key, PlanWarning
from templates_gen.units import decimal, in_both

DEEPEST = 304.8
"""mm: tins and dummies are 75 to 200 mm deep, and two are built into one (common practice)."""
SHALLOWEST = 25.0
"""mm: the thinnest layer that is baked by itself (common practice, no source)."""
TALLEST = 3.0
"""The most that a tier is deep, in widths: our choice, no source."""
ROUNDING = 1e-6
"""mm: more than floats are off by, and less than any difference that was typed."""
THICKEST = {"coating": 25.0, "fondant": 12.7}
"""mm: several times what is usual (common practice, no source)."""


def doubtful(cake: Cake) -> tuple[PlanWarning, ...]:
    """Return a warning for every value that is far from what is usual."""
    found: list[PlanWarning] = []
    for index, (tier, name) in enumerate(zip(cake.tier, cake.names, strict=True)):
        found += _odd_sizes(tier, name, ("tier", index))
        found += _odd_stencils(tier, name, ("tier", index))
    return (*found, *_odd_colours(cake))


def _odd_sizes(tier: Tier, name: str, owner: Key) -> Iterator[PlanWarning]:
    """Yield what is odd about the sizes of a tier."""

    def odd(key: str, length: Length, fault: str) -> PlanWarning:
        text = f"{name}: {key} {length.found} is {fault}. Check the number and its unit."
        return PlanWarning((*owner, key), text)

    deep, wide = tier.depth, min(tier.size.mm, (tier.short or tier.size).mm)
    if deep.mm > DEEPEST:
        yield odd("depth", deep, f"deeper than is usual, up to {in_both(DEEPEST)}")
    elif deep.mm > TALLEST * wide + ROUNDING:
        yield odd("depth", deep, f"over {decimal(TALLEST)} times the width, {in_both(wide)}")
    elif deep.mm < SHALLOWEST:
        yield odd("depth", deep, f"shallower than is usual, {in_both(SHALLOWEST)} or more")
    for key, most in THICKEST.items():
        length: Length | None = getattr(tier, key)
        if length is not None and length.mm > most:
            yield odd(key, length, f"thicker than is usual, up to {in_both(most)}")


def _odd_stencils(tier: Tier, name: str, owner: Key) -> Iterator[PlanWarning]:
    """Yield a warning for each stencil of strips or mats in rows: level lines are all it has."""
    for number, design in enumerate(tier.design):
        kind = DESIGNS[design.kind]
        if design.stencil is not None and kind.strip is not None and kind.repeat is None:
            text = (
                f"{name}: a stencil of {design.kind} has only the lines of its rows: for a pattern"
                " to spread through use the design “artwork” with an SVG file."
            )
            yield PlanWarning((*owner, "design", number, "stencil"), text)


def _odd_colours(cake: Cake) -> Iterator[PlanWarning]:
    """Yield a warning for each colour that has no known word, and say which word may be meant."""
    for key, value in values_in(cake):
        is_colour = isinstance(value, str) and str(key[-1]).endswith("colour")
        if is_colour and shade_of(str(value)) is None:
            of = cake.names[int(key[1])] if key[0] == "tier" else str(key[0]).replace("_", " ")
            meant = hint(str(value), WORDS)
            text = (
                f"{of}: pictures cannot show the colour “{value}” and use another; the lists keep"
                f" your wording.{f' {meant.capitalize()}' if meant else ''}"
            )
            yield PlanWarning(key, text)
