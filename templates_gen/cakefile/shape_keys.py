"""Which keys of a tier its shape takes."""

from __future__ import annotations

import inspect
from functools import cache

from templates_gen.drawing.shapes import SHAPES

BALL = "ball"
"""The one shape that is not a plan raised to a depth."""
PLAN_KEYS = tuple(
    dict.fromkeys(key for make in SHAPES.values() for key in inspect.signature(make).parameters)
)
"""Every key that some shape takes, ``size`` included."""


@cache
def shape_keys(shape: str) -> dict[str, bool]:
    """Return the keys that a shape takes, and whether each must be given."""
    taken = inspect.signature(SHAPES["round" if shape == BALL else shape]).parameters
    return {key: each.default is inspect.Parameter.empty for key, each in taken.items()}
