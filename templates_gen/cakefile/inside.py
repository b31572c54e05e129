"""What a tier of cake is inside: its layers, and what lies between them."""

from dataclasses import dataclass
from typing import Annotated

from pydantic import StrictInt

from templates_gen.cakefile.estimates import CAKES, ESTIMATE
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Count, OneOf, Within

SR = "USDA National Nutrient Database, Standard Reference"


@dataclass(frozen=True, slots=True)
class Filling:
    """A filling: its density in g/cm3 and who says so.

    One that is ``perishable`` is kept at 5 °C or below.
    """

    density: float
    source: str = ESTIMATE
    perishable: bool = False


FILLINGS = {
    "buttercream": Filling(1.0),
    "ganache": Filling(1.15, "from chocolate 1.25 and cream 0.994 g/mL, 2 : 1, without air"),
    "jam": Filling(1.353, f"{SR} 19297: 20 g per tablespoon"),
    "lemon curd": Filling(1.24, f"{SR} 19331: 147 g per half cup", perishable=True),
    "cream cheese": Filling(0.981, f"{SR} 01017: 232 g per cup", perishable=True),
    "fresh cream": Filling(0.5, ESTIMATE, perishable=True),
}
"""What cakes are filled with."""


class Inside(Table):
    """The inside of a tier of cake."""

    cake: Annotated[str, OneOf(tuple(CAKES))] | None = about(
        f"kind of cake of this tier: {', '.join(CAKES)} (default: as in [estimates])", '"sponge"'
    )
    layers: Annotated[StrictInt, Count(1, 40)] | None = about(
        "number of layers of cake, with filling between (default: about one for each 30 mm of"
        " depth, one for fruit cake)",
        "3",
    )
    inner_boards: Annotated[StrictInt, Count(0, 5)] = about(
        "number of boards inside a deep tier, each on dowels in the cake below it: 1 for a tier"
        " built of two cakes",
        "1",
        0,
    )
    filling: Annotated[str, OneOf(FILLINGS)] = about(
        f"the filling between the layers: {', '.join(FILLINGS)}", '"jam"', "buttercream"
    )
    filling_thickness: Annotated[AnyLength, Within(0.5, 40)] = about(
        "thickness of each layer of filling", '"8 mm"', length_of(6)
    )
