"""What quantities are estimated with: densities, waste, sizes of packs. All can be changed."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import AfterValidator, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.rules import AnyLength, Count, Number, OneOf, Within
from templates_gen.cakefile.waits import Waits

ESTIMATE = "our estimate"


@dataclass(frozen=True, slots=True)
class Density:
    """How heavy something is, g/cm3, and who says so."""

    value: float
    source: str = ESTIMATE


@dataclass(frozen=True, slots=True)
class CakeKind(Density):
    """A kind of cake: how heavy it is, and its batter in g/mL, and who says so.

    The batter ``rises`` to so many times its depth in the tin. Baked and wrapped, filled or not,
    the cake ``keeps`` for so many hours: common practice, no source.
    """

    batter: float = 0.85
    batter_source: str = ESTIMATE
    rises: float = 2.0
    keeps: float = 120.0


KELKAR = "Kelkar, Boushey and Okos, J. Food Eng. 159 (2015), Table 5"
LAYER_CAKES = (
    "USDA Standard Reference 18146, 18139, 18101: 817 to 1137 g for two 8 in layers, which is 0.33"
    " to 0.46 if they are 3 in tall"
)
BAKING = "American Society of Baking, “Specific gravity”"
CAKES = {
    "butter cake": CakeKind(0.46, LAYER_CAKES, 0.85, f"{BAKING}: 0.80 to 0.90"),
    "chocolate cake": CakeKind(0.46, LAYER_CAKES, 0.90, f"{BAKING}: 0.90"),
    "sponge": CakeKind(0.343, f"{KELKAR}, measured", 0.48, f"{BAKING}: 0.46 to 0.50", 1.5, 72.0),
    "sponge by scan": CakeKind(
        0.277, f"{KELKAR}, by scan", 0.48, f"{BAKING}: 0.46 to 0.50", 1.5, 72.0
    ),
    "fruit cake": CakeKind(1.1, ESTIMATE, 1.15, ESTIMATE, 1.1, 90 * 24.0),
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
        "density of a polystyrene dummy in g/cm³", "0.03", 0.03
    )
    coating: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of buttercream or ganache in g/cm³", "1.0", 1.0
    )
    board: Annotated[float, AfterValidator(DENSITY)] = about("density of boards, g/cm³", "0.6", 0.7)
    fondant: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of fondant (sugar paste) in g/cm³", "1.35", 1.35
    )
    drip_icing: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of royal icing, for drips and piping, in g/cm³", "1.3", 1.3
    )
    dust: Annotated[float, AfterValidator(DENSITY)] = about(
        "density of lustre dust as it is spooned, g/cm³", "0.6", 0.5
    )
    waste: Annotated[float, AfterValidator(Number(0, 100))] = about(
        "extra to roll, mix or colour, in percent", "12", 15.0
    )
    pack: Annotated[StrictInt, AfterValidator(Count(10, 100_000))] = about(
        "size of the packs of fondant you buy, in grams", "500", 1000
    )
    tin: Annotated[AnyLength, AfterValidator(Within(20, 300))] = about(
        "depth of the tins you bake in", '"2 in"', Length(76.2, "3 in")
    )
    level: Annotated[AnyLength, AfterValidator(Within(0, 50))] = about(
        "how much is cut off each cake to level it", '"8 mm"', Length(10.0, "10 mm")
    )
    tins_at_once: Annotated[StrictInt, AfterValidator(Count(1, 50))] = about(
        "number of tins that bake at once", "1", 2
    )
    drip: Annotated[AnyLength, AfterValidator(Within(0.5, 30))] = about(
        "how far a drip stands out from the side", '"4 mm"', Length(4.0, "4 mm")
    )
    piped_line: Annotated[AnyLength, AfterValidator(Within(0.5, 20))] = about(
        "thickness of a piped line", '"2 mm"', Length(3.0, "3 mm")
    )
    film: Annotated[AnyLength, AfterValidator(Within(0.005, 2))] = about(
        "thickness of a wet coat of paint", '"0.05 mm"', Length(0.05, "0.05 mm")
    )

    gum: Annotated[float, AfterValidator(Number(20, 5000))] = about(
        "grams of sugar paste to a level teaspoon of gum powder", "200.0", 250.0
    )
    batch: Annotated[float, AfterValidator(Number(0, 5000))] = about(
        "the least grams of icing that you mix", "100.0", 150.0
    )
    pace: Annotated[float, AfterValidator(Number(20, 500))] = about(
        "minutes of work in percent of ours: more if you are slower", "150.0", 100.0
    )
    box_room: Annotated[AnyLength, AfterValidator(Within(0, 200))] = about(
        "room beside a cake in its box", '"15 mm"', Length(10.0, "10 mm")
    )
    box_headroom: Annotated[AnyLength, AfterValidator(Within(0, 500))] = about(
        "room above a cake in its box", '"50 mm"', Length(25.0, "25 mm")
    )
    one_drapes: Annotated[float, AfterValidator(Number(100, 20_000))] = about(
        "the most grams of fondant that one person lays over a cake", "2500.0", 2000.0
    )
    waits: Waits = about("hours that things wait", "[estimates.waits]", Waits())

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
