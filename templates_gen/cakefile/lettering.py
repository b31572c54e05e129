"""What a decorator asks of a name or message on a tier."""

from functools import cache
from typing import Annotated, Literal

from pydantic import AfterValidator, PlainValidator, StrictBool, ValidationInfo, field_validator

from templates_gen.cakefile.attached import attached
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.rules import AnyLength, Name, Within, broken, instead_of
from templates_gen.cakefile.spelling import hint
from templates_gen.cakefile.stencils import Stencil
from templates_gen.cakefile.transfers import Transfer
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.fonts import character_name
from templates_gen.resources import folder
from templates_gen.units import counted

FACES = {"script": "Pacifico-Regular", "bold": "Fredoka-Bold"}
"""The bundled faces for lettering, by the word the cake file has for them."""
LARGEST_FONT = 30_000_000
LONGEST_TEXT = 80
LARGEST = 1500.0
_READ = attached((".ttf", ".otf"), LARGEST_FONT)


@cache
def bundled(word: str) -> Attached:
    """Return a bundled face under its word."""
    return Attached(word, (folder("fonts") / f"{FACES[word]}.ttf").read_bytes())


def font_of(value: object, info: ValidationInfo) -> Attached:
    """Return a bundled face by its word, or a font file. Raises a broken rule."""
    if isinstance(value, str) and value in FACES:
        return bundled(value)
    if isinstance(value, str) and "." not in value:
        raise broken(
            f"“{value[:LONGEST_TEXT]}”",
            f"{', '.join(FACES)}, or the name of a file that ends in .ttf or .otf",
            hint(value, FACES),
        )
    read = _READ.func(value, info)  # type: ignore[call-arg]  # it takes the info
    assert isinstance(read, Attached)
    return read


def text_of(text: str) -> str:
    """Return a text of one line, blanks trimmed. Raises a broken rule."""
    words = " ".join(text.split())
    if not 1 <= len(words) <= LONGEST_TEXT:
        raise broken(counted(len(words), "character"), f"1 to {LONGEST_TEXT} characters", "")
    hidden = [char for char in words if not char.isprintable()]
    if hidden:
        raise broken(
            f"the character {character_name(hidden[0])}", "one line of letters, figures and signs"
        )
    return words


class Lettering(Table):
    """A name or message: its letters, how large, and where on the tier."""

    text: Annotated[str, AfterValidator(text_of)] = about("the name or message", '"Ada & Joe"', ...)
    font: Annotated[Attached, PlainValidator(font_of)] = about(
        f"typeface: {', '.join(FACES)}, or a TrueType or OpenType file beside the cake file",
        '"script"',
        bundled("script"),
    )
    cap_height: Annotated[AnyLength, Within(3, LARGEST)] | None = about(
        "height of a capital letter (default: as suits its place, or as the width needs; along the"
        " edge of a top 20 mm)",
        '"25 mm"',
    )
    width: Annotated[AnyLength, Within(5, LARGEST), instead_of("cap_height")] | None = about(
        "width of the whole text, instead of cap_height", '"120 mm"'
    )
    on: Literal["side", "top"] = about("on the side of the tier or on its top", '"top"', "side")
    line: Literal["level", "curve", "rim"] = about(
        "what the letters stand on: level (a straight line), curve, or rim (on the top,"
        " along its front edge)",
        '"curve"',
        "level",
    )
    curve_height: Annotated[AnyLength, Within(-LARGEST, LARGEST)] = about(
        "curve: how much higher the middle is than the ends; with a minus it curves down",
        '"15 mm"',
        length_of(15),
    )
    level: Annotated[AnyLength, Within(0, LARGEST)] | None = about(
        "height of the line: down from the top edge on the side, in from the front edge"
        " on the top (default: in the middle, below the drips of a side, or close along the edge)",
        '"60 mm"',
    )
    sideways: Annotated[AnyLength, Within(-5 * LARGEST, 5 * LARGEST)] = about(
        "distance of the middle of the text from the front centre, to the right; with a"
        " minus to the left",
        '"-40 mm"',
        length_of(0),
    )
    cut: StrictBool = about(
        "also print each letter once, to cut out as many times as it says", "true", False
    )
    thickness: Annotated[AnyLength, Within(0.5, 20)] = about(
        "letters to cut: thickness of the rolled fondant", '"3 mm"', length_of(2)
    )
    colour: Name | None = about(
        "colour of the letters (default: letters to cut white, others brown in pictures)", '"gold"'
    )
    mirror: StrictBool = about("also print it mirrored, to trace from behind", "true", False)
    transfer: Transfer | None = about(
        "also print a piping sheet of it", "[tier.lettering.transfer]"
    )
    stencil: Stencil | None = about("also print a stencil of it", "[tier.lettering.stencil]")
    paper: Literal["collar", "strip"] = about(
        "lettering on the side: on the collar, or on a separate strip", '"strip"', "collar"
    )

    @property
    def paste_colour(self) -> str:
        """The colour of the fondant that its letters are cut from."""
        return self.colour or "white"

    @field_validator("line", mode="after")
    @classmethod
    def _rim_of_the_top(cls, line: str, info: ValidationInfo) -> str:
        if line == "rim" and info.data.get("on") == "side":
            raise broken(
                "“rim” for lettering on the side",
                "level, curve",
                'write on = "top", or another line',
            )
        return line
