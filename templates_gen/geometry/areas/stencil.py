"""Openings of a stencil: what they go round is held by bridges, so that nothing falls out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.booleans import Area, edge_of
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.geometry.tolerances import ROUNDING

STEP = 0.5
"""Places for a bridge are tried so far apart along the edge of a part, mm."""
EVEN = 0.01
"""Ways that differ by less are as short as each other, mm: the first of them is made a bridge."""
LEAST_OPENING = 1.0
"""A smaller opening is left closed, mm²: no knife cuts it."""
DUST = 0.1
"""A smaller part may fall out, mm²."""
ROUNDS = 4
"""How often parts are looked for again: one that was large may be cut in two by a bridge."""
HOLDS = 0.9
"""What is narrower than this much of a bridge tears: it holds nothing."""
LEAST_HELD = 1.0
"""A smaller part stays by itself beside a narrow place, mm² where it is as wide as a bridge."""


def cut_slots(paths: Iterable[Path], width: float) -> list[Area]:
    """Return the open lines of paths as areas of a width, with square ends."""
    lines = [LineString(points) for path in paths for points, closed in sampled(path) if not closed]
    return [line.buffer(width / 2, cap_style="flat") for line in lines if line.length > width]


def kept_apart(areas: Sequence[Area], by: float) -> list[Area]:
    """Return areas of which those that come nearer than ``by`` to another are made smaller."""
    if not areas:
        return []
    tree = shapely.STRtree(areas)
    near = tree.query(areas, predicate="dwithin", distance=by).T
    crowded = {int(one) for one, other in near if one != other}
    made = [each.buffer(-by / 2) if index in crowded else each for index, each in enumerate(areas)]
    return [each for each in made if not each.is_empty]


def openings_of(sheet: Area, areas: Sequence[Area], width: float, count: int) -> list[Path]:
    """Return the edges of the openings that ``areas`` make in a sheet, with their bridges.

    Each part that they would cut out is held by ``count`` bridges of a width, mm, where the way to
    the rest of the sheet is shortest. Raises GeometryError where something would still fall out, or
    nothing is left to cut.
    """
    left = shapely.union_all(list(areas))
    for _ in range(ROUNDS):
        left = _large_enough(left)
        if left.is_empty:
            raise GeometryError("nothing of it is large enough to cut out with its bridges")
        main, islands = _parts(shapely.difference(sheet, left))
        if not islands:
            held = _held(sheet, left, width, count)
            return [edge_of(part) for part in shapely.get_parts(held)]
        dust = [each for each in islands if each.area < DUST]
        large = [each for each in islands if each.area >= DUST]
        left = _bridged(shapely.union_all([left, *dust]), large, main, width, count)
    raise GeometryError("parts of the stencil would fall out")


def _held(sheet: Area, left: BaseGeometry, width: float, count: int) -> BaseGeometry:
    """Return openings with bridges for what hangs on the sheet by narrow places alone."""
    for _ in range(ROUNDS):
        main, hanging = _hanging(shapely.difference(sheet, left), width)
        bridged = _large_enough(_bridged(left, hanging, main, width, count))
        if not hanging or bridged.is_empty:
            break
        left = bridged
    return left


def _hanging(solid: BaseGeometry, width: float) -> tuple[BaseGeometry, list[BaseGeometry]]:
    """Return what of a sheet in one part is its rim, and what only narrow places join to that."""
    narrow = width * HOLDS / 2
    main, others = _parts(solid.buffer(-narrow))
    hanging = [each for each in others if each.area >= LEAST_HELD]
    grown = (shapely.intersection(each.buffer(narrow), solid) for each in hanging)
    return main.buffer(narrow), list(grown)


def _bridged(
    openings: BaseGeometry,
    parts: Iterable[BaseGeometry],
    main: BaseGeometry,
    width: float,
    count: int,
) -> BaseGeometry:
    """Return openings with bridges from each part to the main one left out."""
    bands = [band for each in parts for band in _bands(each, main, width, count)]
    return shapely.difference(openings, shapely.union_all(bands))


def _large_enough(openings: BaseGeometry) -> BaseGeometry:
    parts = shapely.get_parts(openings)
    kept = [each for each in parts if isinstance(each, Polygon) and each.area >= LEAST_OPENING]
    return shapely.multipolygons(kept) if kept else Polygon()


def _parts(solid: BaseGeometry) -> tuple[Polygon, list[Polygon]]:
    """Return the part of a cut sheet that has its rim, the one with the longest way round it."""
    parts = [each for each in shapely.get_parts(solid) if isinstance(each, Polygon)]
    main = max(parts, key=lambda part: shapely.box(*part.bounds).area)
    return main, [each for each in parts if each is not main]


def _bands(
    island: BaseGeometry, main: BaseGeometry, width: float, count: int
) -> list[BaseGeometry]:
    """Return bridges from a part to the rest of the sheet, far apart along its edge."""
    edge = _edge_from_below(max(shapely.get_parts(island), key=shapely.area))
    steps = max(24, math.ceil(edge.length / STEP - EVEN))
    share = (np.arange(steps) + 0.5) / steps  # from a corner two ways may be as short
    places = shapely.line_interpolate_point(edge, share, normalized=True)
    ways = shapely.shortest_line(places, main)
    lengths = shapely.length(ways)
    chosen: list[int] = []
    has_room = np.ones(steps, dtype=bool)
    while len(chosen) < count and has_room.any():
        shortest = lengths[has_room].min()
        chosen.append(int(np.argmax(has_room & (lengths < shortest + EVEN))))
        beside = np.abs(share - share[chosen[-1]])
        # so near that the last one finds a place too
        has_room &= np.minimum(beside, 1 - beside) > 1 / (2 * count) - ROUNDING
    return [_band(ways[index], width) for index in chosen]


def _edge_from_below(part: Polygon) -> LineString:
    """Return the edge of a part from its lowest point on, the left one of two as low.

    An overlay begins it anywhere, and a length that is off by rounding would move the bridges.
    """
    points = shapely.get_coordinates(shapely.get_exterior_ring(shapely.normalize(part)))[:-1]
    first = np.argmin(points @ (EVEN, 1.0))  # of a level edge the left end
    turned = np.roll(points, -first, axis=0)
    return LineString([*turned, turned[0]])


def _band(way: LineString, width: float) -> BaseGeometry:
    """Return a band along a way that reaches half its width beyond both ends."""
    if way.length < DUST:
        return way.centroid.buffer(width / 2)
    (x0, y0), (x1, y1) = way.coords
    dx, dy = (each * width / 2 / way.length for each in (x1 - x0, y1 - y0))
    longer = LineString([(x0 - dx, y0 - dy), (x1 + dx, y1 + dy)])
    return longer.buffer(width / 2, cap_style="flat")
