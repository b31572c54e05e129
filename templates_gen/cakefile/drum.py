"""The board under the whole cake."""

from typing import Literal

from pydantic import StrictBool

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.limits import BoardThickness, Ribbon, Thickness, TierSize
from templates_gen.cakefile.rules import Name


class Drum(Table):
    """The board that carries the whole cake."""

    size: TierSize | None = about(
        "width of the drum (default: 4 in wider than the bottom tier, measured corner to corner)",
        '"14 in"',
    )
    shape: Literal["round", "square"] | None = about(
        "shape of the drum (default: square under a square or rectangular tier, otherwise round)",
        '"square"',
    )
    guide: StrictBool = about(
        "print a placement guide for the drum",
        "false",
        True,
    )
    ribbon: Ribbon | None = about("width of the ribbon round the edge of the drum", '"15 mm"')
    thickness: BoardThickness = about("thickness of the drum", '"12 mm"', Length(12.0, "12 mm"))
    fondant: Thickness | None = about(
        "thickness of the fondant that covers the drum (default: not covered)", '"3 mm"'
    )
    colour: Name = about("colour of the fondant on the drum", '"ivory"', "white")
