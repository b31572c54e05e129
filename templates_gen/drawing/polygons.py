"""Operations on filled outlines and long lines. The only module that speaks to shapely.

Curves are sampled to a stated tolerance, and every result is checked before it is handed on.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

import shapely
from shapely import LineString, MultiLineString, MultiPolygon, Polygon
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry
from shapely.ops import substring

from templates_gen.drawing.path import EMPTY, Box, Path, Point, polyline
from templates_gen.errors import GeometryError

Area = Polygon | MultiPolygon
"""A filled outline, as the functions of this module hand it on."""

_SAME = 1e-9
TOLERANCE = 0.01
"""How far a sampled curve may leave the true one, mm."""
ROOM_TO = 1e-4
"""To how much the room for a move is found, mm."""


def _cubic_points(a: Point, curve: tuple[Point, ...], tolerance: float) -> list[Point]:
    """Sample the cubic from ``a`` over two control points to its end, without its start.

    With n equal steps the chord error is at most |second derivative| / (8 n^2), and the second
    derivative of a cubic is at most 6 max(|a - 2b + c|, |b - 2c + d|).
    """
    b, c, d = curve
    bend = max(
        math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]),
        math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]),
    )
    steps = max(1, math.ceil(math.sqrt(0.75 * bend / tolerance)))
    points = []
    for index in range(1, steps):
        t = index / steps
        s = 1 - t
        k0, k1, k2, k3 = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        points.append(
            (
                k0 * a[0] + k1 * b[0] + k2 * c[0] + k3 * d[0],
                k0 * a[1] + k1 * b[1] + k2 * c[1] + k3 * d[1],
            )
        )
    return [*points, d]


def sampled(path: Path, tolerance: float = TOLERANCE) -> Iterator[tuple[list[Point], bool]]:
    """Yield each contour as its points (ends included) and whether it is closed."""
    points: list[Point] = []
    for name, args in path.commands:
        if name == "moveTo":
            points = [args[0]]
        elif name == "lineTo":
            points.append(args[0])
        elif name == "curveTo":
            points += _cubic_points(points[-1], args, tolerance)
        else:
            closed = name == "closePath"
            yield (_ring(points) if closed else points), closed


def _ring(points: list[Point]) -> list[Point]:
    """Return points with the first again at the end, once: a last one may be off by rounding."""
    back = len(points) > 1 and math.dist(points[0], points[-1]) < _SAME
    return [*(points[:-1] if back else points), points[0]]


def path_length(path: Path) -> float:
    """Return the length of the lines and curves of a path, mm."""
    return sum(
        math.dist(a, b) for points, _ in sampled(path, TOLERANCE / 100) for a, b in pairwise(points)
    )


def region(path: Path, tolerance: float = TOLERANCE) -> Area:
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
    return Polygon(ring) if len(ring) > 3 else Polygon()


def _polygons(found: BaseGeometry) -> list[Polygon]:
    """Return the polygons of a geometry, in collections within it too."""
    parts = shapely.get_parts(shapely.get_parts(found))
    return [part for part in parts if isinstance(part, Polygon)]


def shadow(path: Path, tolerance: float = TOLERANCE) -> Area:
    """Return what closed contours hide, a contour inside another being a hole; it may be empty.

    Unlike ``region`` it takes contours as they come, those that cross themselves too.
    """
    rings = [_polygon(points) for points, closed in sampled(path, tolerance) if closed]
    return _even_odd(rings)


def _even_odd(rings: Sequence[Polygon]) -> Area:
    """Return what lies in an odd number of rings."""
    # all lines at once: one ring after the other takes time by the square of their number
    return _some(shapely.make_valid(MultiPolygon(rings))) or Polygon()


def is_simple(path: Path, tolerance: float = TOLERANCE) -> bool:
    """Tell whether a closed contour does not cross itself."""
    return all(_polygon(points).is_valid for points, _ in sampled(path, tolerance))


def part_in(area: Area, box: Box, least: float = 0.0) -> Box | None:
    """Return the box round the part of ``area`` in ``box``; None if that is under ``least`` mm²."""
    part = shapely.clip_by_rect(area, *box)
    return None if part.area <= least else Box(*part.bounds)


def covers(area: Area, box: Box) -> bool:
    """Tell whether ``box`` lies in ``area``."""
    return bool(area.covers(shapely.box(*box)))


def outside(area: Area, shapes: Sequence[Sequence[Point]]) -> list[int]:
    """Return which of convex polygons, by place, do not lie wholly in an area."""
    shapely.prepare(area)
    return [
        place for place, points in enumerate(shapes) if not shapely.covers(area, Polygon(points))
    ]


def overlapping(shapes: Sequence[Sequence[Point]]) -> list[tuple[int, int]]:
    """Return the pairs of convex polygons that have something in common, the lesser place first."""
    if not shapes:
        return []
    polygons = [Polygon(points) for points in shapes]
    found = shapely.STRtree(polygons).query(polygons, "intersects").T
    return sorted((int(one), int(other)) for one, other in found if one < other)


def spans_on(area: Area, start: Point, end: Point) -> list[tuple[Point, Point]]:
    """Return the stretches of the line from ``start`` to ``end`` that lie in ``area``, in order."""
    inside = shapely.intersection(LineString([start, end]), area)
    stretches = [
        part for part in shapely.get_parts(inside) if isinstance(part, LineString) and part.length
    ]
    ends = [(_point(part.coords[0]), _point(part.coords[-1])) for part in stretches]
    dx, dy = end[0] - start[0], end[1] - start[1]

    def along(point: Point) -> float:
        return (point[0] - start[0]) * dx + (point[1] - start[1]) * dy

    ordered = [(a, b) if along(a) <= along(b) else (b, a) for a, b in ends]
    return sorted(ordered, key=lambda stretch: along(stretch[0]))


def _point(place: Sequence[float]) -> Point:
    return place[0], place[1]


def together(areas: Sequence[Area]) -> Area | None:
    """Return what any of the areas covers; None for no area."""
    if not areas:
        return None
    union = shapely.union_all(list(areas))
    if not isinstance(union, Area) or not union.is_valid:
        raise GeometryError("the areas do not make a valid one together")
    return union


def clipped(path: Path, box: Box, area: Area | None = None) -> Path:
    """Return the part of the line of ``path`` inside ``box``, or the ``area`` in that box.

    A path wholly inside comes back untouched; else its curves are sampled.
    """
    if box.holds(path.bounds) and (area is None or covers(area, path.bounds)):
        return path
    around = shapely.box(*box) if area is None else area
    return _lines(shapely.intersection(_sampled_lines(path), around))


def within(path: Path, area: Area) -> Path:
    """Return the part of the line of ``path`` inside ``area``; untouched if that is all."""
    lines = _sampled_lines(path)
    return path if area.covers(lines) else _lines(shapely.intersection(lines, area))


def clipped_area(path: Path, box: Box) -> Path:
    """Return the edge of the part of a closed area inside ``box``; untouched if that is all.

    Where no part of it lies inside, that is the empty path.
    """
    if box.holds(path.bounds):
        return path
    inside = _some(shapely.intersection(region(path), shapely.box(*box)))
    return EMPTY if inside is None else edge_of(inside)


def cutter(areas: Sequence[Area]) -> Callable[[Path], Path]:
    """Return a function that takes the part of a line in any of ``areas`` away.

    A line clear of them all comes back untouched; else its curves are sampled. Only areas that a
    line meets are united for it: many lines and many areas take time in proportion.
    """
    tree = shapely.STRtree(areas)

    def cut(path: Path) -> Path:
        lines = _sampled_lines(path)
        met = [areas[index] for index in sorted(tree.query(lines, predicate="intersects"))]
        return _lines(shapely.difference(lines, shapely.union_all(met))) if met else path

    return cut


def _sampled_lines(path: Path) -> MultiLineString:
    return MultiLineString([points for points, _ in sampled(path)])


def _lines(lines: BaseGeometry) -> Path:
    """Return what shapely left of lines, without crumbs."""
    kept = shapely.line_merge(lines)
    result = EMPTY
    for part in shapely.get_parts(kept):
        if isinstance(part, LineString) and part.length > TOLERANCE:
            places = [_point(place) for place in part.coords]
            # a closed curve ends where it starts, but for rounding
            apart = [b for a, b in pairwise(places) if math.dist(a, b) > _SAME]
            result += polyline([places[0], *apart])
    return result


def clearance(inner: Path, outer: Path, tolerance: float = 1e-3) -> float:
    """Return the smallest distance from ``inner`` to the edge of ``outer`` round it, mm.

    Negative when ``inner`` reaches out of ``outer``: by how far at the most.
    """
    inside, around = region(inner, tolerance), region(outer, tolerance)
    if around.covers(inside):
        return float(shapely.distance(inside.boundary, around.boundary))
    # of outlines that touch, lines and points may be left, or nothing at all
    outreach = shapely.get_coordinates(shapely.difference(inside, around))
    far = (float(shapely.distance(shapely.Point(place), around)) for place in outreach)
    return 0.0 - max(far, default=0.0)


def filled(path: Path, tolerance: float = TOLERANCE) -> Area:
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
    inner = [_point(face.point_on_surface().coords[0]) for face in faces]
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


def united(paths: Sequence[Path]) -> tuple[Path, ...]:
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


def joined_with(path: Path, other: Path) -> Path:
    """Return the outline of two areas that overlap. Raises GeometryError where they do not."""
    whole = shapely.union_all([filled(path), filled(other)])
    if not isinstance(whole, Polygon):
        raise GeometryError("the outlines do not overlap")
    return edge_of(whole)


def lie_in(outer: Path, paths: Sequence[Path]) -> bool:
    """Tell whether everything that ``paths`` fill lies in the area of ``outer``."""
    room = shapely.buffer(region(outer), TOLERANCE)
    return all(room.covers(filled(path)) for path in paths)


def clean(path: Path) -> Path:
    """Return closed contours that do not cross, filling what ``path`` fills.

    A path that is so already comes back untouched. Raises GeometryError as ``filled``.
    """
    area = filled(path)
    try:
        sound = abs(region(path).area - area.area) < TOLERANCE
    except GeometryError:
        sound = False
    return path if sound else edge_of(area)


def edge_of(area: BaseGeometry) -> Path:
    """Return the edges of an area, holes too, as closed lines."""
    result = EMPTY
    for part in shapely.get_parts(area):
        if isinstance(part, Polygon):
            for ring in (part.exterior, *part.interiors):
                points = [_point(place) for place in ring.coords[:-1]]
                result += polyline(points, closed=True)
    return result


def room(inner: Path, outer: Path, way: Point, most: float) -> float:
    """Return how far ``inner`` can go one way, of length 1, and stay in ``outer``, mm.

    At the most ``most``; 0 where it does not lie in ``outer`` to begin with.
    """
    inside, around = region(inner, 1e-3), region(outer, 1e-3)
    shapely.prepare(around)
    low, high = 0.0, most
    while high - low > ROOM_TO:
        middle = (low + high) / 2
        moved = translate(inside, way[0] * middle, way[1] * middle)
        low, high = (middle, high) if around.covers(moved) else (low, middle)
    return low


def signed_area(points: Sequence[Point]) -> float:
    """Return the area of a polygon, positive when its points run counter-clockwise."""
    turned = [*points[1:], points[0]] if points else []
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, turned, strict=True)) / 2


def dilated(path: Path, by: float, tolerance: float = TOLERANCE) -> Path:
    """Return the edge of the area of ``path`` with everything within ``by`` mm of it.

    A negative ``by`` takes off what lies within that of the edge. Raises GeometryError when that
    leaves nothing, or more than one area or an area with a hole.
    """
    area = region(path, tolerance / 4)
    bow = min(1.0, tolerance / 4 / max(abs(by), tolerance))
    segments = max(4, math.ceil(math.pi / 4 / math.acos(1 - bow)))
    grown = shapely.buffer(area, by, quad_segs=segments, join_style="round")
    moved_right = (grown.area > area.area) == (by > 0)
    if not isinstance(grown, Polygon) or grown.is_empty or not grown.is_valid or not moved_right:
        raise GeometryError(f"the outline cannot be grown by {by:.1f} mm in one piece")
    if grown.interiors:
        raise GeometryError(f"the outline grown by {by:.1f} mm closes round a hole")
    edge = shapely.simplify(grown.exterior, tolerance / 4, preserve_topology=True)
    return polyline([_point(place) for place in edge.coords[:-1]], closed=True)


def common(areas: Sequence[Area]) -> Area | None:
    """Return what several areas have in common, or None when that is nothing."""
    return _some(shapely.intersection_all(list(areas)))


def without(area: Area, others: Sequence[Area]) -> Area | None:
    """Return what is left of an area without others, or None when that is nothing."""
    return _some(shapely.difference(area, shapely.union_all(list(others))))


def shrunk(area: Area, by: float) -> Area | None:
    """Return the area without what lies within ``by`` mm of its edge, or None; below 0 it grows."""
    quarter = math.pi / 4 / math.acos(1 - min(1.0, TOLERANCE / max(abs(by), TOLERANCE)))
    segments = max(4, math.ceil(quarter))
    return _some(shapely.buffer(area, -by, quad_segs=segments, join_style="round"))


def _some(found: BaseGeometry) -> Area | None:
    """Return the areas in a result, or None when it has none."""
    parts = [part for part in _polygons(found) if part.area]
    if not parts:
        return None
    return parts[0] if len(parts) == 1 else MultiPolygon(parts)


def deepest(area: Area) -> tuple[Point, float]:
    """Return the point of an area farthest from its edge, and how far it is, mm.

    That is the centroid where it is as far as any point but for a thousandth.
    """
    found = shapely.maximum_inscribed_circle(area, tolerance=TOLERANCE)
    point, far = _point(found.coords[0]), float(found.length)
    centroid = area.centroid
    from_middle = float(shapely.distance(centroid, area.boundary)) if area.covers(centroid) else 0.0
    return ((centroid.x, centroid.y), from_middle) if from_middle > 0.999 * far else (point, far)


def is_in(area: Area, point: Point, slack: float = TOLERANCE) -> bool:
    """Tell whether a point lies in an area, or within ``slack`` mm of it."""
    return bool(shapely.distance(area, shapely.Point(point)) <= slack)


def along_edges(area: Area, open_area: Area, count: int, phase: float) -> list[Point]:
    """Return points spread evenly along what of the outer edges lies in ``open_area``.

    The first lies ``phase`` of a step from the back of the area.
    """
    lines: list[LineString] = []
    for part in shapely.get_parts(area):
        ring = _from_back(part.exterior)
        if open_area is area:
            lines.append(ring)
            continue
        kept = shapely.intersection(ring, shapely.buffer(open_area, TOLERANCE))
        stretches = shapely.get_parts(shapely.line_merge(kept))
        lines += [each for each in stretches if isinstance(each, LineString) and each.length]
    lengths = [each.length for each in lines]
    step = sum(lengths) / count
    points = []
    for index in range(count):
        rest = (index + phase) * step
        which = 0
        while which < len(lines) - 1 and rest > lengths[which]:
            rest -= lengths[which]
            which += 1
        place = shapely.line_interpolate_point(lines[which], rest)
        points.append((float(place.x), float(place.y)))
    return points


def _from_back(ring: LineString) -> LineString:
    """Return a closed line that starts at its back, above the middle of its box."""
    x0, _, x1, y1 = ring.bounds
    start = float(shapely.line_locate_point(ring, shapely.Point((x0 + x1) / 2, y1)))
    line = LineString(ring.coords)
    first, second = substring(line, start, line.length), substring(line, 0.0, start)
    coords = [*first.coords, *second.coords[1:]] if start else line.coords
    return LineString(coords)


SLIT = 0.02
"""Half the width of an opening between patches that is none, mm."""


def envelope(patches: Sequence[Sequence[Point]]) -> Path:
    """Return the edge of everything that patches, each a polygon, cover together.

    Patches seen edge on have no area and are left out.
    """
    solid = [shapely.polygons(points) for points in patches if abs(signed_area(points)) > TOLERANCE]
    whole = shapely.union_all([shapely.buffer(each, 0) for each in solid], grid_size=TOLERANCE / 10)
    # what rounding left open between neighbours is closed
    for by in (SLIT, -SLIT):
        whole = shapely.buffer(whole, by, join_style="mitre")
    result = EMPTY
    for part in shapely.get_parts(shapely.simplify(whole, TOLERANCE)):
        for ring in (part.exterior, *part.interiors):
            result += polyline([_point(place) for place in ring.coords[:-1]], closed=True)
    return result


def hull(points: Sequence[Point]) -> Path:
    """Return the edge of the smallest convex area round points."""
    whole = shapely.simplify(shapely.multipoints(points).convex_hull, TOLERANCE)
    if not isinstance(whole, shapely.Polygon):
        raise GeometryError("these points have no area round them")
    return polyline([_point(place) for place in whole.exterior.coords[:-1]], closed=True)


def blocked(area: Area, point: Point) -> bool:
    """Tell whether ``area`` lies before a point, seen from far below in y."""
    x, y = point
    shapely.prepare(area)
    return bool(shapely.intersects(area, LineString([(x, y), (x, area.bounds[1] - 1.0)])))


def clear_of(
    areas: Sequence[tuple[Path, float]], lines: Sequence[tuple[Path, float]]
) -> Callable[[Point], bool]:
    """Return a function that tells whether a point is clear of closed areas and of lines.

    Each comes with the distance in mm that is kept from it.
    """
    # the grown edge is a polygon within the true one, by less than the tolerance added
    taken = [_kept_from(filled(path), by) for path, by in areas]
    taken += [_kept_from(_sampled_lines(path), by) for path, by in lines]
    grown = shapely.union_all(taken)
    shapely.prepare(grown)
    return lambda point: not shapely.contains_xy(grown, *point)


def _kept_from(shape: BaseGeometry, by: float) -> BaseGeometry:
    bow = 1 - TOLERANCE / max(by, 2 * TOLERANCE)
    segments = max(4, math.ceil(math.pi / 4 / math.acos(bow)))
    return shapely.buffer(shape, by + TOLERANCE * 2, quad_segs=segments)


def overlap(areas: Sequence[Path], lines: Sequence[Path], turns: Sequence[float]) -> bool:
    """Tell whether any line runs into a closed area, or does when moved along x by a turn."""
    tree = shapely.STRtree([_sampled_lines(line) for line in lines])
    inked = [filled(area) for area in areas]
    moved = [translate(area, turn) for turn in turns for area in inked]
    return bool(tree.query(moved, predicate="intersects").size)


def narrowest(path: Path, least: float) -> float:
    """Return the width of the thinnest neck or arm of an area, if it is under ``least`` mm.

    A neck parts what it joins when ``width / 2`` is taken off all round; an arm vanishes farther
    back than the tip of a corner does. An area without such parts has at least ``least``, and that
    is returned.
    """
    area = filled(path)
    if not _gives_way(area, least / 2):
        return least
    low, high = 0.0, least / 2
    while high - low > TOLERANCE:
        middle = (low + high) / 2
        low, high = (low, middle) if _gives_way(area, middle) else (middle, high)
    return 2 * low


TIP = 4.0
"""How far back a mere tip may vanish, over what is taken off: tips of 23 degrees or more stay."""


def _gives_way(area: Area, by: float) -> bool:
    """Tell whether an area falls apart, or loses an arm, when ``by`` mm is taken off all round."""
    left = shapely.buffer(area, -by, quad_segs=16)
    parts = len(shapely.get_parts(area))
    if left.is_empty or len(shapely.get_parts(left)) != parts:
        return True
    return _lost(area, left, by) > TIP * by


def _lost(area: Area, left: BaseGeometry, by: float) -> float:
    """Return how far an area reaches beyond what is ``left`` of it when that is grown again, mm."""
    opened = shapely.buffer(left, by + TOLERANCE, quad_segs=16)
    lost = shapely.get_coordinates(shapely.difference(area, opened))
    far = (float(shapely.distance(shapely.Point(place), opened)) for place in lost)
    return max(far, default=0.0)


def thin_tips(path: Path, least: float) -> float:
    """Return how far tips narrower than ``least`` mm reach beyond where an area is as wide, mm."""
    area = filled(path)
    return _lost(area, shapely.buffer(area, -least / 2, quad_segs=16), least / 2)


def is_one(path: Path) -> bool:
    """Tell whether what a path fills hangs together."""
    return isinstance(filled(path), Polygon)


def centroid(path: Path) -> Point:
    """Return the middle of gravity of what a path fills."""
    return _point(filled(path).centroid.coords[0])


def ridge(path: Path, x: float, wide: float, step: float = 0.5) -> float | None:
    """Return the lowest y at which a level line ``wide`` mm long about x lies in an area.

    Looked for ``step`` by ``step``; None where there is none.
    """
    area = filled(path)
    _, y0, _, y1 = area.bounds
    for index in range(int((y1 - y0) / step)):
        y = y0 + (index + 0.5) * step
        if area.covers(LineString([(x - wide / 2, y), (x + wide / 2, y)])):
            return y
    return None


def bounds_of(area: Area) -> Box:
    """Return the smallest upright box round an area."""
    return Box(*area.bounds)


def is_seen_from(area: Area, point: Point) -> bool:
    """Tell whether every place of an area without holes lies on a straight way from a point."""
    room = shapely.buffer(area, TOLERANCE)
    places = (_point(place) for place in shapely.get_coordinates(area))
    return isinstance(area, Polygon) and all(
        room.covers(LineString([point, place])) for place in places
    )


def paired(outer: Area, inner: Area, step: float) -> list[tuple[Point, Point]]:
    """Return points of the edge of one area, each with the nearest on that of one within it.

    And those of the inner edge, each with the nearest on the outer one: once round from the back,
    counter-clockwise, at most ``step`` mm apart. Empty where an area is in parts or has holes.
    """
    if not (isinstance(outer, Polygon) and isinstance(inner, Polygon)):
        return []
    if outer.interiors or inner.interiors:
        return []
    ring, core = (_from_back(shapely.orient_polygons(each).exterior) for each in (outer, inner))
    outwards, inwards = (
        [shapely.Point(place) for place in shapely.segmentize(each, step).coords[:-1]]
        for each in (ring, core)
    )
    lines = [shapely.shortest_line(place, core) for place in outwards]
    lines += [shapely.shortest_line(ring, place) for place in inwards]
    found: list[tuple[float, Point, Point]] = []
    first = 0.0
    for line in lines:
        p, q = (_point(place) for place in line.coords)
        at_ring, at_core = (
            float(shapely.line_locate_point(each, shapely.Point(place), normalized=True))
            for each, place in ((ring, p), (core, q))
        )
        # both edges start at the first pair, so that places on both go round together
        first = first if found else at_core
        at_core -= first
        found.append((at_ring + at_core + round(at_ring - at_core), p, q))
    return [(p, q) for _, p, q in sorted(found)]
