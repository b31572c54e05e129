"""Closed plan curves, made of segments of constant bend: lines, arcs and sharp corners."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate

from templates_gen.errors import GeometryError
from templates_gen.geometry.arcs import arc_cubics
from templates_gen.geometry.areas.sampling import sampled, signed_area
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Command, Path
from templates_gen.geometry.tolerances import ARC_FIT, CORNER_REACH, MIRRORED, ROUNDING

CORNER = math.radians(15)
"""A sharper change of direction in a drawn path is a corner of its shape."""


@dataclass(frozen=True, slots=True)
class Bend:
    """A segment of constant bend: its length in mm, its turn to the left in radians.

    A segment of no length is a sharp corner. ``corner`` marks the corners of the shape, sharp or
    rounded.
    """

    length: float
    turn: float
    corner: bool = False

    def after(self, start: Point, heading: float, share: float = 1.0) -> tuple[Point, float]:
        """Return point and heading at a share of the segment from a start."""
        length, turn = self.length * share, self.turn * share
        # half the turn to the side lies the chord, shorter than the arc by the sinc of that half
        chord = length * (math.sin(turn / 2) / (turn / 2) if abs(turn) > ROUNDING else 1.0)
        along = heading + turn / 2
        end = start[0] + chord * math.cos(along), start[1] + chord * math.sin(along)
        return end, heading + turn

    def part(self, start: float, end: float) -> Bend:
        """Return the part of the segment between two shares of it."""
        return Bend(self.length * (end - start), self.turn * (end - start), self.corner)

    def parts(self, most: float) -> Iterator[Bend]:
        """Yield the segment in equal parts that turn no more than that, radians; a corner whole."""
        count = max(1, math.ceil(abs(self.turn) / most)) if self.length else 1
        return (self.part(index / count, (index + 1) / count) for index in range(count))


@dataclass(frozen=True)
class Outline:
    """A closed curve: where it starts, which way it heads there, its segments in order.

    ``base`` and ``layer`` are the curve with hollows that this is an offset of, and by how much, so
    that the offset of an offset is one offset by the sum.
    """

    start: Point
    heading: float
    bends: tuple[Bend, ...]
    base: Outline | None = None
    layer: float = 0.0

    @cached_property
    def ends(self) -> list[float]:
        """The arc length at the end of each segment."""
        return list(accumulate(bend.length for bend in self.bends))

    @cached_property
    def starts(self) -> list[tuple[Point, float]]:
        """Point and heading at the start of each segment, and at the end of the last."""
        found = [(self.start, self.heading)]
        for bend in self.bends:
            found.append(bend.after(*found[-1]))
        return found

    @property
    def girth(self) -> float:
        """The length once round, mm."""
        return self.ends[-1]

    @cached_property
    def bounds(self) -> Box:
        """The smallest upright box round the curve."""
        return self.path().bounds

    @property
    def across(self) -> float:
        """The larger side of the box round the curve, mm."""
        return max(self.bounds.width, self.bounds.height)

    @property
    def across_flats(self) -> float | None:
        """The width of a regular polygon of five or more sides, mm; None for any other curve.

        It is twice the distance of a side from the origin. Its corners may be rounded.
        """
        count, places = len(self.corners), zip(self.starts, self.bends, strict=False)
        sides = [(place, bend) for place, bend in places if not bend.corner]
        if count < 5 or not self.is_convex or any(abs(bend.turn) > ROUNDING for _, bend in sides):
            return None
        first = sides[0][0][1]
        turns = [(heading - first) * count / math.tau for (_, heading), _ in sides]
        away = [x * math.sin(way) - y * math.cos(way) for ((x, y), way), _ in sides]
        even = all(abs(turn - round(turn)) < MIRRORED for turn in turns)
        return 2 * away[0] if even and max(away) - min(away) < MIRRORED else None

    @cached_property
    def reach(self) -> float:
        """The distance of the farthest place from the origin, mm."""
        if self.radius is not None:
            return self.radius
        points, _ = next(sampled(self.path(), ARC_FIT))
        return max(math.hypot(x, y) for x, y in points)

    @cached_property
    def area(self) -> float:
        """What the curve encloses, mm2: the polygon of its chords and the segments beyond them."""
        points = [point for point, _ in self.starts]
        segments = (
            (bend.length / bend.turn) ** 2 / 2 * (bend.turn - math.sin(bend.turn))
            for bend in self.bends
            if abs(bend.turn) > ROUNDING
        )
        return signed_area(points) + sum(segments)

    @property
    def radius(self) -> float | None:
        """The radius of a circle, or None for any other curve."""
        rate = math.tau / self.girth
        even = all(abs(bend.turn - rate * bend.length) < ROUNDING for bend in self.bends)
        return 1 / rate if even else None

    @property
    def is_convex(self) -> bool:
        """Whether the curve has no hollow."""
        return all(bend.turn >= -ROUNDING for bend in self.bends)

    @cached_property
    def corner_spans(self) -> tuple[tuple[float, float], ...]:
        """From where to where each corner turns, in order; of a sharp one both are the same.

        A corner at the back starts before 0.
        """
        spans = [
            (end - bend.length, end)
            for bend, end in zip(self.bends, self.ends, strict=True)
            if bend.corner
        ]
        merged: list[tuple[float, float]] = []
        for start, end in spans:
            if merged and start - merged[-1][1] < ROUNDING:
                merged[-1] = (merged[-1][0], end)
            else:
                merged.append((start, end))
        # a corner at the back is in two halves
        if len(merged) > 1 and merged[0][0] < ROUNDING and self.girth - merged[-1][1] < ROUNDING:
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
        return (self.state(s - CORNER_REACH)[1] + self.state(s + CORNER_REACH)[1]) / 2

    def direction(self, s: float) -> float:
        """Return the direction of the curve from arc length ``s`` on, radians."""
        return self.state(s)[1]

    def turned_to(self, heading: float) -> float:
        """Return the arc length from which on a convex curve has turned to a direction, radians."""
        left = (heading - self.heading) % math.tau
        for bend, end in zip(self.bends, self.ends, strict=True):
            if bend.turn > ROUNDING and left <= bend.turn:
                return end - bend.length * (1 - left / bend.turn)
            left -= bend.turn
        return self.girth

    def normal(self, s: float) -> Point:
        """Return the outward direction at arc length ``s``, of length 1."""
        heading = self.heading_at(s)
        return math.sin(heading), -math.cos(heading)

    def state(self, s: float) -> tuple[Point, float]:
        """Return point and direction at arc length ``s`` from the back."""
        ends = self.ends
        turns, rest = divmod(s, ends[-1])
        index = min(bisect_right(ends, rest), len(ends) - 1)
        bend = self.bends[index]
        start = ends[index] - bend.length
        share = (rest - start) / bend.length if bend.length else 0.0
        point, heading = bend.after(*self.starts[index], share)
        return point, heading + turns * math.tau

    def path(self) -> Path:
        """Return the curve as lines and cubics, from the back, counter-clockwise."""
        commands: list[Command] = [("moveTo", (self.start,))]
        for bend, (start, heading), (end, _) in zip(
            self.bends, self.starts, self.starts[1:], strict=False
        ):
            if not bend.length:
                continue
            if abs(bend.turn) < ROUNDING:
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

    def outside(self, s: float, by: float) -> Point:
        """Return the point ``by`` mm outside the curve at arc length ``s``, square to it."""
        (x, y), (nx, ny) = self.at(s), self.normal(s)
        return x + by * nx, y + by * ny

    def scaled(self, factor: float) -> Outline:
        """Return the outline ``factor`` times as large about the origin."""
        bends = tuple(Bend(b.length * factor, b.turn, b.corner) for b in self.bends)
        return Outline((self.start[0] * factor, self.start[1] * factor), self.heading, bends)


def starting_at_back(start: Point, heading: float, bends: Iterable[Bend]) -> Outline:
    """Return a closed curve whose arc length starts at the back: on the y axis, the most behind."""
    # no segment turns so far that it crosses the axis twice
    pieces = (part for bend in bends for part in bend.parts(math.pi / 4))
    given = Outline(start, heading, tuple(pieces))
    found = starting_from(given, *back_of(given))
    return Outline((0.0, found.start[1]), found.heading, found.bends)


def back_of(outline: Outline) -> tuple[int, float]:
    """Return on which segment of a curve its back lies, and at which share of it."""
    return max(_on_axis(outline), key=lambda found: _behind(outline, *found))


def starting_from(outline: Outline, index: int, share: float) -> Outline:
    """Return the same curve whose arc length starts at a share of a segment."""
    pieces, bend = outline.bends, outline.bends[index]
    point, heading = bend.after(*outline.starts[index], share)
    turned = (bend.part(share, 1), *pieces[index + 1 :], *pieces[:index], bend.part(0, share))
    kept = tuple(part for part in turned if part.length > ROUNDING or abs(part.turn) > ROUNDING)
    return Outline(point, heading, kept)


def _behind(outline: Outline, index: int, share: float) -> tuple[float, bool]:
    """Return how far back a place lies, and whether it is a sharp corner, for comparing."""
    bend = outline.bends[index]
    return round(bend.after(*outline.starts[index], share)[0][1], 9), not bend.length


def _on_axis(outline: Outline) -> list[tuple[int, float]]:
    """Return where segments meet the y axis: the index of each, and at which share of it."""
    found = []
    for index, bend in enumerate(outline.bends):
        state = outline.starts[index]
        first, last = state[0][0], outline.starts[index + 1][0][0]
        if abs(first) < ROUNDING and not bend.length:
            # a sharp corner on the axis is halved
            found.append((index, 0.5))
        elif first * last < 0:
            low, high = 0.0, 1.0
            for _ in range(60):
                middle = (low + high) / 2
                x = bend.after(*state, middle)[0][0]
                low, high = (middle, high) if x * first > 0 else (low, middle)
            found.append((index, (low + high) / 2))
        elif abs(first) < ROUNDING:
            found.append((index, 0.0))
    if not found:
        raise GeometryError("the outline does not go round the middle of its box")
    return found
