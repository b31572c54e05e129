"""Places spread evenly over a side, as if thrown and none too near another."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass

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
    # cells of the paper are ``apart`` wide, so that only neighbours can be too near
    cells: dict[tuple[int, int], list[Point]] = {}
    kept: list[Point] = []
    for _ in range(count * THROWS):
        u, v = draw.random() * region.girth, region.top + draw.random() * (region.foot - region.top)
        at = region.flat(u, v)
        if any(math.dist(at, other) < apart for other in _around(cells, _cell(at, apart))):
            continue
        if region.free((u, v)):
            kept.append((u, v))
            for turn in (-region.girth, 0.0, region.girth):
                flat = region.flat(u + turn, v)
                cells.setdefault(_cell(flat, apart), []).append(flat)
            if len(kept) == count:
                break
    return kept


def _cell(at: Point, wide: float) -> tuple[int, int]:
    return math.floor(at[0] / wide), math.floor(at[1] / wide)


def _around(cells: dict[tuple[int, int], list[Point]], cell: tuple[int, int]) -> Iterator[Point]:
    column, row = cell
    for beside in (column - 1, column, column + 1):
        for above in (row - 1, row, row + 1):
            yield from cells.get((beside, above), ())
