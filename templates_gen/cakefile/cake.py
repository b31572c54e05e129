"""The whole cake as its file describes it: frozen, checked, in the words of the file."""

from collections.abc import Iterator, Sequence
from typing import Annotated, Literal

from pydantic import StrictBool, StrictInt, ValidationInfo, field_validator, model_validator

from templates_gen.cakefile.cascades import Cascade, cascade_errors
from templates_gen.cakefile.cutting import Topper
from templates_gen.cakefile.drum import Drum
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.fields import Table, about, tables
from templates_gen.cakefile.flowers import Flower
from templates_gen.cakefile.kinds import Templates
from templates_gen.cakefile.lengths import length_of, mostly_inches
from templates_gen.cakefile.letter_cakes import LetterCake, name_of
from templates_gen.cakefile.portions import Portions
from templates_gen.cakefile.prices import Prices
from templates_gen.cakefile.rules import (
    AnyLength,
    Broken,
    Count,
    Name,
    Note,
    PaperName,
    Within,
    broken,
    require_none,
)
from templates_gen.cakefile.slug import alike, slug, tier_slug
from templates_gen.cakefile.tier import Tier
from templates_gen.cakefile.work import Work
from templates_gen.terms import UK
from templates_gen.units import series

MOST_TIERS = 30
"""More than anyone stacks, with room for small dummies: common practice, no source."""
MOST_LETTER_CAKES = 12
"""As many as a picture on one page has room for under each other."""
TAKEN = ("drum", "pack", "whole cake")
"""Names that ids of pieces and lists use for things that are not tiers."""


def _names(tiers: Sequence[Tier]) -> tuple[str, ...]:
    """Return what each tier is called: its name, or its place from the bottom."""
    return tuple(tier.name or f"tier {n}" for n, tier in enumerate(tiers, 1))


def _names_taken(names: Sequence[str]) -> Iterator[Broken]:
    taken = {alike(slug(name)): name for name in TAKEN}
    for index, name in enumerate(names):
        like = alike(tier_slug(name, index))
        if like in taken:
            other = taken[like]
            yield Broken(
                f"“{name}”, which is {'taken' if name == other else f'too like “{other}”'}",
                "a name of its own for each tier, whatever its capitals, accents and signs"
                f" ({series(TAKEN)} are taken)",
                "give the tier another name",
                (index, "name"),
            )
        taken.setdefault(like, name)


def _named_as_letter_cakes(names: Sequence[str], count: int) -> Iterator[Broken]:
    """Yield an error for each tier that has the name of one of ``count`` letter cakes."""
    taken = {slug(name_of(number)) for number in range(1, count + 1)}
    for index, name in enumerate(names):
        if alike(tier_slug(name, index)) in taken:
            yield Broken(
                f"“{name}”, the name of a letter cake",
                "a name that no letter cake has",
                "give the tier another name",
                ("tier", index, "name"),
            )


def _raised_on_nothing(bottom: Tier) -> Iterator[Broken]:
    if bottom.raised is not None:
        yield Broken(
            f"“{bottom.raised}” on the bottom tier",
            "raised on a tier that stands on another",
            "leave it out: the bottom tier stands on the drum",
            (0, "raised"),
        )


