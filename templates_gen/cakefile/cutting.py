"""What a decorator asks of pieces to cut: small ones scattered over a side, and toppers."""

from typing import Annotated, Literal

from pydantic import AfterValidator, PlainValidator, StrictBool, StrictInt

from templates_gen.cakefile.attached import attached
from templates_gen.cakefile.cut_from import Material, cut_from, on_one_sheet
from templates_gen.cakefile.designs import SideLength
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.lettering import bundled, font_of, text_of
from templates_gen.cakefile.rules import (
    AnyLength,
    Count,
    Name,
    OneOf,
    Within,
    below_the_top,
    instead_of,
)
from templates_gen.cakefile.transfers import Transfer
from templates_gen.drawing.artwork import LARGEST_FILE
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.cutouts import CUTOUTS

OWN = "artwork"
"""The word for a shape that is read from a file."""
TEXT = "text"
"""The word for a shape that is made of letters or figures."""
ONLY_FOR = {"file": OWN, "points": "star", "text": TEXT, "font": TEXT}
"""Keys that matter to one shape alone."""
MOST = 400
"""Small pieces on one side."""
LEAST_THICKNESS = 5.0
"""Thickness of a topper, mm: common practice, no source."""

SvgFile = Annotated[Attached, attached((".svg",), LARGEST_FILE)]


class Scatter(Table):
    """Small pieces scattered evenly over a side."""

    shape: Annotated[str, OneOf((*CUTOUTS, OWN))] = about(
        f"the shape: {', '.join(CUTOUTS)}, or artwork from a file", '"butterfly"', "blossom"
    )
    file: SvgFile | None = about("artwork: an SVG file of one closed outline", '"bee.svg"')
    size: Annotated[AnyLength, Within(4, 300)] = about(
        "size of a piece, the longer way", '"22 mm"', length_of(20)
    )
    count: Annotated[StrictInt, Count(1, MOST)] | None = about("number of pieces", "24")
    density: Annotated[StrictInt, Count(1, 100), instead_of("count")] | None = about(
        "instead of count: number of pieces on 10 cm × 10 cm of the side (default: 3)", "4"
    )
    apart: Annotated[AnyLength, Within(0, 300)] = about(
        "least gap between two pieces, and between a piece and a drip", '"3 mm"', length_of(3)
    )
    top: SideLength | None = about(
        "where they start, down from the top edge (default: at the top edge)", '"10 mm"'
    )
    bottom: Annotated[SideLength, AfterValidator(below_the_top)] | None = about(
        "where they end, down from the top edge (default: at the bottom edge)", '"70 mm"'
    )
    material: Annotated[Material, AfterValidator(on_one_sheet)] = cut_from()
    thickness: Annotated[AnyLength, Within(0.5, 20)] = about(
        "thickness of the rolled paste", '"1.5 mm"', length_of(2)
    )
    colour: Name = about("colour of the pieces", '"blush"', "white")
    turned: StrictBool = about("turn each piece at random; false: all upright", "false", True)
    shuffle: Annotated[StrictInt, Count(0, 999_999)] = about(
        "shuffle number: each number gives a different arrangement", "7", 1
    )
    transfer: Transfer | None = about("also print a piping sheet of it", "[tier.scatter.transfer]")


class Topper(Table):
    """A shape that stands up from the cake on a stick."""

    shape: Annotated[str, OneOf((*CUTOUTS, TEXT, OWN))] = about(
        f"the shape: {', '.join(CUTOUTS)}, text (letters or figures), or artwork from a file",
        '"heart"',
        "heart",
    )
    text: Annotated[str, AfterValidator(text_of)] | None = about(
        "text: the letters or figures; those that join make one topper, others one each", '"40"'
    )
    font: Annotated[Attached, PlainValidator(font_of)] = about(
        "text: typeface: script, bold, or a TrueType or OpenType file beside the cake file",
        '"bold"',
        bundled("bold"),
    )
    file: SvgFile | None = about("artwork: an SVG file of one closed outline", '"ship.svg"')
    points: Annotated[StrictInt, Count(4, 24)] = about("star: number of points", "6", 5)
    height: Annotated[AnyLength, Within(15, 600)] = about(
        "height without the stick; for text, from the lowest of it to the highest",
        '"90 mm"',
        length_of(80),
    )
    stick: Literal["line", "tab"] = about(
        "line (marks where a stick of your own goes in) or tab (cut with a tab to push in)",
        '"tab"',
        "line",
    )
    thickness: Annotated[AnyLength, Within(LEAST_THICKNESS, 30)] = about(
        "thickness of the rolled paste, 5 mm or more", '"6 mm"', length_of(5)
    )
    colour: Name = about("colour of the paste", '"gold"', "white")
    count: Annotated[StrictInt, Count(1, 100)] = about("how many to cut", "2", 1)
    transfer: Transfer | None = about("also print a piping sheet of it", "[topper.transfer]")
