"""How a tier that has no tin of its own is carved."""

from typing import Annotated, Literal

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Within


class Carving(Table):
    """Carving: the tier is baked in ordinary tins and carved to guides for each layer."""

    tins: Literal["round", "square", "either"] = about(
        "shape of the tins it is baked in; either takes what wastes less", '"round"', "either"
    )
    spare: Annotated[AnyLength, Within(0, 50)] = about(
        "how much wider each cake is at the least, all round, than what is carved from it",
        '"10 mm"',
        length_of(5),
    )
