"""The board under the whole cake."""

from collections.abc import Callable
from functools import partial
from typing import Annotated, Literal

from pydantic import StrictBool

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.limits import BoardThickness, Ribbon, Thickness, TierSize
from templates_gen.cakefile.rules import Name, OneOf
from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.outline import Outline

RECTANGLE = "rectangle"
DRUMS: dict[str, Callable[..., Outline]] = {
    "round": SHAPES["round"],
    "square": SHAPES["square"],
    RECTANGLE: SHAPES["rectangle"],
    "hexagon": partial(SHAPES["polygon"], sides=6),
    "scalloped": partial(SHAPES["petal"], lobes=12),
}
"""By the word for a shape, what makes the outline of a drum of a size, mm; the rectangle of two."""


class Drum(Table):
    """The board that carries the whole cake."""

    size: TierSize | None = about(
        "width of the drum, of a rectangle from left to right (default: 2 in beyond the bottom tier"
        " all round, at its corners and at the notches of the drum too; under a tier in cm about"
        " 5 cm, to make whole steps of 5 cm across)",
        '"14 in"',
    )
    shape: Annotated[str, OneOf(tuple(DRUMS))] | None = about(
        f"shape of the drum: {', '.join(DRUMS)} (default: as the bottom tier if that is square"
        " or a rectangle, otherwise round)",
        '"square"',
    )
    template: StrictBool = about("print a template to saw the drum", "true", False)
    guide: StrictBool = about("print a placement guide for the drum", "false", True)
    ribbon: Ribbon | None = about("width of the ribbon round the edge of the drum", '"15 mm"')
    thickness: BoardThickness = about("thickness of the drum", '"12 mm"', length_of(12))
    fondant: Thickness | None = about(
        "thickness of the fondant that covers the drum (default: not covered)", '"3 mm"'
    )
    covering: Literal["whole", "ring"] = about(
        "covered whole, or with a ring that leaves the bottom tier on the bare board",
        '"ring"',
        "whole",
    )
    colour: Name = about("colour of the fondant on the drum", '"ivory"', "white")

    @property
    def paste_colour(self) -> str | None:
        """The colour of its fondant; None where it has none."""
        return self.colour if self.fondant else None
