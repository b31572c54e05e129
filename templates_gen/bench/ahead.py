"""What is made ahead and dries before it is used: toppers, flowers, pieces, letters, the drum."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.bench.step import DAY, Step, in_fives
from templates_gen.cakefile.cutting import Topper
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.waits import Waits
from templates_gen.guides.cascade import named_counts
from templates_gen.guides.cascade_line import CascadeLine
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.guides.flowers import Flowers
from templates_gen.pieces.cascade import counts
from templates_gen.pieces.flowers import flowers, summary
from templates_gen.tiers.seat import DRUM

TOPPER_DRIES, TOPPER_KEEPS = Waits().topper, 7 * DAY
"""Toppers are made 3 to 7 days ahead; two days of drying at the least. Common practice."""
GUM_DRIES, GUM_KEEPS = Waits().pieces, 7 * DAY
"""Gum paste decorations: 48 h to 1 week ahead, before they are set (Aumiller, *Pure Artistry*)."""
PETALS_DRY, FLOWERS_SET = Waits().flowers, Waits().glue
FLOWERS_KEEP = 28 * DAY
"""Dry flowers of sugar keep for weeks in a box that breathes: common practice, no source."""
BOARD_SETS, BOARD_KEEPS = Waits().drum, 14 * DAY
"""A covered board sets overnight: *The Busy Girl's Guide to Cake Decorating*."""


def topper_name(number: int) -> str:
    """Return what a topper is called, by its number in the cake file."""
    return f"topper {number}"


def cascade_name(number: int) -> str:
    """Return what a cascade is called, by its number in the cake file."""
    return f"cascade {number}"


def made_ahead(stack: DecoratedStack) -> Iterator[Step]:
    """Yield the steps of everything that is made before it is used."""
    for number, spec in enumerate(stack.toppers, 1):
        yield _topper(number, spec)
    for made in flowers(stack):
        yield from _flowers(made)
    for tier in stack.tiers:
        yield from _letters(tier)
        yield from _small_pieces(tier)
    for line in stack.cascades:
        yield _cascade(stack, line)


def _topper(number: int, spec: Topper) -> Step:
    words = (
        f"Cut {spec.count} × {spec.text or spec.shape}, {spec.thickness} thick, gum added, with"
        " stick or tab; dry flat, turn over each day."
    )
    minutes = in_fives(20 + 10 * spec.count)
    return Step("make", topper_name(number), words, minutes, TOPPER_DRIES, "topper", TOPPER_KEEPS)


def _flowers(made: Flowers) -> Iterator[Step]:
    """Yield the steps of flowers: parts that dry on forms, and how they are put together."""
    spec, name = made.spec, made.name
    parts = sum(part.count for part in made.parts) * spec.count
    wires = "push in the wires, " if spec.wired else ""
    words = (
        f"{summary(made)}; rolled {spec.thickness} thick. Model the middles, thin the edges,"
        f" {wires}dry them on their forms."
    )
    cut = Step("cut", name, words, in_fives(15 + 2 * parts), PETALS_DRY, "petals", FLOWERS_KEEP)
    yield cut
    how = (
        "tape petal by petal round the middle, then the leaves; no bare wire goes into the cake"
        if spec.wired
        else "set ring by ring in a cup with royal icing, from the outside in"
    )
    minutes = in_fives(5 + 8 * spec.count)
    yield Step(
        "put together",
        name,
        f"Dust with edible colour, {how}.",
        minutes,
        FLOWERS_SET,
        "flowers",
        FLOWERS_KEEP,
        after=(cut.key,),
    )


def _letters(tier: DecoratedTier) -> Iterator[Step]:
    for number, spec in enumerate(tier.spec.lettering, 1):
        if spec.cut:
            letters = len(spec.text.replace(" ", ""))
            words = f"Cut the letters of “{spec.text}”, {spec.thickness} thick; dry flat."
            name = f"letters {number}"
            minutes = in_fives(15 + 2 * letters)
            yield Step(name, tier.name, words, minutes, GUM_DRIES, "letters", GUM_KEEPS + 2 * DAY)


def _small_pieces(tier: DecoratedTier) -> Iterator[Step]:
    for index, made in tier.scatters.items():
        count, spec = len(made.places), made.spec
        words = f"Cut {count} × {spec.shape}, {spec.thickness} thick; dry."
        name = f"small pieces {index + 1}"
        minutes = in_fives(15 + count)
        yield Step(
            name, tier.name, words, minutes, GUM_DRIES, "small pieces ahead", GUM_KEEPS + 2 * DAY
        )


def _cascade(stack: DecoratedStack, line: CascadeLine) -> Step:
    found, spec = counts(stack, line), line.spec
    words = f"Cut {named_counts(spec, found)}, {spec.thickness} thick; dry."
    name, minutes = cascade_name(line.index + 1), in_fives(15 + sum(found))
    stage = "small pieces ahead"
    return Step("make", name, words, minutes, GUM_DRIES, stage, GUM_KEEPS + 2 * DAY)


def cover_drum(spec: Drum) -> Iterator[Step]:
    """Yield the step that covers the drum, where it has paste."""
    if spec.fondant is not None:
        how = "cut the ring, lay it edge to edge" if spec.covering == "ring" else "cover the drum"
        words = f"Roll fondant {spec.fondant} thick, {how}, trim; sets overnight."
        yield Step("cover", DRUM, words, 25, BOARD_SETS, "cover the drum", BOARD_KEEPS)
