"""What quantities are estimated with: densities, waste, sizes of packs. All can be changed."""

import re
from dataclasses import dataclass
from typing import Annotated

from pydantic import BeforeValidator, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.keeps import OF_CAKE, Keeps
from templates_gen.cakefile.lengths import length_of, parse_length
from templates_gen.cakefile.minutes import Minutes
from templates_gen.cakefile.rules import AnyLength, Count, Number, OneOf, Within, broken, quoted
from templates_gen.cakefile.waits import Waits
from templates_gen.units import GRAMS_PER_POUND

ESTIMATE, GIVEN = "our estimate", "as you gave it"
DAY = 24.0
"""Hours."""


@dataclass(frozen=True, slots=True)
class Density:
    """How heavy something is, g/cm3, and who says so."""

    value: float
    source: str = ESTIMATE


@dataclass(frozen=True, slots=True)
class CakeKind(Density):
    """A kind of cake: how heavy it is, and its batter in g/mL, and who says so.

    ``rises`` is how many times its depth in the tin the batter rises to.
    """

    batter: float = 0.85
    batter_source: str = ESTIMATE
    rises: float = 2.0


KELKAR = "Kelkar, Boushey and Okos, J. Food Eng. 159 (2015), Table 5"
LAYER_CAKES = (
    "USDA Standard Reference 18146, 18139, 18101: 817 to 1137 g for two 8 in layers, which is 0.33"
    " to 0.46 if they are 3 in tall"
)
BAKING = "American Society of Baking, “Specific gravity”"
CAKES = {
    "butter cake": CakeKind(0.46, LAYER_CAKES, 0.85, f"{BAKING}: 0.80 to 0.90"),
    "chocolate cake": CakeKind(0.46, LAYER_CAKES, 0.90, f"{BAKING}: 0.90"),
    "sponge": CakeKind(0.343, f"{KELKAR}, measured", 0.48, f"{BAKING}: 0.46 to 0.50", 1.5),
    "sponge by scan": CakeKind(0.277, f"{KELKAR}, by scan", 0.48, f"{BAKING}: 0.46 to 0.50", 1.5),
    "fruit cake": CakeKind(1.1, ESTIMATE, 1.15, ESTIMATE, 1.1),
}
"""Kinds of cake whose density is known, or guessed."""
DENSITY = Number(0.005, 5)


PRACTICE = "common practice"
OF_PRACTICE = (
    *("tin", "gum", "batch", "deepest", "layer", "inner_gap", "drapes", "panelled"),
    *("shelf_width", "shelf_depth", "cut_gap", "dust_share", "ribbon_overlap", "below_top"),
    "into_drum",
)
"""Estimates that are common practice, without a source; others are ours."""


def _cake_density(given: object) -> float | str:
    """Return a kind of cake or a density in g/cm3, or raise when it is neither."""
    if isinstance(given, str):
        return OneOf(CAKES)(given)
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise broken(quoted(given), f"{', '.join(CAKES)}, or a density in g/cm³")
    return DENSITY(given)


_MASS = re.compile(r"(?P<number>\d+(?:[.,]\d+)?)\s*(?P<unit>kg|g|lb|oz)", re.IGNORECASE)
GRAMS = {"g": 1.0, "kg": 1000.0, "lb": GRAMS_PER_POUND, "oz": GRAMS_PER_POUND / 16}
"""Grams in each unit of weight, exact."""


def _grams(given: object) -> object:
    """Return a weight with its unit in grams, anything else that is no text as it is."""
    if not isinstance(given, str):
        return given
    found = _MASS.fullmatch(given.strip())
    if found is None:
        raise broken(quoted(given), "a number of grams, or a weight such as 2 lb, 24 oz or 1 kg")
    return float(found["number"].replace(",", ".")) * GRAMS[found["unit"].lower()]


