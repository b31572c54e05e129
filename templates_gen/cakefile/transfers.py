"""What a decorator asks of a sheet that lies under acetate and is piped or traced over."""

from typing import Annotated, Literal

from pydantic import StrictBool, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Count, Within


class Transfer(Table):
    """A piping sheet: a motif again and again, to pipe on acetate or to transfer."""

    copies: Annotated[StrictInt, Count(1, 400)] | None = about(
        "number of copies on the sheet (default: as many as fit on a page)", "12"
    )
    sheet: Literal["normal", "mirrored", "both"] = about(
        "as it is seen (normal), mirrored, or a sheet of each", '"both"', "normal"
    )
    joined: StrictBool = about(
        "copies join in rows as on the cake, to practise a border at its true spacing",
        "true",
        False,
    )
    apart: Annotated[AnyLength, Within(0, 100)] = about(
        "space between two copies; of copies that join, between two rows", '"15 mm"', length_of(8)
    )
