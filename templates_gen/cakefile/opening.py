"""A hole right through a tier."""

from typing import Annotated, Literal

from pydantic import StrictInt

from templates_gen.cakefile.fields import Table, about
from templates_gen.cakefile.lengths import length_of
from templates_gen.cakefile.limits import LARGEST_TIER
from templates_gen.cakefile.rules import AnyLength, Count, Within

LEAST_RADIUS = 10.0
"""Of a hole, mm."""


class Opening(Table):
    """A round hole right through a tier, from side to side. Such a tier is a dummy."""

    radius: Annotated[AnyLength, Within(LEAST_RADIUS, LARGEST_TIER)] = about(
        "radius of the hole in the bare dummy", '"4 cm"', ...
    )
    height: Annotated[AnyLength, Within(10, LARGEST_TIER)] | None = about(
        "height of the middle of the hole above the base (default: half the depth)", '"2 in"'
    )
    turn: Annotated[StrictInt, Count(-90, 90)] = about(
        "angle of the hole in degrees: its front end moves to the right, with a minus to the left",
        "45",
        0,
    )
    sideways: Annotated[AnyLength, Within(0, LARGEST_TIER)] = about(
        "how far the hole is to one side of the middle of the tier", '"1 in"', length_of(0)
    )
    to: Literal["left", "right"] = about(
        "the side it is moved to, seen from the front of the hole", '"right"', "right"
    )
    cut: Literal["before", "after"] = about(
        "cut the hole out of the wrap after it is on, to the edge of the dummy, or before",
        '"before"',
        "after",
    )
    drips: Literal["shorten", "leave out"] = about(
        "drips that would run into the hole: shorten them or leave them out",
        '"leave out"',
        "shorten",
    )
