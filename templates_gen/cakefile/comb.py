"""A comb that shapes the coating of a side."""

from typing import Annotated

from pydantic import Field

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, OneOf, Within
from templates_gen.drawing.combs import COMBS
from templates_gen.geometry.svg_path import LONGEST

LEFT = 1.0
"""Coating that a comb leaves over the cake at the least, mm: common practice, no source."""


class Comb(Table):
    """A comb: the edge of a scraper that leaves ridges and grooves round the coating of a side."""

    profile: Annotated[str, OneOf(COMBS)] = about(
        f"the edge: {', '.join(COMBS)}; contour is a line of your own", '"waves"', "stripes"
    )
    pitch: Annotated[AnyLength, Within(2, 200)] = about(
        "height of a ridge and its groove, adjusted to fit evenly", '"12 mm"', length_of(10)
    )
    groove: Annotated[AnyLength, Within(0.5, 40)] = about(
        "depth of a groove", '"3 mm"', length_of(3)
    )
    line: Annotated[str, Field(min_length=1, max_length=LONGEST)] | None = about(
        "contour: a curve as SVG path data from the top edge to the base, left to right; the"
        " groove is deep where the curve is low",
        '"M0 0 C 30 40 70 40 100 0"',
    )
