"""The gores that cover a ball."""

from typing import Annotated, Literal

from pydantic import StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Count, Within


class Gores(Table):
    """The equal pieces, pointed at the top, that cover a ball side by side."""

    count: Annotated[StrictInt, Count(4, 24)] = about("number of gores round the ball", "8", 8)
    joins: Literal["edge to edge", "overlapping"] = about(
        "edge to edge, or overlapping (each gore lies over the next)",
        '"overlapping"',
        "edge to edge",
    )
    overlap: Annotated[AnyLength, Within(1, 30)] = about(
        "width of the overlap of overlapping gores", '"5 mm"', length_of(5)
    )
