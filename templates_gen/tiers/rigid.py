"""Things of true size on a side: laid on its paper as they are, and read back in (u, v).

The paper of a side is the side itself, only bent. So a letter or a small piece is set on the paper
as a rigid shape, and that shape is carried back to (u, v), where everything on a side is drawn.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Callable
from functools import cached_property
from itertools import accumulate, pairwise

from fontTools.misc.transform import Transform

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import FLIP
from templates_gen.geometry.warp import bent
from templates_gen.tiers.side import Side

_STEP = 0.05
"""Half the segment of a level line over which its direction is taken, mm."""
_PACE = 0.5
"""The longest step over which the length of a line on the paper is summed, mm."""


def heading(side: Side, at: Point) -> float:
    """Return the direction of the level line through (u, v) on the paper, radians."""
    (u, v) = at
    (x0, y0), (x1, y1) = side.flat(u - _STEP, v), side.flat(u + _STEP, v)
    return math.atan2(y1 - y0, x1 - x0)


def frame(side: Side, at: Point) -> Transform:
    """Return the map from a frame at (u, v), x along the side and y up it, to the paper."""
    return Transform().translate(*side.flat(*at)).rotate(heading(side, at))


def rolled(side: Side, path: Path, near: float) -> Path:
    """Return a path drawn on the paper near u = ``near`` as it lies in (u, v)."""
    if side.is_level:
        return path.transformed(FLIP)
    last = near

    def through(x: float, y: float) -> Point:
        nonlocal last
        place = side.place_at((x, y), last)
        last = place[0]
        return place

    return bent(path, through)


def set_at(side: Side, path: Path, at: Point) -> Path:
    """Return a rigid path, y up about (0, 0), set on a side at (u, v), drawn in (u, v)."""
    return rolled(side, path.transformed(frame(side, at)), at[0])


class PaperLine:
    """A line on the paper of a side, measured along itself.

    ``at`` gives its points from a parameter; 0 is its middle, and up to ``reach`` both ways it is
    measured.
    """

    def __init__(self, at: Callable[[float], Point], reach: float) -> None:
        self._at = at
        count = max(8, math.ceil(reach / _PACE))
        self._places = [reach * step / count for step in range(-count, count + 1)]

    @cached_property
    def _lengths(self) -> list[float]:
        """How far along each place is, from the middle."""
        paces = [self._speed(place) for place in self._places]
        steps = [
            (b - a) / 6 * (one + 4 * self._speed((a + b) / 2) + other)
            for (a, one), (b, other) in pairwise(zip(self._places, paces, strict=True))
        ]
        along = list(accumulate(steps, initial=0.0))
        middle = along[len(along) // 2]
        return [length - middle for length in along]

    def _speed(self, t: float) -> float:
        h = _STEP / 10
        return math.dist(self._at(t - h), self._at(t + h)) / (2 * h)

    @property
    def span(self) -> float:
        """The length measured, mm."""
        return self._lengths[-1] - self._lengths[0]

    def parameter(self, along: float) -> float:
        """Return the parameter at a distance from the middle, mm; beyond the ends at one pace."""
        index = min(max(bisect_right(self._lengths, along), 1), len(self._lengths) - 1)
        (s0, s1), (t0, t1) = (each[index - 1 : index + 1] for each in (self._lengths, self._places))
        return t0 + (along - s0) * (t1 - t0) / (s1 - s0)

    def __call__(self, along: float) -> tuple[Point, float]:
        """Return the point at a distance from the middle, and the direction there, radians."""
        t = self.parameter(along)
        (x0, y0), (x1, y1) = self._at(t - _STEP), self._at(t + _STEP)
        return self._at(t), math.atan2(y1 - y0, x1 - x0)
