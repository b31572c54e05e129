"""What holds the tiers up: dowels, and what a raised tier stands on."""

from typing import Annotated, Literal

from pydantic import StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Count, Within

INSET = 20.0
"""How far in from the edge of a board dowels stand, mm: common practice, no source."""


class Dowels(Table):
    """The dowels in a tier that carries another."""

    count: Annotated[StrictInt, Count(1, 60)] | None = about(
        "number of dowels (default: about one for each 2 in of width of the tier above,"
        " at least 3)",
        "5",
    )
    inset: Annotated[AnyLength, Within(5, 500)] | None = about(
        "distance of the dowels from the edge of the board above (default: 20 mm, less"
        " under a small board)",
        '"20 mm"',
    )
    thickness: Annotated[AnyLength, Within(2, 50)] = about(
        "thickness of a dowel", '"12 mm"', length_of(12)
    )


class Separator(Table):
    """What a raised tier stands on: pillars over the dowels, or one hidden spacer."""

    kind: Literal["pillars", "spacer"] = about(
        "pillars (hollow, one over each dowel) or spacer (one block of polystyrene, hidden under"
        " the tier)",
        '"spacer"',
        "pillars",
    )
    pillar: Annotated[AnyLength, Within(5, 100)] = about(
        "thickness of a pillar", '"1 in"', length_of(25)
    )
    spacer: Annotated[AnyLength, Within(25, 1500)] | None = about(
        "width of the spacer (default: 2 in less than the board of the tier)", '"6 in"'
    )
