"""What a decorator asks of a design repeated round the side of a tier."""

from typing import Annotated, Literal

from pydantic import AfterValidator, StrictBool, StrictInt, ValidationInfo, field_validator

from templates_gen.cakefile.attached import attached
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import (
    AnyLength,
    Count,
    Name,
    Number,
    OneOf,
    Within,
    below_the_top,
    broken,
    instead_of,
)
from templates_gen.cakefile.stencils import Stencil
from templates_gen.cakefile.transfers import Transfer
from templates_gen.drawing.artwork import LARGEST_FILE
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.designs import DESIGNS

LARGEST = 1500.0
SMALLEST_REPEAT = 4.0
FORMS = tuple(dict.fromkeys(form for design in DESIGNS.values() for form in design.forms))

SideLength = Annotated[AnyLength, Within(0, LARGEST)]
"""A length on a side."""
Part = Annotated[AnyLength, Within(1, LARGEST)]
"""The length of a part of a design."""


class Design(Table):
    """A design: what is repeated, how large, and in which band of the side."""

    kind: Annotated[str, OneOf(DESIGNS)] = about(
        f"the design: {', '.join(DESIGNS)}", '"swags"', "scallops"
    )
    width: Annotated[AnyLength, Within(SMALLEST_REPEAT, LARGEST)] | None = about(
        "the width of a repeat you would like, adjusted to fit evenly round (default: as suits"
        " the design)",
        '"60 mm"',
    )
    count: Annotated[StrictInt, Count(1, 400), instead_of("width")] | None = about(
        "number of repeats round the tier, or on each face, instead of width (default: by width)",
        "12",
    )
    top: SideLength | None = about(
        "where the design starts, down from the top edge (default: at the top edge)", '"10 mm"'
    )
    bottom: Annotated[SideLength, AfterValidator(below_the_top)] | None = about(
        "where it ends, down from the top edge (default: at the bottom edge)", '"70 mm"'
    )
    drop: Part | None = about(
        "swags, scallops, chevrons, waves, bows: how far they hang down or rise; fault: how far its"
        " edges do (default: as suits the design)",
        '"25 mm"',
    )
    height: Part | None = about(
        "bands, ruffles, fringe, lace, diamonds, shells, artwork: the height of one that you would"
        " like (default: as suits the design)",
        '"40 mm"',
    )
    breadth: Part | None = about(
        "stripes, arches, pearls, bows, geode: width of one; fault: from one turn of an edge to the"
        " next (default: as suits the design)",
        '"6 mm"',
    )
    rows: Annotated[StrictInt, Count(1, 60)] | None = about(
        "bands, ruffles, fringe, lace, diamonds, chevrons, waves, pearls: number of rows, one above"
        " the other (default: as suits the design)",
        "3",
    )
    fullness: Annotated[float, Number(1, 6)] | None = about(
        "ruffles, pleats, fringe: how many times as long as it goes round the strip is cut"
        " (default: ruffles 2, pleats 3, fringe 1)",
        "2.5",
    )
    strip: Annotated[AnyLength, Within(40, LARGEST)] = about(
        "ruffles, pleats, fringe: the longest strip you can roll; lace: the length of a mat",
        '"24 in"',
        length_of(300),
    )
    thickness: Annotated[AnyLength, Within(0.5, 10)] = about(
        "ruffles, pleats, fringe, bows: thickness of the fondant they are cut from",
        '"1 mm"',
        length_of(1.5),
    )
    form: Annotated[str, OneOf(FORMS)] | None = about(
        "; ".join(
            f"{word}: {' or '.join(design.forms)}"
            for word, design in DESIGNS.items()
            if design.forms
        ),
        '"double"',
    )
    shuffle: Annotated[StrictInt, Count(0, 999_999)] = about(
        "fault, geode: shuffle number: each number gives a different edge", "7", 1
    )
    file: Annotated[Attached, attached((".svg",), LARGEST_FILE)] | None = about(
        "artwork: an SVG file beside the cake file, with lines and shapes but no text", '"leaf.svg"'
    )
    mirror: StrictBool = about("artwork: mirror every other repeat", "true", False)
    start: Literal["front", "between", "join"] = about(
        "where repeats start: front (one centred at the front), between (two meet at"
        " the front) or join (the first starts at the back join)",
        '"between"',
        "front",
    )
    per: Literal["round", "face"] = about(
        "round (repeats fit evenly once round the tier) or face (evenly on each face,"
        " between two corners)",
        '"face"',
        "round",
    )
    colour: Name | None = about(
        "colour in pictures (default: a deeper shade of the tier's colour)", '"sage"'
    )
    paper: Literal["collar", "strip"] = about(
        "on the collar, or on a separate strip", '"strip"', "collar"
    )
    transfer: Transfer | None = about(
        "also print a piping sheet of its repeat", "[tier.design.transfer]"
    )
    stencil: Stencil | None = about(
        "also print a stencil of it, a strip that steps round the tier", "[tier.design.stencil]"
    )

    @field_validator("form", mode="after")
    @classmethod
    def _form_of_its_kind(cls, form: str | None, info: ValidationInfo) -> str | None:
        kind = str(info.data.get("kind"))
        forms = DESIGNS[kind].forms if kind in DESIGNS else ()
        if form is not None and forms and form not in forms:
            raise broken(f"“{form}” for {kind}", ", ".join(forms), "write one of these")
        return form