class Estimates(Table):
    """What quantities are estimated with; densities in g/cm3."""

    cake: Annotated[float | str, BeforeValidator(_cake_density)] = about(
        f"the kind of cake ({', '.join(CAKES)}), or its density in g/cm³", '"sponge"', "butter cake"
    )
    dummy: Annotated[float, DENSITY] = about(
        "density of a polystyrene dummy in g/cm³", "0.03", 0.03
    )
    coating: Annotated[float, DENSITY] = about(
        "density of buttercream or ganache in g/cm³", "1.0", 1.0
    )
    board: Annotated[float, DENSITY] = about("density of boards, g/cm³", "0.6", 0.7)
    fondant: Annotated[float, DENSITY] = about(
        "density of fondant (sugar paste) in g/cm³", "1.35", 1.35
    )
    drip_icing: Annotated[float, DENSITY] = about(
        "density of royal icing, for drips and piping, in g/cm³", "1.3", 1.3
    )
    dust: Annotated[float, DENSITY] = about(
        "density of lustre dust as it is spooned, g/cm³", "0.6", 0.5
    )
    waste: Annotated[float, Number(0, 100)] = about(
        "extra to roll, mix or colour, in percent", "12", 15.0
    )
    pack: Annotated[float, BeforeValidator(_grams), Number(10, 100_000)] | None = about(
        "size of the packs of fondant you buy, in grams or with its unit: “2 lb” (default: few"
        " packs of usual sizes; where a pack has a price, 1 kg, or 2 lb where words are us)",
        "500",
    )
    tin: Annotated[AnyLength, Within(20, 300)] = about(
        "depth of the tins you bake in", '"2 in"', parse_length("3 in")
    )
    level: Annotated[AnyLength, Within(0, 50)] = about(
        "how much is cut off each cake to level it", '"8 mm"', length_of(10)
    )
    tins_at_once: Annotated[StrictInt, Count(1, 50)] | None = about(
        "number of tins that bake at once (default: as many as fit on the oven shelf)", "1"
    )
    shelf_width: Annotated[AnyLength, Within(200, 2000)] = about(
        "width of your oven shelf", '"60 cm"', length_of(450)
    )
    shelf_depth: Annotated[AnyLength, Within(200, 2000)] = about(
        "depth of your oven shelf, front to back", '"40 cm"', length_of(360)
    )
    drip: Annotated[AnyLength, Within(0.5, 30)] = about(
        "how far a drip stands out from the side", '"4 mm"', length_of(4)
    )
    piped_line: Annotated[AnyLength, Within(0.5, 20)] = about(
        "thickness of a piped line", '"2 mm"', length_of(3)
    )
    film: Annotated[AnyLength, Within(0.005, 2)] = about(
        "thickness of a wet coat of paint", '"0.05 mm"', length_of(0.05)
    )

    gum: Annotated[float, Number(20, 5000)] = about(
        "grams of sugar paste to a level teaspoon of gum powder", "200.0", 250.0
    )
    batch: Annotated[float, Number(0, 5000)] = about(
        "the least grams of icing that you mix", "100.0", 150.0
    )
    pace: Annotated[float, Number(20, 500)] = about(
        "minutes of work in percent of ours: more if you are slower", "150.0", 100.0
    )
    grows: Annotated[float, Number(0, 100)] = about(
        "how much of the minutes on a tier grows with its surface, and of a bake with its tin, in"
        " percent: they are given for a round of 6 in, 4 in deep",
        "70.0",
        50.0,
    )
    box_room: Annotated[AnyLength, Within(0, 200)] = about(
        "room beside a cake in its box", '"15 mm"', length_of(10)
    )
    box_headroom: Annotated[AnyLength, Within(0, 500)] = about(
        "room above a cake in its box", '"50 mm"', length_of(25)
    )
    one_drapes: Annotated[float, Number(100, 20_000)] = about(
        "the most grams of fondant that one person lays over a cake", "2500.0", 2000.0
    )
    one_lifts: Annotated[float, Number(1, 100)] = about(
        "the most kilograms that one person lifts close to the body (published: 16, a guideline)",
        "12.0",
        16.0,
    )
    reach: Annotated[AnyLength, Within(0, 600)] = about(
        "how far from the ankles the near side of what is lifted is", '"150 mm"', length_of(200)
    )
    batter: Annotated[float, DENSITY] | None = about(
        "specific gravity of every batter (default: by the kind of cake)", "0.9"
    )
    rise: Annotated[float, Number(1, 4)] | None = about(
        "how many times its depth batter rises (default: by the kind of cake)", "1.8"
    )
    filling: Annotated[float, DENSITY] | None = about(
        "density of every filling in g/cm³ (default: by the kind of filling)", "1.1"
    )
    layer: Annotated[AnyLength, Within(5, 150)] = about(
        "depth of a layer of cake, where no number of layers is given", '"1 in"', length_of(30)
    )
    deepest: Annotated[AnyLength, Within(50, 600)] = about(
        "a tier deeper than this is built of several cakes", '"5 in"', parse_length("6 in")
    )
    inner_gap: Annotated[AnyLength, Within(0, 50)] = about(
        "how far a board inside a carved tier stays from its side", '"5 mm"', length_of(3)
    )
    drapes: Annotated[float, Number(10, 500)] = about(
        "depth in percent of the width from which a draped sheet pleats and tears", "80.0", 95.0
    )
    panelled: Annotated[AnyLength, Within(0.5, 20)] = about(
        "thickness of fondant of a panelled tier, in advice on draping", '"4 mm"', length_of(5)
    )
    cut_gap: Annotated[AnyLength, Within(0, 50)] = about(
        "fondant left between two shapes that are cut from a sheet", '"8 mm"', length_of(4)
    )
    rough: Annotated[float, Number(0, 200)] = about(
        "the most that is rolled beyond a shape that is no circle or rectangle, in percent",
        "20.0",
        30.0,
    )
    dust_share: Annotated[float, Number(1, 100)] = about(
        "dust in paint by volume, in percent; the rest is clear alcohol", "40.0", 50.0
    )
    ribbon_overlap: Annotated[AnyLength, Within(0, 300)] = about(
        "how much longer a ribbon is than it goes round", '"30 mm"', length_of(15)
    )
    below_top: Annotated[AnyLength, Within(0, 300)] = about(
        "how far a dowel through all tiers ends below the top", '"30 mm"', length_of(20)
    )
    into_drum: Annotated[float, Number(0, 100)] = about(
        "how deep it enters the drum, in percent of its thickness", "50.0", 66.7
    )
    wood: Annotated[float, Number(100, 30_000)] = about(
        "stiffness of a dowel in N/mm², for the load at which it buckles", "8000.0", 10_000.0
    )
    portions_used: Annotated[float, Number(20, 100)] = about(
        "what whole portions take of a tier that is no square or published round, in percent",
        "90.0",
        95.0,
    )
    waits: Waits = about("hours that things wait", "[estimates.waits]", Waits())
    minutes: Minutes = about("minutes that work takes", "[estimates.minutes]", Minutes())
    keeps: Keeps = about("days that things keep", "[estimates.keeps]", Keeps())

    @property
    def cake_density(self) -> Density:
        """The density of the cake, and who says so."""
        given = self.cake
        return CAKES[given] if isinstance(given, str) else Density(given, GIVEN)

    def cake_keeps(self, kind: str | None) -> float:
        """Return how many hours a kind of cake keeps, baked and wrapped."""
        return float(getattr(self.keeps, OF_CAKE.get(kind or "", "butter_cake"))) * DAY

    def filling_keeps(self, filling: str) -> float:
        """Return how many hours a cake keeps with a filling."""
        return float(getattr(self.keeps, filling.replace(" ", "_"))) * DAY

    def source(self, name: str) -> str:
        """Say where the value of a key comes from."""
        if name == "cake":
            return self.cake_density.source
        if name in self.model_fields_set:
            return GIVEN
        return PRACTICE if name in OF_PRACTICE else ESTIMATE
