"""What a decorator asks of flowers that are cut petal by petal."""

from typing import Annotated

from pydantic import StrictBool, StrictInt

from templates_gen.cakefile.cut_from import Material, cut_from
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Count, Name, OneOf, Within
from templates_gen.drawing.flowers import FLOWERS


class Flower(Table):
    """Flowers of one kind and size: templates for petals, sepals and leaves."""

    kind: Annotated[str, OneOf(FLOWERS)] = about(
        f"the kind: {', '.join(FLOWERS)}", '"anemone"', "rose"
    )
    width: Annotated[AnyLength, Within(15, 200)] = about(
        "width of the open flower", '"60 mm"', length_of(60)
    )
    count: Annotated[StrictInt, Count(1, 200)] = about("how many flowers", "5", 1)
    leaves: Annotated[StrictInt, Count(0, 20)] = about("number of leaves for each flower", "3", 2)
    wired: StrictBool = about(
        "on wires as the kind is made: petals one by one, a flower in one piece or petals glued to"
        " its middle on one wire, each leaf on its own; false: set in a cup with royal icing",
        "false",
        True,
    )
    material: Material = cut_from()
    thickness: Annotated[AnyLength, Within(0.3, 4)] = about(
        "thickness of the rolled paste", '"1 mm"', length_of(0.7)
    )
    colour: Name = about("colour of the petals", '"blush"', "white")
    leaf_colour: Name = about("colour of sepals and leaves", '"sage"', "green")
    centre_colour: Name = about("colour of what is modelled in the middle", '"black"', "yellow")
