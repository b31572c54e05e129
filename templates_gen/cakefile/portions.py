"""The size of a portion, and how the cake is cut into them."""

from typing import Annotated, Literal

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import parse_length
from templates_gen.cakefile.rules import AnyLength, Within

SIDE = Within(10, 300)
"""Sides of a portion, mm."""


class Portions(Table):
    """Portions: each tier of cake gets a guide with the cuts. How many you serve is up to you."""

    width: Annotated[AnyLength, SIDE] = about("width of a portion", '"1 in"', parse_length("1 in"))
    length: Annotated[AnyLength, SIDE] = about(
        "length of a portion: between the cuts of a grid, or along a ring",
        '"2 in"',
        parse_length("2 in"),
    )
    cuts: Literal["grid", "rings"] = about(
        "grid, or rings (rings as wide as a portion, cut across)", '"rings"', "grid"
    )