class Cake(Table):
    """A whole cake: tiers from the bottom up, on a drum."""

    title: Name = about("printed on every page", '"Orchard wedding"', "Cake")
    note: Note = about("a line for the cover page", '"Delivery Saturday"', "")
    guests: Annotated[StrictInt, Count(1, 2000)] | None = about(
        "how many are served: warns if there are fewer wedding portions of 1 × 2 in", "80"
    )
    unit: Literal["in", "cm", "mm"] | None = about(
        "unit of numbers without a unit in this file", '"in"'
    )
    words: Literal["uk", "us"] = about(
        "words and spelling of what is printed: uk (“colour”, “mould”) or us (“color”, “mold”)",
        '"us"',
        UK,
    )
    paper: PaperName = about(
        "the paper in your printer: a4, letter, legal, a3, tabloid, both (one layout for a4 and"
        " letter), a larger one of the series a, ansi or arch, a size, or a roll by its width",
        '"letter"',
        "a4",
    )
    margin_sides: Annotated[AnyLength, Within(0, 40)] = about(
        "unprintable margin at the sides of the page", '"7 mm"', length_of(7)
    )
    margin_ends: Annotated[AnyLength, Within(0, 40)] = about(
        "unprintable margin at the top and bottom of the page", '"15 mm"', length_of(15)
    )
    printer: Name | None = about(
        "what the two 150 mm bars of page 1 read, across x up, so that pages come out true to size"
        " on your printer, or the name of one measured with templates-gen printer; without it"
        " nothing is scaled",
        '"149.2 x 150.6"',
    )
    print: Literal["few", "whole"] = about(
        "few (as few pages as possible: templates cut on folded parchment, tapes and"
        " sizes) or whole (every template in full)",
        '"whole"',
        "few",
    )
    templates: Templates = about(
        "how much is printed of each kind of template, whatever print says",
        "[templates]",
        Templates(),
    )
    drum: Drum = about("the board under the whole cake", "[drum]", Drum())
    portions: Portions | None = about("guides for cutting the cake into portions", "[portions]")
    estimates: Estimates = about("what the quantities are based on", "[estimates]", Estimates())
    work: Work = about("when the cake must be ready, and your working hours", "[work]", Work())
    prices: Prices = about("prices for the shopping list", "[prices]", Prices())
    through_dowel: StrictBool = about(
        "one long dowel through all tiers into the drum, for tall cakes or cakes that travel",
        "true",
        False,
    )
    tier: tuple[Tier, ...] = tables(
        "the tiers, from the bottom up; a cake of numbers or letters alone has none",
        "[[tier]]",
        MOST_TIERS,
    )
    cascade: tuple[Cascade, ...] = tables(
        "garlands and cascades: flowers or small pieces along a line over tiers", "[[cascade]]"
    )
    letter_cake: tuple[LetterCake, ...] = tables(
        "cakes in the shape of numbers or letters, on a board of their own",
        "[[letter_cake]]",
        MOST_LETTER_CAKES,
    )
    topper: tuple[Topper, ...] = tables("what stands on top of the cake", "[[topper]]")
    flower: tuple[Flower, ...] = tables(
        "flowers that are cut petal by petal, for on and beside the cake", "[[flower]]"
    )

    @property
    def board(self) -> Drum:
        """The board under the tiers; a usual one, without anything on it, where there are none."""
        return self.drum if self.tier else Drum()

    @property
    def names(self) -> tuple[str, ...]:
        """What each tier is called: its name, or its place from the bottom."""
        return _names(self.tier)

    @property
    def in_inches(self) -> bool:
        """Whether most of its tiers, or letters alone, have their sizes in inches."""
        sizes = [tier.size for tier in self.tier] or [each.cap_height for each in self.letter_cake]
        return mostly_inches(size.text for size in sizes)

    @field_validator("tier", mode="after")
    @classmethod
    def _some_tiers(cls, tiers: tuple[Tier, ...]) -> tuple[Tier, ...]:
        raised = (rule for bottom in tiers[:1] for rule in _raised_on_nothing(bottom))
        require_none([*_names_taken(_names(tiers)), *raised])
        return tiers

    @field_validator("cascade", mode="after")
    @classmethod
    def _cascades_have_tiers(
        cls, cascades: tuple[Cascade, ...], info: ValidationInfo
    ) -> tuple[Cascade, ...]:
        tiers = info.data.get("tier")
        require_none(cascade_errors(cascades, _names(tiers)) if tiers else ())
        return cascades

    @model_validator(mode="after")
    def _tables_go_together(self) -> "Cake":
        if not self.tier and not self.letter_cake:
            found = "nothing to make: no tier, and no letter cake"
            advice = "add a tier: [[tier]], size, depth"
            allowed = f"1 to {MOST_TIERS} tiers, or a [[letter_cake]]"
            raise broken(found, allowed, advice, ("tier",))
        if not self.tier and self.cascade:
            found, allowed = "a cascade on a cake without tiers", "one over the tiers of a cake"
            advice = "leave it out, or add a tier: [[tier]], size, depth"
            raise broken(found, allowed, advice, ("cascade",))
        require_none(_named_as_letter_cakes(self.names, len(self.letter_cake)))
        return self
