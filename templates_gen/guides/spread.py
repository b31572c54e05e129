"""Places spread evenly over a side, as if thrown and none too near another."""

from __future__ import annotations

import math
import random
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from itertools import product

from templates_gen.geometry.box import Point

LOOSEST = 0.86
"""The first distance tried, over that of a lattice of triangles, the most that so many can keep."""
CLOSER = 0.96
"""Each distance tried over the one before."""
THROWS = 40
"""Throws for each place wanted, before a smaller distance is tried."""


@dataclass(frozen=True, slots=True)
class Region:
    """Where places may be: round a girth, from v = ``top`` to ``foot``, where it is ``free``.

    ``flat`` gives the point of the paper at a place, on which distances are true; ``area``, mm2, is
    that of the whole region.
    """

    girth: float
    top: float
    foot: float
    free: Callable[[Point], bool]
    flat: Callable[[float, float], Point]
    area: float


class Circles:
    """Circles on a paper; no circle that is compared with them has a radius above ``most`` mm.

    Each is kept in every square of the paper from which it can be met, so that a throw, of which
    there are thousands, is compared with few.
    """

    def __init__(self, most: float) -> None:
        self._most = most
        self._squares = defaultdict[tuple[float, float], list[tuple[Point, float]]](list)

    def _square(self, x: float, y: float) -> tuple[float, float]:
        return x // self._most, y // self._most

    def add(self, middle: Point, radius: float) -> None:
        """Add a circle."""
        (x, y), far = middle, radius + self._most
        (left, low), (right, high) = self._square(x - far, y - far), self._square(x + far, y + far)
        for square in product(range(int(left), int(right) + 1), range(int(low), int(high) + 1)):
            self._squares[square].append((middle, radius))

    def is_clear(self, at: Point, radius: float) -> bool:
        """Tell whether a circle lies on none of them."""
        for middle, taken in self._squares.get(self._square(*at), ()):
            if math.dist(at, middle) < radius + taken:
                return False
        return True


def lattice_bound(area: float, count: int) -> float:
    """Return the largest distance that ``count`` places can keep on an endless area, mm.

    That of the hexagonal lattice, the densest there is: d^2 = 2 area / (sqrt 3 count) (Fejes Toth).
    """
    return math.sqrt(2 * area / (math.sqrt(3) * count))


def spread(region: Region, count: int, least: float, seed: int) -> tuple[Point, ...]:
    """Return places in a region, no two nearer than ``least`` mm; round the girth too.

    The same seed gives the same places. There are fewer than ``count`` where no more were found.
    """
    draw = random.Random(seed)
    apart = max(least, LOOSEST * lattice_bound(max(region.area, least**2), count))
    best: list[Point] = []
    while len(best) < count:
        found = _thrown(region, count, apart, draw)
        best = max(best, found, key=len)
        if apart == least:
            break
        apart = max(least, apart * CLOSER)
    return tuple(sorted(best[:count]))


def _thrown(region: Region, count: int, apart: float, draw: random.Random) -> list[Point]:
    """Throw places one by one and keep those that are ``apart`` from all that lie already."""
    radius, taken = apart / 2, Circles(apart / 2)
    kept: list[Point] = []
    for _ in range(count * THROWS):
        u, v = draw.random() * region.girth, region.top + draw.random() * (region.foot - region.top)
        if taken.is_clear(region.flat(u, v), radius) and region.free((u, v)):
            kept.append((u, v))
            for turn in (-region.girth, 0.0, region.girth):
                taken.add(region.flat(u + turn, v), radius)
            if len(kept) == count:
                break
    return kept
