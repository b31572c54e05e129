"""What lies on the side of a tier with a sloped top: marks end at its foot, which v does not know.

Their v is the distance from the rim, so where that is low they would go on below the side.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from templates_gen.geometry.box import Point
from templates_gen.tiers.solid import Layer
from templates_gen.views.scene.parts import Mark, Ring

STEP = 3.0
"""How far apart the places are at which the foot is followed, mm."""


def above_foot(layer: Layer, mark: Mark) -> Mark:
    """Return a mark without what would lie below the side."""
    shapes = (*((each.corners,) for each in mark.bands), *mark.every_shape)
    held = (tuple(_held(layer, ring) for ring in each if _is_seen(layer, ring)) for each in shapes)
    lines = tuple(run for line in mark.lines for run in _runs(layer, line))
    return replace(mark, shapes=tuple(filter(None, held)), lines=lines, bands=(), repeated=())


def along_foot(layer: Layer, ribbon: Mark, wide: float) -> Mark:
    """Return a ribbon so wide along the foot, wherever that is."""
    girth = layer.side.girth
    low = [(u, layer.side.foot_at(u)) for u, _ in _stepped([(0.0, 0.0), (girth, 0.0)])]
    high = [(u, max(0.0, v - wide)) for u, v in low]
    return replace(ribbon, shapes=(((*high, *reversed(low)),),), bands=())


def _below(layer: Layer, point: Point) -> float:
    """Return how far below the foot a place would be, mm."""
    return point[1] - layer.side.foot_at(point[0])


def _is_seen(layer: Layer, ring: Ring) -> bool:
    return any(_below(layer, point) < 0 for point in ring)


def _held(layer: Layer, ring: Ring) -> Ring:
    """Return a contour that follows the foot where it would lie below it."""
    if all(_below(layer, point) <= 0 for point in ring):
        return ring
    stepped = _stepped((*ring, ring[0]))[:-1]
    return tuple((u, min(v, layer.side.foot_at(u))) for u, v in stepped)


def _runs(layer: Layer, line: Sequence[Point]) -> Iterator[tuple[Point, ...]]:
    """Yield the parts of a line that lie on the side, up to the foot."""
    points = _stepped(line)
    run: list[Point] = []
    for here, there in pairwise((*points, points[-1])):
        over, next_over = _below(layer, here), _below(layer, there)
        if over <= 0:
            run.append(here)
        if (over <= 0) != (next_over <= 0):
            share = over / (over - next_over)
            run.append(
                (here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share)
            )
        if next_over > 0:
            if len(run) > 1:
                yield tuple(run)
            run = []
    if len(run) > 1:
        yield tuple(run)


def _stepped(points: Sequence[Point]) -> list[Point]:
    """Return points with more between those that are far apart."""
    found = [points[0]]
    for (u0, v0), (u, v) in pairwise(points):
        count = max(1, math.ceil(math.hypot(u - u0, v - v0) / STEP))
        shares = (step / count for step in range(1, count + 1))
        found += [(u0 + (u - u0) * share, v0 + (v - v0) * share) for share in shares]
    return found
