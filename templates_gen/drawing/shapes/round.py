"""Round: a circle."""

from __future__ import annotations

import math

from templates_gen.geometry.outline import Bend, Outline, starting_at_back


def disc(size: float) -> Outline:
    """Return a circle ``size`` mm across."""
    once = Bend(math.pi * size, math.tau)
    return starting_at_back((0.0, size / 2), math.pi, [once])
