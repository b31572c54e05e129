"""What quantities are estimated with: densities, waste, sizes of packs. All can be changed."""

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import AfterValidator, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.rules import AnyLength, Count, Number, OneOf, Within

ESTIMATE = "an estimate, no source"


@dataclass(frozen=True, slots=True)
class Density:
    """How heavy something is, g/cm3, and who says so."""

    value: float
    source: str = ESTIMATE


KELKAR = "Kelkar, Boushey and Okos, J. Food Eng. 159 (2015), Table 5"
CAKES = {
    "butter cake": Density(0.6),
    "sponge": Density(0.343, f"{KELKAR}, measured"),
    "sponge by scan": Density(0.277, f"{KELKAR}, by scan"),
    "fruit cake": Density(1.1),
}
"""Kinds of cake whose density is known, or guessed."""
DENSITY = Number(0.005, 5)


class _CakeDensity:
    """A kind of cake or a density in g/cm3."""

    def __call__(self, given: float | str) -> float | str:
        """Return what was given, or raise when it is neither."""
        return OneOf(CAKES)(given) if isinstance(given, str) else DENSITY(given)


class Estimates(Table):
    """What quantities are estimated with; densities in g/cm3."""

    cake: Annotated[float | str, AfterValidator(_CakeDensity())] = about(
        f"the kind of cake ({', '.join(CAKES)}), or its density in g/cm³",
        '"sponge"',
        "butter cake",
    )
    dummy: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of a polystyrene dummy, g/cm³", "0.03", 0.03
    )
    coating: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of buttercream or ganache, g/cm³", "1.0", 1.0
    )
    fondant: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of sugar paste, g/cm³", "1.35", 1.35
    )
    drip_icing: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of the icing for drips, g/cm³", "1.3", 1.3
    )
    waste: Annotated[float, AfterValidator(Number(0, 100))] = about(
        "what is rolled, mixed or coloured beyond what is used, in percent", "12", 15.0
    )
    pack: Annotated[StrictInt, AfterValidator(Count(10, 100_000))] = about(
        "grams of paste in the packs you buy", "500", 1000
    )
    drip: Annotated[AnyLength, AfterValidator(Within(0.5, 30))] = about(
        "how thick a drip stands out from the side", '"4 mm"', Length(4.0, "4 mm")
    )
    film: Annotated[AnyLength, AfterValidator(Within(0.005, 2))] = about(
        "how thick a coat of paint is while wet", '"0.05 mm"', Length(0.05, "0.05 mm")
    )

    @property
    def cake_density(self) -> Density:
        """The density of the cake, and who says so."""
        given = self.cake
        return CAKES[given] if isinstance(given, str) else Density(given, "as you gave it")

    def source(self, name: str) -> str:
        """Say where the value of a key comes from."""
        if name == "cake":
            return self.cake_density.source
        return "as you gave it" if name in self.model_fields_set else ESTIMATE


class Paint(Table):
    """Lustre paint on a tier: edible dust and clear alcohol, 1 : 1 by volume (common practice)."""

    on: Literal["drips", "panels", "side", "whole"] = about(
        "what is painted: the drips, the panels, the side, or the whole tier", '"drips"', "drips"
    )
    coats: Annotated[StrictInt, AfterValidator(Count(1, 10))] = about("how many coats", "2", 2)
