"""Unions, intersections, differences and buffers of filled outlines."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from fontTools.misc.transform import Transform
from shapely import LinearRing, LineString, MultiPolygon, Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.sampling import as_point, sampled, signed_area
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import EMPTY, Path, polyline, together
from templates_gen.geometry.tolerances import MIRRORED, SAMPLING
from templates_gen.units import decimal

SLIT, SHARPEST = 0.3, 2.0
"""What is narrower is a slit, mm, and how far a corner may reach over that when it is filled."""
Area = Polygon | MultiPolygon
"""A filled outline, as the functions of this module hand it on."""


def region(path: Path, tolerance: float = SAMPLING) -> Area:
    """Return the area that closed contours enclose, a contour inside another being a hole.

    A contour may cross itself only in loops too small to matter at the tolerance. Raises
    GeometryError when the contours do not enclose a valid area.
    """
    rings = [_simple(points, tolerance) for points, closed in sampled(path, tolerance) if closed]
    area = rings[0] if len(rings) == 1 else _even_odd(rings)
    if not isinstance(area, Area) or not area.is_valid or area.area <= 0:
        raise GeometryError("the outline does not enclose an area")
    return area


def _simple(ring: list[Point], tolerance: float) -> Polygon:
    """Return what a ring encloses, without loops that go no farther than ``tolerance``.

    Raises GeometryError where it crosses itself in a larger one.
    """
    area = _polygon(ring)
    if area.is_valid:
        return area
    parts = _polygons(shapely.make_valid(area))
    edge = max(parts, key=lambda part: part.area, default=Polygon()).exterior
    if not shapely.buffer(edge, tolerance).covers(area.exterior):
        raise GeometryError("the outline crosses itself")
    return Polygon(edge)


def _polygon(ring: list[Point]) -> Polygon:
    """Return a ring as a polygon; an empty one where it has too few points for an area."""
    # the class of shapely would look at each point on its own
    area: Polygon = shapely.polygons(ring) if len(ring) > 3 else Polygon()
    return area


def _polygons(found: BaseGeometry) -> list[Polygon]:
    """Return the polygons of a geometry, in collections within it too."""
    parts = shapely.get_parts(shapely.get_parts(found))
    return [part for part in parts if isinstance(part, Polygon)]


def shadow(path: Path, tolerance: float = SAMPLING) -> Area:
    """Return what closed contours hide, a contour inside another being a hole; it may be empty.

    Unlike ``region`` it takes contours as they come, those that cross themselves too.
    """
    rings = [_polygon(points) for points, closed in sampled(path, tolerance) if closed]
    return _even_odd(rings)


def _even_odd(rings: Sequence[Polygon]) -> Area:
    """Return what lies in an odd number of rings."""
    # all lines at once: one ring after the other takes time by the square of their number
    return _some(shapely.make_valid(MultiPolygon(rings))) or Polygon()


def is_simple(path: Path) -> bool:
    """Tell whether a closed contour does not cross itself."""
    return all(_polygon(points).is_valid for points, _ in sampled(path, SAMPLING))


def clipped_box(area: Area, box: Box, least: float = 0.0) -> Box | None:
    """Return the box round the part of ``area`` in ``box``; None if that is under ``least`` mm²."""
    part = shapely.clip_by_rect(area, *box)
    return None if part.area <= least else Box(*part.bounds)


def area_in_box(area: Area, box: Box) -> float:
    """Return the size of the part of ``area`` in ``box``, mm²."""
    return float(shapely.clip_by_rect(area, *box).area)


def clipped_and_moved(area: Area, box: Box, to: Transform) -> Area | None:
    """Return the part of ``area`` in ``box``, carried elsewhere; None where that is nothing."""
    return _some(_mapped(shapely.clip_by_rect(area, *box), to))


def is_mirrored(area: Area, mirror: Transform) -> bool:
    """Tell whether an area is its image in a mirror, point by point of its edge."""
    image = _mapped(area, mirror)
    return bool(shapely.hausdorff_distance(area.boundary, image.boundary) < 10 * MIRRORED)


def _mapped(area: BaseGeometry, transform: Transform) -> BaseGeometry:
    xx, xy, yx, yy, dx, dy = transform
    return affine_transform(area, (xx, yx, xy, yy, dx, dy))


def covers(area: Area, box: Box) -> bool:
    """Tell whether ``box`` lies in ``area``."""
    return bool(area.covers(shapely.box(*box)))


def union(areas: Sequence[Area]) -> Area | None:
    """Return what any of the areas covers; None for no area."""
    if not areas:
        return None
    whole = shapely.union_all(list(areas))
    if not isinstance(whole, Area) or not whole.is_valid:
        raise GeometryError("the areas do not make a valid one together")
    return whole


def clipped_area(path: Path, box: Box) -> Path:
    """Return the edge of the part of a closed area inside ``box``; untouched if that is all.

    Where no part of it lies inside, that is the empty path.
    """
    if box.contains(path.bounds):
        return path
    inside = _some(shapely.intersection(region(path), shapely.box(*box)))
    return EMPTY if inside is None else edge_of(inside)


def filled(path: Path, tolerance: float = SAMPLING) -> Area:
    """Return the area that closed contours fill as a font fills them: by their turning.

    Contours that turn like the largest fill, the others are holes. Raises GeometryError when
    nothing is filled.
    """
    rings = [points for points, closed in sampled(path, tolerance) if closed and len(points) > 3]
    areas = [signed_area(points[:-1]) for points in rings]
    way = max(areas, key=abs, default=0.0)
    inks = [_sound(ring) for ring, area in zip(rings, areas, strict=True) if area * way > 0]
    holes = [_sound(ring) for ring, area in zip(rings, areas, strict=True) if area * way < 0]
    area = shapely.difference(shapely.union_all(inks), shapely.union_all(holes))
    if not isinstance(area, Area) or area.area <= 0:
        raise GeometryError("the outline does not enclose an area")
    return area


def encloses(path: Path) -> bool:
    """Tell whether a path fills anything."""
    try:
        filled(path)
    except GeometryError:
        return False
    return True


def _sound(points: list[Point]) -> BaseGeometry:
    """Return what a ring fills: all that it goes round its own way, however often."""
    ring = shapely.polygons(points)
    if ring.is_valid:
        return ring
    way = signed_area(points[:-1])
    faces = shapely.get_parts(shapely.polygonize([shapely.union_all(LineString(points))]))
    inner = [as_point(face.point_on_surface().coords[0]) for face in faces]
    return shapely.union_all(
        [face for face, at in zip(faces, inner, strict=True) if _turns(points, at) * way > 0]
    )


def _turns(points: Sequence[Point], at: Point) -> int:
    """Return how often a ring goes round a point, counter-clockwise (the winding number)."""
    x, y = at
    turns = 0
    for (x0, y0), (x1, y1) in pairwise(points):
        if (y0 > y) != (y1 > y) and (x0 + (y - y0) / (y1 - y0) * (x1 - x0)) > x:
            turns += 1 if y1 > y0 else -1
    return turns


def merged(paths: Sequence[Path]) -> tuple[Path, ...]:
    """Return closed paths, those whose areas overlap as the one outline of their union.

    A path that overlaps neither another nor itself comes back untouched. Raises GeometryError as
    ``filled``.
    """
    areas = [filled(path) for path in paths]
    groups: list[set[int]] = []
    for index, area in enumerate(areas):
        touched = [g for g in groups if any(shapely.intersects(areas[i], area) for i in g)]
        groups = [group for group in groups if group not in touched]
        groups.append({index}.union(*touched))
    return tuple(
        clean(paths[group.pop()])
        if len(group) == 1
        else edge_of(shapely.union_all([areas[index] for index in sorted(group)]))
        for group in sorted(groups, key=min)
    )


def merged_with(path: Path, other: Path) -> Path:
    """Return the outline of two areas that overlap. Raises GeometryError where they do not."""
    whole = shapely.union_all([filled(path), filled(other)])
    if not isinstance(whole, Polygon):
        raise GeometryError("the outlines do not overlap")
    return edge_of(whole)


def clean(path: Path) -> Path:
    """Return closed contours that do not cross, filling what ``path`` fills.

    A path that is so already comes back untouched; slits that no knife can follow, as where strokes
    of a letter overlap, are filled. Raises GeometryError as ``filled``.
    """
    area = filled(path)
    try:
        sound = abs(region(path).area - area.area) < SAMPLING
    except GeometryError:
        sound = False
    return path if sound else edge_of(_without_slits(area))


def _without_slits(area: Area) -> BaseGeometry:
    """Return an area with its slits filled, its corners as sharp as they were."""
    closed: BaseGeometry = area
    for by in (SLIT / 2, -SLIT / 2):
        closed = shapely.buffer(closed, by, join_style="mitre", mitre_limit=SHARPEST)
    return closed if closed.is_valid and closed.area >= area.area else area


def edge_of(area: BaseGeometry) -> Path:
    """Return the edges of an area, holes too, as closed lines."""
    parts = (part for part in shapely.get_parts(area) if isinstance(part, Polygon))
    return together(ring_path(ring) for part in parts for ring in (part.exterior, *part.interiors))


def ring_path(ring: LinearRing) -> Path:
    """Return one edge of an area as a closed line."""
    return polyline([as_point(place) for place in ring.coords[:-1]], closed=True)


def buffered_edge(path: Path, by: float, tolerance: float) -> Path:
    """Return the edge of the area of ``path`` with everything within ``by`` mm of it.

    A negative ``by`` takes off what lies within that of the edge. Raises GeometryError when that
    leaves nothing, or more than one area or an area with a hole.
    """
    area = region(path, tolerance / 4)
    found = _buffer(area, by, tolerance / 4)
    moved_right = (found.area > area.area) == (by > 0)
    if not isinstance(found, Polygon) or found.is_empty or not found.is_valid or not moved_right:
        raise GeometryError(f"the outline cannot be grown by {decimal(by, 1)} mm in one piece")
    if found.interiors:
        raise GeometryError(f"the outline grown by {decimal(by, 1)} mm closes round a hole")
    return ring_path(shapely.simplify(found.exterior, tolerance / 4, preserve_topology=True))


def intersection(areas: Sequence[Area]) -> Area | None:
    """Return what several areas have in common, or None when that is nothing."""
    return _some(shapely.intersection_all(list(areas)))


def difference(area: Area, others: Sequence[Area]) -> Area | None:
    """Return what is left of an area without others, or None when that is nothing."""
    return _some(shapely.difference(area, shapely.union_all(list(others))))


def buffered(area: Area, by: float) -> Area | None:
    """Return the area with everything within ``by`` mm of it; below 0 without what lies there.

    None when that leaves nothing.
    """
    return _some(_buffer(area, by, SAMPLING))


def _buffer(area: Area, by: float, tolerance: float) -> BaseGeometry:
    """Return a buffer with round corners, whose arcs leave the true ones by ``tolerance`` mm."""
    quarter = math.pi / 4 / math.acos(1 - min(1.0, tolerance / max(abs(by), tolerance)))
    segments = max(4, math.ceil(quarter))
    return shapely.buffer(area, by, quad_segs=segments, join_style="round")


def _some(found: BaseGeometry) -> Area | None:
    """Return the areas in a result, or None when it has none."""
    parts = [part for part in _polygons(found) if part.area]
    if not parts:
        return None
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def outreach(area: Area, other: BaseGeometry) -> float:
    """Return how far an area reaches out of another at the most, mm; 0 where it does not."""
    # of outlines that touch, lines and points may be left, or nothing at all
    outside = shapely.get_coordinates(shapely.difference(area, other))
    return float(np.max(shapely.distance(shapely.points(outside), other), initial=0.0))


def centroid(path: Path) -> Point:
    """Return the centroid of what a path fills."""
    return as_point(filled(path).centroid.coords[0])
