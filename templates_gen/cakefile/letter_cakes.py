"""Cakes in the shape of numbers and letters, cut from sheet cakes and set flat on a board."""

from typing import Annotated

from pydantic import AfterValidator, PlainValidator, StrictInt

from templates_gen.cakefile.cutting import SvgFile
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of, parse_length
from templates_gen.cakefile.lettering import bundled, font_of, text_of
from templates_gen.cakefile.rules import AnyLength, Characters, Count, Name, Within
from templates_gen.drawing.attached import Attached

MOST = 12
"""Characters of one cake: what has room on a table, our choice."""


def name_of(number: int) -> str:
    """Return what a letter cake is called, by its number in the cake file."""
    return f"letter cake {number}"


class LetterCake(Table):
    """A number or word of cakes, each character cut from sheet cakes, flat on a board."""

    text: Annotated[str, AfterValidator(text_of), Characters(1, MOST)] | None = about(
        "the number or letters", '"40"'
    )
    file: SvgFile | None = about(
        "instead of text: an SVG file of one shape, with or without holes", '"anchor.svg"'
    )
    font: Annotated[Attached, PlainValidator(font_of)] = about(
        "typeface: script, bold, or a TrueType or OpenType file beside the cake file",
        '"bold"',
        bundled("bold"),
    )
    cap_height: Annotated[AnyLength, Within(80, 900)] = about(
        "height of a capital letter or a figure as it lies, or of the shape of a file",
        '"10 in"',
        parse_length("10 in"),
    )
    depth: Annotated[AnyLength, Within(20, 150)] = about(
        "depth of the cake, with its filling", '"3 in"', parse_length("3 in")
    )
    layers: Annotated[StrictInt, Count(1, 4)] = about("layers of cake", "2", 2)
    filling: Annotated[AnyLength, Within(0, 25)] = about(
        "thickness of the filling between two layers", '"6 mm"', length_of(6)
    )
    tin_width: Annotated[AnyLength, Within(100, 700)] = about(
        "shorter side of the sheet cakes that they are cut from", '"9 in"', parse_length("9 in")
    )
    tin_length: Annotated[AnyLength, Within(100, 900)] = about(
        "longer side of the sheet cakes", '"13 in"', parse_length("13 in")
    )
    coating: Annotated[AnyLength, Within(0, 15)] = about(
        "thickness of the buttercream or ganache", '"4 mm"', length_of(5)
    )
    fondant: Annotated[AnyLength, Within(0, 8)] = about(
        "thickness of the rolled fondant on the top and round each wall; 0 for none",
        '"3 mm"',
        length_of(4),
    )
    colour: Name = about("colour of the fondant, or of the buttercream", '"gold"', "white")
    apart: Annotated[AnyLength, Within(5, 200)] = about(
        "space between two characters on the board", '"20 mm"', length_of(20)
    )
    edge: Annotated[AnyLength, Within(10, 200)] = about(
        "board that shows all round", '"40 mm"', length_of(40)
    )
