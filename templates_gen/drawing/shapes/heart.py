"""Heart: a square on its corner with half a round on each of its upper sides."""

from __future__ import annotations

import math

from templates_gen.geometry.outline import Bend, Outline, starting_at_back


def heart(size: float) -> Outline:
    """Return a heart ``size`` mm wide, its point to the front, its notch to the back.

    Common practice, no source: a square and a round of one width, the round cut in half. The box
    round the heart is centred on the origin.
    """
    # the half rounds have their centres on the middles of the upper sides, radius a / 2
    side = size / (math.sqrt(0.5) + 1)
    r = side / 2
    half_round = Bend(math.pi * r, math.pi)
    straight = Bend(side, 0.0)
    point = Bend(0.0, math.pi / 2, corner=True)
    notch = Bend(0.0, -math.pi / 2, corner=True)
    # the square's corners: front (0, -h), right (h, 0), back (0, h), left (-h, 0)
    h = side * math.sqrt(0.5)
    top = h / 2 + r
    middle = (top - h) / 2
    # from the notch to the left, over the left half round, down to the point and up again
    bends = (half_round, straight, point, straight, half_round, notch)
    return starting_at_back((0.0, h - middle), 3 * math.pi / 4, bends)
