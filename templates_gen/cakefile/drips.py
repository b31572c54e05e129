"""Drips from the rim of a tier."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field, StrictBool, StrictInt, ValidationInfo, field_validator

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length, length_of
from templates_gen.cakefile.limits import LARGEST_TIER
from templates_gen.cakefile.rules import AnyLength, Broken, Count, Name, OneOf, Within, broken
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.geometry.svg_path import LONGEST
from templates_gen.units import at_least, at_most

DripLength = Annotated[AnyLength, Within(3, LARGEST_TIER)]


class Drips(Table):
    """Drips from the rim, evenly round the tier."""

    spacing: Annotated[AnyLength, Within(4, 300)] = about(
        "the distance between drips you would like, adjusted to fit evenly round",
        '"30 mm"',
        length_of(30),
    )
    width: Annotated[AnyLength, Within(2, 60)] = about("width of a drip", '"10 mm"', length_of(10))
    shortest: DripLength | None = about(
        "length of the shortest drip (default: a quarter of the depth)", '"20 mm"'
    )
    longest: DripLength | None = about(
        "length of the longest drip (default: half the depth)", '"50 mm"'
    )
    pattern: Annotated[str, OneOf(PATTERNS)] = about(
        f"how the lengths follow each other: {', '.join(PATTERNS)}", '"wave"', "random"
    )
    waves: Annotated[StrictInt, Count(1, 60)] | None = about(
        'with pattern = "wave": number of waves round the tier (default: 5, fewer where'
        " there are few drips)",
        "5",
    )
    shuffle: Annotated[StrictInt, Count(0, 999_999)] = about(
        "shuffle number: each number gives different random lengths", "7", 1
    )
    corners: StrictBool = about(
        "on a tier with corners: one drip at each corner, the others evenly between", "true", False
    )
    lengths: tuple[DripLength, ...] | None = Field(
        default=None,
        description='with pattern = "listed": lengths of the drips, from the front to the right,'
        " repeated",
        examples=['["20 mm", "35 mm"]'],
        min_length=1,
        max_length=400,
        strict=False,
    )
    line: Annotated[str, Field(min_length=1, max_length=LONGEST)] | None = about(
        'with pattern = "drawn": a curve as SVG path data, once round the tier from the'
        " back join; drips are long where the curve is low",
        '"M0 0 C 30 40 70 40 100 0"',
    )
    front: Literal["drip", "gap"] = about(
        "what is at the front centre: a drip or a gap", '"drip"', "drip"
    )
    guide: Literal["collar", "top edge", "both"] = about(
        "print the drip guide on: collar (paper round the side), top edge (a ring of"
        " paper for the top) or both",
        '"both"',
        "collar",
    )
    colour: Name | None = about(
        "colour in pictures (default: chocolate, or gold where they are painted)",
        '"white chocolate"',
    )

    @field_validator("longest", mode="after")
    @classmethod
    def _in_order(cls, longest: Length | None, info: ValidationInfo) -> Length | None:
        shortest = info.data.get("shortest")
        if longest is not None and shortest is not None and longest.mm < shortest.mm:
            raise broken(
                f"“{longest}”, shorter than the shortest drip “{shortest}”",
                f"{at_least(shortest.mm)} or more",
                "swap shortest and longest",
            )
        return longest


def drip_errors(drips: Drips, depth: Length) -> Iterator[Broken]:
    """Yield each length of drips that is longer than the depth of their tier."""
    for name in ("shortest", "longest"):
        length = getattr(drips, name)
        if length is not None and length.mm > depth.mm:
            yield Broken(
                f"“{length}” on a tier “{depth}” deep",
                f"up to the depth of the tier, {at_most(depth.mm)}",
                "shorten the drips",
                (name,),
            )
