"""Closed plan curves, made of stretches of constant bend: lines, arcs and sharp corners.

The frame of every outline: origin in the middle, x to the right, y to the back, as seen from above.
Arc length s runs from the back, counter-clockwise: to the right for someone who stands outside.

A stretch of length l that turns by t grows to l + d t under a layer of thickness d, so a convex
outline grows exactly, by 2 pi d in all (Steiner's formula). In a notch, which paste
bridges, the grown stretches are cut off where they cross; where a layer closes more than a notch it
is computed as an area.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

from fontTools.misc.bezierTools import splitCubicAtT

from templates_gen.drawing.path import Box, Command, Path, Point, arc_cubics
from templates_gen.drawing.polygons import dilated, is_simple, sampled, signed_area
from templates_gen.errors import GeometryError

CORNER = math.radians(15)
"""A sharper change of direction in a drawn path is a corner of its shape."""
CLOSE_ENOUGH = 1e-3
"""How far arcs may leave the curve they stand for, mm."""
_TINY = 1e-9
_NEAR = 1e-6
"""So close to a corner is in it, mm."""


@dataclass(frozen=True, slots=True)
class Bend:
    """A stretch of constant bend: its length in mm, its turn to the left in radians.

    A stretch of no length is a sharp corner. ``corner`` marks the corners of the shape, sharp or
    rounded.
    """

    length: float
    turn: float
    corner: bool = False

    def after(self, start: Point, heading: float, share: float = 1.0) -> tuple[Point, float]:
        """Return point and heading at a share of the stretch from a start."""
        length, turn = self.length * share, self.turn * share
        # half the turn to the side lies the chord, shorter than the arc by the sinc of that half
        chord = length * (math.sin(turn / 2) / (turn / 2) if abs(turn) > _TINY else 1.0)
        along = heading + turn / 2
        end = start[0] + chord * math.cos(along), start[1] + chord * math.sin(along)
        return end, heading + turn

    def part(self, start: float, end: float) -> Bend:
        """Return the part of the stretch between two shares of it."""
        return Bend(self.length * (end - start), self.turn * (end - start), self.corner)


@dataclass(frozen=True)
class Outline:
    """A closed curve: where it starts, which way it heads there, its stretches in order.

    ``base`` and ``layer`` remember what a curve with hollows was grown from, so that growing twice
    is growing once by the sum.
    """

    start: Point
    heading: float
    bends: tuple[Bend, ...]
    base: Outline | None = None
    layer: float = 0.0

    @cached_property
    def _ends(self) -> list[float]:
        return list(accumulate(bend.length for bend in self.bends))

    @cached_property
    def _starts(self) -> list[tuple[Point, float]]:
        """Point and heading at the start of each stretch, and at the end of the last."""
        found = [(self.start, self.heading)]
        for bend in self.bends:
            found.append(bend.after(*found[-1]))
        return found

    @property
    def girth(self) -> float:
        """The length once round, mm."""
        return self._ends[-1]

    @cached_property
    def bounds(self) -> Box:
        """The smallest upright box round the curve."""
        return self.path().bounds

    @property
    def across(self) -> float:
        """The larger side of the box round the curve, mm."""
        return max(self.bounds.width, self.bounds.height)

    @cached_property
    def reach(self) -> float:
        """The distance of the farthest place from the origin, mm."""
        if self.radius is not None:
            return self.radius
        points, _ = next(sampled(self.path(), CLOSE_ENOUGH))
        return max(math.hypot(x, y) for x, y in points)

    @cached_property
    def area(self) -> float:
        """What the curve encloses, mm2: the polygon of its chords and the segments beyond them."""
        points = [point for point, _ in self._starts]
        segments = (
            (bend.length / bend.turn) ** 2 / 2 * (bend.turn - math.sin(bend.turn))
            for bend in self.bends
            if abs(bend.turn) > _TINY
        )
        return signed_area(points) + sum(segments)

    @property
    def radius(self) -> float | None:
        """The radius of a circle, or None for any other curve."""
        rate = math.tau / self.girth
        even = all(abs(bend.turn - rate * bend.length) < _TINY for bend in self.bends)
        return 1 / rate if even else None

    @property
    def is_convex(self) -> bool:
        """Whether the curve has no hollow."""
        return all(bend.turn >= -_TINY for bend in self.bends)

    @cached_property
    def corner_spans(self) -> tuple[tuple[float, float], ...]:
        """From where to where each corner turns, in order; of a sharp one both are the same.

        A corner at the back starts before 0.
        """
        spans = [
            (end - bend.length, end)
            for bend, end in zip(self.bends, self._ends, strict=True)
            if bend.corner
        ]
        merged: list[tuple[float, float]] = []
        for start, end in spans:
            if merged and start - merged[-1][1] < _TINY:
                merged[-1] = (merged[-1][0], end)
            else:
                merged.append((start, end))
        # a corner at the back is in two halves
        if len(merged) > 1 and merged[0][0] < _TINY and self.girth - merged[-1][1] < _TINY:
            start, _ = merged.pop()
            merged[0] = (start - self.girth, merged[0][1])
        return tuple(merged)

    @property
    def corners(self) -> tuple[float, ...]:
        """The arc lengths at which the corners have their middle, in order."""
        return tuple(sorted((start + end) / 2 % self.girth for start, end in self.corner_spans))

    @cached_property
    def is_mirrored(self) -> tuple[bool, bool]:
        """Whether the left half mirrors the right one, and whether the front mirrors the back."""
        shares = [step / 32 for step in range(16)]
        points = [self.at(share * self.girth) for share in shares]
        across = [self.at(-share * self.girth) for share in shares]
        along = [self.at((0.5 - share) * self.girth) for share in shares]
        return (
            all(math.dist((-x, y), p) < 0.01 for (x, y), p in zip(points, across, strict=True)),
            all(math.dist((x, -y), p) < 0.01 for (x, y), p in zip(points, along, strict=True)),
        )

    def at(self, s: float) -> Point:
        """Return the point at arc length ``s`` from the back."""
        return self.state(s)[0]

    def heading_at(self, s: float) -> float:
        """Return the direction of the curve at arc length ``s``, radians; at a corner, half-way."""
        return (self.state(s - _NEAR)[1] + self.state(s + _NEAR)[1]) / 2

    def direction(self, s: float) -> float:
        """Return the direction of the curve from arc length ``s`` on, radians."""
        return self.state(s)[1]

    def turned_to(self, heading: float) -> float:
        """Return the arc length from which on a convex curve has turned to a direction, radians."""
        left = (heading - self.heading) % math.tau
        for bend, end in zip(self.bends, self._ends, strict=True):
            if bend.turn > _TINY and left <= bend.turn:
                return end - bend.length * (1 - left / bend.turn)
            left -= bend.turn
        return self.girth

    def normal(self, s: float) -> Point:
        """Return the outward direction at arc length ``s``, of length 1."""
        heading = self.heading_at(s)
        return math.sin(heading), -math.cos(heading)

    def state(self, s: float) -> tuple[Point, float]:
        """Return point and direction at arc length ``s`` from the back."""
        turns, rest = divmod(s, self.girth)
        index = min(bisect_right(self._ends, rest), len(self.bends) - 1)
        bend = self.bends[index]
        start = self._ends[index] - bend.length
        share = (rest - start) / bend.length if bend.length else 0.0
        point, heading = bend.after(*self._starts[index], share)
        return point, heading + turns * math.tau

    def path(self) -> Path:
        """Return the curve as lines and cubics, from the back, counter-clockwise."""
        commands: list[Command] = [("moveTo", (self.start,))]
        for bend, (start, heading), (end, _) in zip(
            self.bends, self._starts, self._starts[1:], strict=False
        ):
            if not bend.length:
                continue
            if abs(bend.turn) < _TINY:
                commands.append(("lineTo", (end,)))
                continue
            radius = bend.length / bend.turn
            centre = start[0] - radius * math.sin(heading), start[1] + radius * math.cos(heading)
            angle = heading - math.copysign(math.pi / 2, bend.turn)
            commands += arc_cubics(centre, abs(radius), angle, bend.turn)
        # rounding must not leave an edge of no length
        name, points = commands[-1]
        commands[-1] = name, (*points[:-1], self.start)
        return Path((*commands, ("closePath", ())))

    def grown(self, by: float) -> Outline:
        """Return the outline with a layer of thickness ``by`` round it, square to the curve.

        Raises GeometryError when a layer taken off leaves nothing, or more than one piece.
        """
        if self.base is not None:
            return self.base.grown(self.layer + by)
        if abs(by) < _TINY:
            return self
        bends = tuple(Bend(b.length + by * b.turn, b.turn, b.corner) for b in self.bends)
        if self.is_convex and all(bend.length >= 0 for bend in bends):
            return Outline(self._outside(0.0, by), self.heading, bends)
        trimmed = offset(self, by)
        if trimmed is not None:
            return trimmed
        grown = from_path(dilated(self.path(), by, CLOSE_ENOUGH))
        return Outline(grown.start, grown.heading, grown.bends, self, by)._cornered()

    def _cornered(self) -> Outline:
        """Return the outline with the corners of its base marked where they come nearest."""
        if self.base is None:
            return self
        places = [self.base._outside(s, self.layer) for s in self.base.corners]
        marked = set()
        for place in places:
            near = [math.dist(place, point) for point, _ in self._starts[:-1]]
            marked.add(near.index(min(near)))
        bends = tuple(
            Bend(bend.length, bend.turn, index in marked) for index, bend in enumerate(self.bends)
        )
        return Outline(self.start, self.heading, bends, self.base, self.layer)

    def _outside(self, s: float, by: float) -> Point:
        (x, y), (nx, ny) = self.at(s), self.normal(s)
        return x + by * nx, y + by * ny

    def scaled(self, factor: float) -> Outline:
        """Return the outline ``factor`` times as large about the origin."""
        bends = tuple(Bend(b.length * factor, b.turn, b.corner) for b in self.bends)
        return Outline((self.start[0] * factor, self.start[1] * factor), self.heading, bends)


def starting_at_back(start: Point, heading: float, bends: Iterable[Bend]) -> Outline:
    """Return a closed curve whose arc length starts at the back: on the y axis, the most behind."""
    # no stretch turns so far that it crosses the axis twice
    pieces: list[Bend] = []
    for bend in bends:
        count = max(1, math.ceil(abs(bend.turn) / (math.pi / 4))) if bend.length else 1
        pieces += [bend.part(index / count, (index + 1) / count) for index in range(count)]
    given = Outline(start, heading, tuple(pieces))
    found = starting_from(given, *back_of(given))
    return Outline((0.0, found.start[1]), found.heading, found.bends)


def back_of(outline: Outline) -> tuple[int, float]:
    """Return on which stretch of a curve its back lies, and at which share of it."""
    return max(_on_axis(outline), key=lambda found: _behind(outline, *found))


def starting_from(outline: Outline, index: int, share: float) -> Outline:
    """Return the same curve whose arc length starts at a share of a stretch."""
    pieces, bend = outline.bends, outline.bends[index]
    point, heading = bend.after(*outline._starts[index], share)
    turned = (bend.part(share, 1), *pieces[index + 1 :], *pieces[:index], bend.part(0, share))
    kept = tuple(part for part in turned if part.length > _TINY or abs(part.turn) > _TINY)
    return Outline(point, heading, kept)


def _behind(outline: Outline, index: int, share: float) -> tuple[float, bool]:
    """Return how far back a place lies, and whether it is a sharp corner, for comparing."""
    bend = outline.bends[index]
    return round(bend.after(*outline._starts[index], share)[0][1], 9), not bend.length


def _on_axis(outline: Outline) -> list[tuple[int, float]]:
    """Return where stretches meet the y axis: the index of each, and at which share of it."""
    found = []
    for index, bend in enumerate(outline.bends):
        state = outline._starts[index]
        first, last = state[0][0], outline._starts[index + 1][0][0]
        if abs(first) < _TINY and not bend.length:
            # a sharp corner on the axis is halved
            found.append((index, 0.5))
        elif first * last < 0:
            low, high = 0.0, 1.0
            for _ in range(60):
                middle = (low + high) / 2
                x = bend.after(*state, middle)[0][0]
                low, high = (middle, high) if x * first > 0 else (low, middle)
            found.append((index, (low + high) / 2))
        elif abs(first) < _TINY:
            found.append((index, 0.0))
    if not found:
        raise GeometryError("the outline does not go round the middle of its box")
    return found


@dataclass(frozen=True, slots=True)
class Laid:
    """A stretch where it lies."""

    start: Point
    heading: float
    bend: Bend

    def at(self, share: float) -> tuple[Point, float]:
        """Return point and heading at a share of the stretch."""
        return self.bend.after(self.start, self.heading, share)

    def beside(self, point: Point) -> float:
        """Return how far a point lies to the left of the line or circle the stretch is part of."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        sin, cos = math.sin(self.heading), math.cos(self.heading)
        if abs(self.bend.turn) < _TINY:
            return dy * cos - dx * sin
        radius = self.bend.length / self.bend.turn
        from_centre = math.hypot(dx + radius * sin, dy - radius * cos)
        return (abs(radius) - from_centre) * math.copysign(1.0, radius)

    def share_of(self, point: Point) -> float:
        """Return the share of the stretch at which a point on its line or circle lies."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        sin, cos = math.sin(self.heading), math.cos(self.heading)
        if abs(self.bend.turn) < _TINY:
            return (dx * cos + dy * sin) / self.bend.length
        radius = self.bend.length / self.bend.turn
        turned = math.atan2((dx * cos + dy * sin) / radius, 1 - (dy * cos - dx * sin) / radius)
        return math.remainder(turned - self.bend.turn / 2, math.tau) / self.bend.turn + 0.5


def offset(outline: Outline, by: float) -> Outline | None:
    """Return the outline ``by`` mm outside another, made of the same stretches, grown.

    At a sharp corner an arc comes between two stretches, or, on its inner side, both end where they
    cross. None where a stretch vanishes or others than neighbours cross.
    """
    laid, turns = stretches(outline)
    grown = [_grown(each, by) for each in laid]
    if any(each.bend.length <= 0 for each in grown):
        return None
    starts, ends = [0.0] * len(grown), [1.0] * len(grown)
    joints: list[Bend | None] = []
    for index, corner in enumerate(turns):
        after = (index + 1) % len(grown)
        joint: Bend | None = None
        if corner is not None and corner.turn * by >= 0:
            joint = Bend(by * corner.turn, corner.turn, corner.corner)
        elif corner is not None:
            crossing = _crossing(grown[index], grown[after])
            if crossing is None:
                return None
            ends[index], starts[after] = crossing
            headings = grown[index].at(ends[index])[1], grown[after].at(starts[after])[1]
            joint = Bend(0.0, math.remainder(headings[1] - headings[0], math.tau), corner.corner)
        joints.append(joint)
    if any(start >= end for start, end in zip(starts, ends, strict=True)):
        return None
    bends = []
    for each, start, end, joint in zip(grown, starts, ends, joints, strict=True):
        bends += [each.bend.part(start, end), *([joint] if joint else [])]
    found = starting_at_back(*grown[0].at(starts[0]), bends)
    return found if is_simple(found.path()) else None


def stretches(outline: Outline) -> tuple[list[Laid], list[Bend | None]]:
    """Return the stretches that have a length, and the sharp corner after each, if there is one."""
    states = zip(outline._starts, outline.bends, strict=False)
    every = [Laid(point, heading, bend) for (point, heading), bend in states]
    first = next(index for index, each in enumerate(every) if each.bend.length)
    laid: list[Laid] = []
    turns: list[Bend | None] = []
    for each in every[first:] + every[:first]:
        if each.bend.length:
            laid.append(each)
            turns.append(None)
        else:
            before = turns[-1]
            turn = each.bend.turn + (before.turn if before else 0.0)
            turns[-1] = Bend(0.0, turn, each.bend.corner or (before is not None and before.corner))
    return laid, turns


def _grown(each: Laid, by: float) -> Laid:
    (x, y), bend = each.start, each.bend
    start = x + by * math.sin(each.heading), y - by * math.cos(each.heading)
    return Laid(start, each.heading, Bend(bend.length + by * bend.turn, bend.turn, bend.corner))


_LOOKS = 64
"""Places on a stretch between which a crossing is looked for."""


def _crossing(one: Laid, other: Laid) -> tuple[float, float] | None:
    """Return at which shares of both a stretch crosses the next: the last such place."""
    for step in range(_LOOKS, 0, -1):
        low, high = (step - 1) / _LOOKS, step / _LOOKS
        far = other.beside(one.at(high)[0])
        if far * other.beside(one.at(low)[0]) > 0:
            continue
        for _ in range(60):
            middle = (low + high) / 2
            beside = other.beside(one.at(middle)[0])
            low, high = (low, middle) if beside * far > 0 else (middle, high)
        share = other.share_of(one.at(low)[0])
        if -_TINY <= share <= 1 + _TINY:
            return low, min(max(share, 0.0), 1.0)
    return None


def arc_to(start: Point, heading: float, end: Point) -> Bend:
    """Return the arc that leaves ``start`` in direction ``heading`` and comes to ``end``."""
    chord = math.dist(start, end)
    half = math.remainder(math.atan2(end[1] - start[1], end[0] - start[0]) - heading, math.tau)
    return Bend(chord * (half / math.sin(half) if abs(half) > _TINY else 1.0), 2 * half)


def biarc(start: Point, heading: float, end: Point, arriving: float) -> tuple[Bend, Bend]:
    """Return two arcs, of equal tangents, between two points with given directions."""
    vx, vy = end[0] - start[0], end[1] - start[1]
    ax, ay = math.cos(heading), math.sin(heading)
    bx, by = math.cos(arriving), math.sin(arriving)
    along, square = vx * (ax + bx) + vy * (ay + by), vx * vx + vy * vy
    spread = 1 - (ax * bx + ay * by)
    if spread > 1e-12:
        reach = (math.sqrt(along**2 + 2 * spread * square) - along) / (2 * spread)
    else:
        reach = square / (2 * along)
    joint = (
        (start[0] + end[0] + reach * (ax - bx)) / 2,
        (start[1] + end[1] + reach * (ay - by)) / 2,
    )
    first = arc_to(start, heading, joint)
    return first, arc_to(joint, heading + first.turn, end)


def from_path(path: Path, tolerance: float = CLOSE_ENOUGH) -> Outline:
    """Return the outline of one closed contour of lines and cubics, round the origin.

    Cubics become arcs within ``tolerance`` mm. Raises GeometryError for anything else.
    """
    edges = _edges(path)
    if signed_area([edge[0] for edge in edges]) < 0:
        edges = [edge[::-1] for edge in reversed(edges)]
    bends: list[Bend] = []
    heading = first = _leaving(edges[0])
    for edge in edges:
        if (turn := math.remainder(_leaving(edge) - heading, math.tau)) and abs(turn) > _TINY:
            bends.append(Bend(0.0, turn, abs(turn) > CORNER))
        bends += _arcs(edge, tolerance)
        heading = _leaving(edge[::-1]) + math.pi
    closing = math.remainder(first - heading, math.tau)
    if abs(closing) > _TINY:
        bends.append(Bend(0.0, closing, abs(closing) > CORNER))
    return starting_at_back(edges[0][0], first, bends)


Edge = tuple[Point, ...]
"""A line (two points) or a cubic (four)."""


def _edges(path: Path) -> list[Edge]:
    """Return the edges of one closed contour. Raises GeometryError for any other path."""
    edges: list[Edge] = []
    names = [name for name, _ in path.commands]
    if names.count("moveTo") != 1 or names[-1] != "closePath":
        raise GeometryError("an outline is one closed curve")
    here = start = path.commands[0][1][0]
    for _, points in path.commands[1:-1]:
        edges.append((here, *points))
        here = points[-1]
    edges.append((here, start))
    return [edge for edge in edges if max(math.dist(edge[0], p) for p in edge[1:]) > _TINY]


def _leaving(edge: Edge) -> float:
    """Return the direction in which an edge leaves its start."""
    x, y = edge[0]
    far = next(point for point in edge[1:] if math.dist(point, edge[0]) > _TINY)
    return math.atan2(far[1] - y, far[0] - x)


def _arcs(edge: Edge, tolerance: float) -> list[Bend]:
    """Return the stretches of an edge: a line, or arcs near a cubic, halved until near enough."""
    if len(edge) == 2:
        return [Bend(math.dist(*edge), 0.0)]
    start, arriving = _leaving(edge), _leaving(edge[::-1]) + math.pi
    pair = biarc(edge[0], start, edge[3], arriving)
    gentle = sum(abs(bend.turn) for bend in pair) < math.pi / 2
    if gentle and _farthest(edge, start, pair) <= tolerance:
        return list(pair)
    first, second = _halves(edge)
    return _arcs(first, tolerance) + _arcs(second, tolerance)


def _farthest(edge: Edge, heading: float, pair: Sequence[Bend]) -> float:
    """Return how far a cubic leaves two arcs, at seven places on it."""
    joint, turned = pair[0].after(edge[0], heading)
    arcs = ((edge[0], heading, pair[0]), (joint, turned, pair[1]))
    places = (_on_cubic(edge, step / 8) for step in range(1, 8))
    return max(min(_from_arc(place, *arc) for arc in arcs) for place in places)


def _from_arc(point: Point, start: Point, heading: float, bend: Bend) -> float:
    """Return the distance of a point from the circle or line that a stretch is part of."""
    dx, dy = point[0] - start[0], point[1] - start[1]
    if abs(bend.turn) < 1e-6:
        return abs(dy * math.cos(heading) - dx * math.sin(heading))
    radius = bend.length / bend.turn
    from_centre = math.hypot(dx + radius * math.sin(heading), dy - radius * math.cos(heading))
    return abs(from_centre - abs(radius))


def _on_cubic(edge: Edge, t: float) -> Point:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    x = sum(w * point[0] for w, point in zip(weights, edge, strict=True))
    y = sum(w * point[1] for w, point in zip(weights, edge, strict=True))
    return x, y


def _halves(edge: Edge) -> tuple[Edge, Edge]:
    first, second = splitCubicAtT(*edge, 0.5)
    return tuple(first), tuple(second)
