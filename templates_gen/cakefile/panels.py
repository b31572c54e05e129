"""Panels round the side of a tier, and what a tier lets them be."""

from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import StrictBool, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import Length, length_of
from templates_gen.cakefile.limits import LARGEST_TIER
from templates_gen.cakefile.rules import AnyLength, Broken, Count, Name, Within
from templates_gen.units import at_most

MEASURES = ("count", "per_face", "width", "mould")
"""Ways to say how wide panels are."""
STRAIGHT_SIDED = ("square", "rectangle", "polygon")
"""Shapes at whose corners panels meet, unless the cake file says otherwise."""


class Panels(Table):
    """Moulded or cut panels, evenly round the side in one or more rows."""

    count: Annotated[StrictInt, Count(1, 400)] | None = about(
        "number of panels round the tier; their width is worked out (default: about as wide"
        " as they would be tall on the whole side; on straight sides they meet at the corners)",
        "8",
    )
    width: Annotated[AnyLength, Within(5, LARGEST_TIER)] | None = about(
        "the panel width you would like, adjusted to fit evenly round (default: as with count)",
        '"60 mm"',
    )
    mould: Annotated[AnyLength, Within(5, LARGEST_TIER)] | None = about(
        "length of a panel you already have, for example from a mould; how many fit is worked out",
        '"160 mm"',
    )
    height: Annotated[AnyLength, Within(2, LARGEST_TIER)] | None = about(
        "height of a panel (default: the rows share the depth of the side)", '"50 mm"'
    )
    per_face: Annotated[StrictInt, Count(1, 40)] | None = about(
        "on a tier with corners: number of panels on each face, from corner to corner", "3"
    )
    corners: Literal["panel", "join"] = about(
        "with per_face: panel (a panel goes round each corner) or join (two panels meet at it)",
        '"join"',
        "panel",
    )
    rows: Annotated[StrictInt, Count(1, 40)] = about("number of rows, one above the other", "2", 1)
    joins: Literal["in line", "staggered"] = about(
        "joins of the rows: in line, or staggered by half a panel like bricks",
        '"staggered"',
        "in line",
    )
    place: Literal["base", "rim"] = about(
        "base (the rows start at the bottom edge) or rim (they hang from the top edge)",
        '"base"',
        "base",
    )
    front: Literal["panel", "join"] = about(
        "what is at the front centre of the lowest row: a panel or a join", '"panel"', "panel"
    )
    thickness: Annotated[AnyLength, Within(0.5, 50)] = about(
        "thickness of panels placed on top of the covering", '"4 mm"', length_of(4)
    )
    material: Literal["modelling paste", "fondant"] = about(
        "what panels placed on top of the covering are made of", '"fondant"', "modelling paste"
    )
    colour: Name | None = about(
        "colour of panels placed on top of the covering (default: the colour of the tier)", '"gold"'
    )
    replace_wrap: StrictBool = about(
        "the panels cover the side of a panelled tier, with no wrap under them", "true", False
    )


def follow_corners(panels: Panels, shape: str) -> bool:
    """Tell whether panels on a shape are shared out face by face, if it has corners."""
    free = shape in STRAIGHT_SIDED and all(getattr(panels, name) is None for name in MEASURES)
    return free or panels.per_face is not None


def panel_errors(panels: Panels, cover: str, depth: Length | None) -> Iterator[Broken]:
    """Yield the problems of panels on a tier with this cover and depth."""
    yield from _one_measure(panels)
    yield from _with_cover(panels, cover)
    yield from _within_depth(panels, depth)


def _one_measure(panels: Panels) -> Iterator[Broken]:
    given = [name for name in MEASURES if getattr(panels, name) is not None]
    if len(given) > 1:
        yield Broken(
            " and ".join(given),
            "one of count, per_face, width and mould",
            "leave out all but one",
            (given[-1],),
        )


def _with_cover(panels: Panels, cover: str) -> Iterator[Broken]:
    if panels.replace_wrap and cover != "panelled":
        yield Broken(
            f"panels in place of the wrap of a tier with cover = “{cover}”",
            "replace_wrap = true on a panelled tier only",
            'write cover = "panelled", or leave replace_wrap out',
            ("replace_wrap",),
        )


def _within_depth(panels: Panels, depth: Length | None) -> Iterator[Broken]:
    height, rows = panels.height, panels.rows
    if depth is not None and height is not None and height.mm * rows > depth.mm:
        yield Broken(
            f"{rows} of “{height}” on a tier “{depth}” deep",
            f"up to {at_most(depth.mm / rows)} a panel",
            "use lower panels or fewer rows",
            ("height",),
        )
