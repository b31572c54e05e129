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
        "number of dowels (default: about one for each 2 in of width of the tier above,"
        " at least 3)",
        "5",
    )
    inset: Annotated[AnyLength, AfterValidator(Within(5, 500))] | None = about(
        "distance of the dowels from the edge of the board above (default: 20 mm, less"
        " under a small board)",
        '"20 mm"',
    )
    thickness: Annotated[AnyLength, AfterValidator(Within(2, 50))] = about(
        "thickness of a dowel", '"12 mm"', Length(12.0, "12 mm")
    )
