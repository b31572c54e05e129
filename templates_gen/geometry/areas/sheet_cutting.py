"""Shapes laid side by side in as few rectangles as a simple way finds."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import shapely
from fontTools.misc.transform import Transform
from shapely.affinity import rotate, translate
from shapely.geometry.base import BaseGeometry

from templates_gen.geometry.areas.booleans import filled
from templates_gen.geometry.path import Path

STEP = 8.0
"""Places that are tried are so far apart, mm."""
TURNS = (0, 90, 180, 270)


@dataclass(frozen=True, slots=True)
class Nested:
    """Where a shape lies: the number of its rectangle, and the map from its frame to that."""

    rectangle: int
    onto: Transform


def nested(
    paths: Sequence[Path], width: float, height: float, apart: float, edge: float
) -> tuple[Nested, ...] | None:
    """Return where closed paths lie in rectangles, no two nearer than ``apart`` mm.

    They stay ``edge`` mm off the edges; the largest are laid first, each where it is lowest, then
    farthest left, in quarter turns. None where one has room in no rectangle.
    """
    areas = [filled(path) for path in paths]
    found: dict[int, Nested] = {}
    taken: list[BaseGeometry] = []
    for index in sorted(range(len(areas)), key=lambda index: (-areas[index].area, index)):
        for number in range(len(taken) + 1):
            around = taken[number] if number < len(taken) else shapely.Polygon()
            place = _place(areas[index], around, (width, height), edge)
            if place is not None:
                onto, lies = place
                whole = shapely.union(around, shapely.buffer(lies, apart))
                taken[number : number + 1] = [whole]
                found[index] = Nested(number, onto)
                break
        else:
            return None
    return tuple(found[index] for index in range(len(areas)))


def _place(
    area: BaseGeometry, taken: BaseGeometry, size: tuple[float, float], edge: float
) -> tuple[Transform, BaseGeometry] | None:
    """Return the first place of an area clear of what is taken, and how it lies there."""
    best: tuple[tuple[float, float], Transform, BaseGeometry] | None = None
    shapely.prepare(taken)
    for turn in TURNS:
        turned = rotate(area, turn, origin=(0, 0))
        x0, y0, x1, y1 = turned.bounds
        for x, y in _tries(size[0] - 2 * edge - (x1 - x0), size[1] - 2 * edge - (y1 - y0)):
            if best is not None and (y, x) >= best[0]:
                break
            dx, dy = edge + x - x0, edge + y - y0
            lies = translate(turned, dx, dy)
            if not taken.intersects(lies):
                onto = Transform().translate(dx, dy).rotate(math.radians(turn))
                best = ((y, x), onto, lies)
                break
    return None if best is None else (best[1], best[2])


def _tries(spare_x: float, spare_y: float) -> Iterator[tuple[float, float]]:
    """Yield places from the lower left up, row by row."""
    if spare_x < 0 or spare_y < 0:
        return
    for row in range(int(spare_y / STEP) + 1):
        for column in range(int(spare_x / STEP) + 1):
            yield column * STEP, row * STEP
