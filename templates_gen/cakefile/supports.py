"""What holds the tiers up: dowels."""

from typing import Annotated

from pydantic import AfterValidator, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.rules import AnyLength, Count, Within

INSET = 20.0
"""How far in from the edge of a board dowels stand, mm: common practice, no source."""


class Dowels(Table):
    """The dowels in a tier that carries another."""

    count: Annotated[StrictInt, AfterValidator(Count(1, 60))] | None = about(
        "how many dowels; left out, about one for each 2 in across the tier above, 3 at least", "5"
    )
    inset: Annotated[AnyLength, AfterValidator(Within(5, 500))] | None = about(
        "how far in from the edge of the board above they stand; left out, 20 mm, or less under"
        " a small board",
        '"20 mm"',
    )
    thickness: Annotated[AnyLength, AfterValidator(Within(2, 50))] = about(
        "how thick a dowel is", '"12 mm"', Length(12.0, "12 mm")
    )
