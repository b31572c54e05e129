"""Petal: round lobes in a ring."""

from __future__ import annotations

import math

from templates_gen.geometry.outline import Bend, Outline, starting_at_back

FULLNESS = 1.2
"""Radius of a lobe over the radius at which neighbours would only touch."""


def petal(size: float, lobes: int) -> Outline:
    """Return a ring of equal round lobes, ``size`` mm across from tip to opposite tip or valley.

    Lobes are arcs whose centres stand on a circle; a lobe is at the front. ``size`` is twice the
    distance of a tip from the middle.
    """
    half = math.pi / lobes
    # ring radius 1: lobes of radius r meet where both circles cross, on the ray half-way between
    r = FULLNESS * math.sin(half)
    scale = size / 2 / (1 + r)
    meet = math.cos(half) + math.sqrt(r**2 - math.sin(half) ** 2)
    # the direction from a lobe's centre to where it meets its neighbour, off the lobe's own ray
    reach = math.atan2(meet * math.sin(half), meet * math.cos(half) - 1)
    lobe = Bend(2 * reach * r * scale, 2 * reach, corner=False)
    valley = Bend(0.0, math.tau / lobes - 2 * reach, corner=True)
    first = -math.pi / 2 - half
    start = meet * scale * math.cos(first), meet * scale * math.sin(first)
    heading = -math.pi / 2 - reach + math.pi / 2
    return starting_at_back(start, heading, (lobe, valley) * lobes)
