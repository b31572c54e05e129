"""A collar of royal icing that lies on the rim of a tier and reaches out beyond it."""

from typing import Annotated

from pydantic import StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Name, OneOfNumbers, Within


class RunOut(Table):
    """A run-out collar: royal icing run on a sheet under acetate, dried, set on the rim."""

    width: Annotated[AnyLength, Within(5, 80)] = about(
        "how far it reaches out beyond the finished rim", '"25 mm"', length_of(20)
    )
    overlap: Annotated[AnyLength, Within(3, 80)] = about(
        "how far it rests on the top, in from the rim", '"10 mm"', length_of(8)
    )
    sections: Annotated[StrictInt, OneOfNumbers((1, 2, 4))] = about(
        "number of sections it is run in: 1, 2 or 4", "2", 4
    )
    thickness: Annotated[AnyLength, Within(1, 6)] = about(
        "thickness of the dry icing", '"3 mm"', length_of(2)
    )
    colour: Name = about("colour of the icing", '"ivory"', "white")
