"""The edge of what many patches cover, and what hides a point."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from shapely import LineString

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.booleans import Area, edge_of
from templates_gen.geometry.areas.sampling import signed_area
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.tolerances import SAMPLING

SLIT = 0.02
"""Half the width of a gap between patches that counts as closed, mm."""


def envelope(patches: Sequence[Sequence[Point]]) -> Path:
    """Return the edge of everything that patches, each a polygon, cover together.

    Patches seen edge on have no area and are left out.
    """
    solid = [shapely.polygons(points) for points in patches if abs(signed_area(points)) > SAMPLING]
    whole = shapely.union_all([shapely.buffer(each, 0) for each in solid], grid_size=SAMPLING / 10)
    # what rounding left open between neighbours is closed
    for by in (SLIT, -SLIT):
        whole = shapely.buffer(whole, by, join_style="mitre")
    return edge_of(shapely.simplify(whole, SAMPLING))


def hull(points: Sequence[Point]) -> Path:
    """Return the edge of the smallest convex area round points."""
    whole = shapely.simplify(shapely.multipoints(points).convex_hull, SAMPLING)
    if not isinstance(whole, shapely.Polygon):
        raise GeometryError("these points have no area round them")
    return edge_of(whole)


def is_hidden(area: Area, point: Point) -> bool:
    """Tell whether ``area`` lies before a point, seen from far below in y."""
    x, y = point
    shapely.prepare(area)
    return bool(shapely.intersects(area, LineString([(x, y), (x, area.bounds[1] - 1.0)])))
