"""Values that can be made and are seldom meant: a tier far too deep, a colour nobody knows."""

from __future__ import annotations

from collections.abc import Iterator

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.spelling import hint
from templates_gen.cakefile.tier import Tier
from templates_gen.drawing.colour_words import WORDS, shade_of
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
    return (*found, *_odd_colours(cake, cake.names, ()))


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


def _odd_colours(table: BaseModel, names: tuple[str, ...], owner: Key) -> Iterator[PlanWarning]:
    """Yield a warning for each colour in a table, or in one within it, that has no known word."""
    for key in type(table).model_fields:
        value = getattr(table, key)
        if isinstance(value, str) and key.endswith("colour") and shade_of(value) is None:
            yield PlanWarning((*owner, key), _no_colour(value, names, (*owner, key)))
        inner = enumerate(value) if isinstance(value, tuple) else [(None, value)]
        for index, each in inner:
            if isinstance(each, BaseModel):
                at = (*owner, key) if index is None else (*owner, key, index)
                yield from _odd_colours(each, names, at)


def _no_colour(value: str, names: tuple[str, ...], key: Key) -> str:
    """Return what to tell of a colour that has no known word, and which word may be meant."""
    of = names[int(key[1])] if key[0] == "tier" else str(key[0]).replace("_", " ")
    meant = hint(value, WORDS)
    return (
        f"{of}: pictures cannot show the colour “{value}” and use another; the lists keep your"
        f" wording.{f' {meant.capitalize()}' if meant else ''}"
    )
