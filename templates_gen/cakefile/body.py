"""The bare tier: its shape, its size and the hole through it."""

from typing import Annotated, Any, Literal

from pydantic import StrictBool, StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.gores import Gores
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.limits import LARGEST_TIER, TierSize
from templates_gen.cakefile.opening import Opening
from templates_gen.cakefile.rules import AnyLength, Characters, Count, Name, OneOf, Within
from templates_gen.cakefile.shape_keys import BALL, shape_keys
from templates_gen.drawing.shapes import SHAPES

BAKED_SO = ("round", "square")
"""Shapes that ordinary tins have."""


class Body(Table):
    """The keys of a tier that say what the bare tin or dummy is."""

    name: Name | None = about("name of the tier", '"bottom"')
    shape: Annotated[str, OneOf((*SHAPES, BALL))] = about(
        f"shape seen from above: {', '.join(SHAPES)} (an outline of your own); or"
        f" {BALL}: whole if the depth equals the size, otherwise flat-bottomed",
        '"square"',
        "round",
    )
    size: TierSize = about(
        "width of the bare tier: the size of the tin or dummy; the longer way for an"
        " oval, a rectangle or a custom outline, flat side to flat side for a polygon (of 5 or 7"
        " sides: twice middle to side)",
        '"8 in"',
        ...,
    )
    depth: Annotated[AnyLength, Within(10, LARGEST_TIER)] = about(
        "depth of the bare tier", '"4 in"', ...
    )
    short: TierSize | None = about("oval or rectangle: width from front to back", '"6 in"')
    sides: Annotated[StrictInt, Count(3, 12)] | None = about("polygon: number of sides", "6")
    corner: Annotated[AnyLength, Within(0, LARGEST_TIER)] | None = about(
        "square, rectangle or polygon: radius of the corners (default: sharp)", '"10 mm"'
    )
    lobes: Annotated[StrictInt, Count(5, 12)] | None = about("petal: number of lobes", "6")
    outline: Annotated[str, Characters(1, 50_000)] | None = about(
        "custom: one closed curve as SVG path data, the front at the bottom; its longer"
        " way, across or front to back, becomes as long as size",
        '"M0 0 H90 V60 H0 Z"',
    )
    top_size: TierSize | None = about(
        "tapered tier: width of the top; size is the width of the base", '"6 in"'
    )
    shallowest_depth: Annotated[AnyLength, Within(10, LARGEST_TIER)] | None = about(
        "sloped top: depth at the shallowest place; depth is the deepest", '"3 in"'
    )
    slopes_down_to: Literal["front", "back", "left", "right"] = about(
        "sloped top: the side it slopes down to", '"front"', "front"
    )
    opening: Opening | None = about("a round hole right through a dummy", "[tier.opening]")
    gores: Gores = about("how the fondant for a panelled ball is cut", "[tier.gores]", Gores())
    dummy: StrictBool = about(
        "a polystyrene dummy, not cake: no coating unless you give one", "true", False
    )

    @property
    def has_own_tin(self) -> bool:
        """Whether it is shaped as an ordinary tin is, so that it is not carved."""
        leans = self.top_size is not None or self.shallowest_depth is not None
        return self.shape in BAKED_SO and not leans

    @property
    def plan(self) -> dict[str, Any]:
        """What the shape of the tier is made from: lengths in mm, counts, path data."""
        given = {key: getattr(self, key) for key in shape_keys(self.shape)}
        return {
            key: value.mm if isinstance(value, Length) else value
            for key, value in given.items()
            if value is not None
        }
