"""A garland or cascade: flowers or small pieces along a line over several tiers."""

from collections.abc import Iterator, Sequence
from typing import Annotated

from pydantic import Field, StrictBool, StrictInt, ValidationInfo, field_validator

from templates_gen.cakefile.cut_from import Material, cut_from
from templates_gen.cakefile.cutting import OWN, SvgFile
from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length, length_of
from templates_gen.cakefile.rules import AnyLength, Broken, Count, Name, OneOf, Within, broken
from templates_gen.cakefile.spelling import hint
from templates_gen.drawing.cutouts import CUTOUTS

MOST_TURN = 1080
"""Three times round: the eye cannot follow more, our choice."""
PieceSize = Annotated[AnyLength, Within(6, 150)]


class Cascade(Table):
    """A line or spiral of flowers or small pieces, from the rim of a tier down to the drum."""

    shape: Annotated[str, OneOf((*CUTOUTS, OWN))] = about(
        f"the shape: {', '.join(CUTOUTS)}, or artwork from a file", '"leaf"', "blossom"
    )
    file: SvgFile | None = about("artwork: an SVG file of one closed outline", '"rose.svg"')
    sizes: tuple[PieceSize, ...] = Field(
        default=(length_of(40), length_of(25), length_of(15)),
        description="sizes of the pieces, the longer way, largest first; each size covers as much"
        " of the line as the others (default: 40 mm, 25 mm and 15 mm)",
        examples=['["40 mm", "25 mm"]'],
        min_length=1,
        max_length=6,
        strict=False,
        validate_default=False,
    )
    start: Name | None = about(
        "name of the tier at whose top edge it starts (default: the top tier)", '"tier 3"'
    )
    end: Name | None = about(
        "name of the tier at whose base it ends (default: the bottom tier)", '"tier 1"'
    )
    start_turn: Annotated[StrictInt, Count(-MOST_TURN, MOST_TURN)] = about(
        "where it starts: degrees round the cake from the front, to the right, with a minus to the"
        " left",
        "-60",
        0,
    )
    end_turn: Annotated[StrictInt, Count(-MOST_TURN, MOST_TURN)] | None = about(
        "where it ends, in degrees as start_turn; more than a whole turn makes a spiral (default:"
        " straight down)",
        "300",
    )
    width: Annotated[AnyLength, Within(6, 400)] | None = about(
        "width of the line where it starts (default: one and a half times the largest piece)",
        '"60 mm"',
    )
    end_width: Annotated[AnyLength, Within(6, 400)] | None = about(
        "width of the line where it ends (default: the same)", '"90 mm"'
    )
    density: Annotated[StrictInt, Count(2, 50)] = about(
        "how much of the line the pieces cover, percent", "40", 35
    )
    on_drum: Annotated[AnyLength, Within(0, 400)] | None = about(
        "how far it runs out over the drum (default: half-way to the edge)", '"30 mm"'
    )
    apart: Annotated[AnyLength, Within(0, 100)] = about(
        "least gap between two pieces, and between a piece and letters or a hole",
        '"2 mm"',
        length_of(1),
    )
    material: Material = cut_from()
    thickness: Annotated[AnyLength, Within(0.5, 20)] = about(
        "thickness of the rolled paste", '"1.5 mm"', length_of(1.5)
    )
    colour: Name = about("colour of the pieces", '"blush"', "white")
    turned: StrictBool = about("turn each piece at random; false: all upright", "false", True)
    shuffle: Annotated[StrictInt, Count(0, 999_999)] = about(
        "shuffle number: each number gives a different arrangement", "7", 1
    )

    @field_validator("sizes", mode="after")
    @classmethod
    def _largest_first(cls, sizes: tuple[Length, ...]) -> tuple[Length, ...]:
        ordered = sorted(sizes, key=lambda size: -size.mm)
        if len({size.mm for size in sizes}) < len(sizes) or list(sizes) != ordered:
            found = ", ".join(f"“{size}”" for size in sizes)
            best = ", ".join(dict.fromkeys(f'"{size}"' for size in ordered))
            allowed = "sizes that differ, the largest first"
            raise broken(found, allowed, f"write sizes = [{best}]")
        return sizes

    @field_validator("width", "end_width", mode="after")
    @classmethod
    def _holds_a_piece(cls, width: Length | None, info: ValidationInfo) -> Length | None:
        sizes = info.data.get("sizes")
        if width is not None and sizes and width.mm < sizes[0].mm:
            found, allowed = f"“{width}” for pieces of {sizes[0]}", f"{sizes[0]} or more"
            raise broken(found, allowed, "make the line wider or the pieces smaller")
        return width

    @property
    def widths_mm(self) -> tuple[float, float]:
        """How wide the line is where it starts and where it ends, mm."""
        width = self.width.mm if self.width else 1.5 * self.sizes[0].mm
        return width, self.end_width.mm if self.end_width else width


def cascade_errors(cascades: Sequence[Cascade], names: Sequence[str]) -> Iterator[Broken]:
    """Yield why cascades cannot go from tier to tier: tiers are named from the bottom up."""
    for index, spec in enumerate(cascades):
        wrong = list(_unknown(spec, names, index))
        yield from wrong
        if wrong:
            continue
        start, end = ends_of(spec, names)
        if start < end:
            yield Broken(
                f"a line from “{names[start]}” down to “{names[end]}”, which stands above it",
                "an end that is the same tier as the start, or one below it",
                "swap start and end",
                (index, "end"),
            )


def _unknown(spec: Cascade, names: Sequence[str], index: int) -> Iterator[Broken]:
    for key in ("start", "end"):
        name = getattr(spec, key)
        if name is not None and name not in names:
            allowed = ", ".join(f"“{each}”" for each in names)
            advice = hint(name, names) or f'write for example {key} = "{names[0]}"'
            yield Broken(f"“{name}”, which is no tier", allowed, advice, (index, key))


def ends_of(spec: Cascade, names: Sequence[str]) -> tuple[int, int]:
    """Return the places, from the bottom, of the tiers where a cascade starts and ends."""
    start = len(names) - 1 if spec.start is None else names.index(spec.start)
    return start, 0 if spec.end is None else names.index(spec.end)
