"""Places spread evenly over a side, as if thrown and none too near another."""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from templates_gen.drawing.path import Point

LOOSEST = 0.86
"""The first distance tried, over that of a lattice of triangles, the most that so many can keep."""
CLOSER = 0.96
"""Each distance tried over the one before."""
THROWS = 40
"""Throws for each place wanted, before a smaller distance is tried."""


@dataclass(frozen=True, slots=True)
class Room:
    """Where places may be: round a girth, from v = ``top`` to ``foot``, where it is ``free``."""

    girth: float
    top: float
    foot: float
    free: Callable[[Point], bool]


def lattice_bound(area: float, count: int) -> float:
    """Return the largest distance that ``count`` places can keep on an endless area, mm.

    That of the hexagonal lattice, the densest there is: d^2 = 2 area / (sqrt 3 count) (Fejes Toth).
    """
    return math.sqrt(2 * area / (math.sqrt(3) * count))


def spread(room: Room, count: int, least: float, seed: int) -> tuple[Point, ...]:
    """Return places in a room, no two nearer than ``least`` mm, evenly apart; round the girth too.

    The same seed gives the same places. There are fewer than ``count`` where no more were found.
    """
    draw = random.Random(seed)
    area = room.girth * (room.foot - room.top)
    apart = max(least, LOOSEST * lattice_bound(max(area, least**2), count))
    best: list[Point] = []
    while len(best) < count:
        found = _thrown(room, count, apart, draw)
        best = max(best, found, key=len)
        if apart == least:
            break
        apart = max(least, apart * CLOSER)
    return tuple(sorted(best[:count]))


def _thrown(room: Room, count: int, apart: float, draw: random.Random) -> list[Point]:
    """Throw places one by one and keep those that are ``apart`` from all that lie already."""
    # cells of the grid are at least ``apart`` wide, so that only neighbours can be too near
    columns = max(1, math.floor(room.girth / apart))
    cells: dict[tuple[int, int], list[Point]] = {}
    kept: list[Point] = []
    for _ in range(count * THROWS):
        u, v = draw.random() * room.girth, room.top + draw.random() * (room.foot - room.top)
        column, row = int(u / room.girth * columns), int((v - room.top) / apart)
        near = _around(cells, column, row, columns)
        if any(_distance((u, v), other, room.girth) < apart for other in near):
            continue
        if room.free((u, v)):
            cells.setdefault((column, row), []).append((u, v))
            kept.append((u, v))
            if len(kept) == count:
                break
    return kept


def _around(
    cells: dict[tuple[int, int], list[Point]], column: int, row: int, columns: int
) -> Iterator[Point]:
    for beside in {(column + step) % columns for step in (-1, 0, 1)}:
        for above in (row - 1, row, row + 1):
            yield from cells.get((beside, above), ())


def _distance(one: Point, other: Point, girth: float) -> float:
    """Return the distance of two places on a side, the shorter way round."""
    across = abs(one[0] - other[0])
    return math.hypot(min(across, girth - across), one[1] - other[1])
