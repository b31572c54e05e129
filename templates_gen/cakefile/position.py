"""Where a tier stands on what is below it."""

from typing import Annotated, Literal

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Number, Within

FARTHEST = 1000.0
NO_WAY = length_of(0)


class Position(Table):
    """The place of a tier on the drum or tier below, as one sees it from the front."""

    place: Literal["centre", "back"] = about(
        "centre, or back (the backs of both tiers are flush)", '"back"', "centre"
    )
    right: Annotated[AnyLength, Within(-FARTHEST, FARTHEST)] = about(
        "how far the tier is moved to the right; with a minus to the left", '"10 mm"', NO_WAY
    )
    back: Annotated[AnyLength, Within(-FARTHEST, FARTHEST)] = about(
        "how far the tier is moved back; with a minus to the front", '"-20 mm"', NO_WAY
    )
    turn: Annotated[float, Number(-360, 360)] = about(
        "degrees the tier is turned, anticlockwise seen from above", "45", 0.0
    )
    overhang: Annotated[AnyLength, Within(0, FARTHEST)] = about(
        "how far the tier may reach over the edge of what it stands on", '"5 mm"', NO_WAY
    )

    @property
    def is_usual(self) -> bool:
        """Whether the tier stands in the middle, with its front to the front."""
        return self.place == "centre" and not (self.right.mm or self.back.mm or self.turn)
