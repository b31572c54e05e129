"""The table of plan shapes: one function and one line each.

A shape is a function from what a decorator says of it to its bare outline. The names of its
parameters are the keys of a tier in the cake file; those without a default must be given.
"""

from __future__ import annotations

from collections.abc import Callable

from templates_gen.drawing.shapes.custom import custom
from templates_gen.drawing.shapes.flat_sided import polygon, rectangle, square
from templates_gen.drawing.shapes.heart import heart
from templates_gen.drawing.shapes.oval import oval
from templates_gen.drawing.shapes.petal import petal
from templates_gen.drawing.shapes.round import disc
from templates_gen.geometry.outline import Outline

SHAPES: dict[str, Callable[..., Outline]] = {
    "round": disc,
    "oval": oval,
    "square": square,
    "rectangle": rectangle,
    "polygon": polygon,
    "petal": petal,
    "heart": heart,
    "custom": custom,
}
"""By the word the cake file has for it, what makes the bare outline of a tier. Lengths in mm."""
