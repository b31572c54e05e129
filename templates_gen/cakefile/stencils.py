"""What a decorator asks of a stencil: a sheet whose openings are painted or spread through."""

from typing import Annotated

from pydantic import StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Count, Within


class Stencil(Table):
    """A stencil to cut: nothing falls out of it, as bridges hold what an opening goes round."""

    bridge: Annotated[AnyLength, Within(0.5, 20)] = about(
        "width of a bridge", '"3 mm"', length_of(3)
    )
    bridges: Annotated[StrictInt, Count(1, 12)] = about(
        "number of bridges to each part that would fall out or tear off, where they are shortest",
        "2",
        2,
    )
    slot: Annotated[AnyLength, Within(0.5, 20)] = about(
        "of a design: how wide a line of it is cut", '"2 mm"', length_of(2)
    )
