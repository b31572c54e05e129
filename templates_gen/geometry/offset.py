"""The offset of an outline: its segments lengthened and cut off where they cross."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.geometry.arc_fitting import from_path
from templates_gen.geometry.areas.booleans import buffered_edge, is_simple
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Bend, Outline, starting_at_back
from templates_gen.geometry.tolerances import ARC_FIT, ROUNDING


@dataclass(frozen=True, slots=True)
class Laid:
    """A segment where it lies."""

    start: Point
    heading: float
    bend: Bend

    def at(self, share: float) -> tuple[Point, float]:
        """Return point and heading at a share of the segment."""
        return self.bend.after(self.start, self.heading, share)

    def beside(self, point: Point) -> float:
        """Return how far a point lies to the left of the line or circle the segment is part of."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        sin, cos = math.sin(self.heading), math.cos(self.heading)
        if abs(self.bend.turn) < ROUNDING:
            return dy * cos - dx * sin
        radius = self.bend.length / self.bend.turn
        from_centre = math.hypot(dx + radius * sin, dy - radius * cos)
        return (abs(radius) - from_centre) * math.copysign(1.0, radius)

    def share_of(self, point: Point) -> float:
        """Return the share of the segment at which a point on its line or circle lies."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        sin, cos = math.sin(self.heading), math.cos(self.heading)
        if abs(self.bend.turn) < ROUNDING:
            return (dx * cos + dy * sin) / self.bend.length
        radius = self.bend.length / self.bend.turn
        turned = math.atan2((dx * cos + dy * sin) / radius, 1 - (dy * cos - dx * sin) / radius)
        return math.remainder(turned - self.bend.turn / 2, math.tau) / self.bend.turn + 0.5


def offset(outline: Outline, by: float) -> Outline:
    """Return the outline ``by`` mm outside another, square to the curve; inside below 0.

    Raises GeometryError where that leaves nothing, or more than one piece.
    """
    if outline.base is not None:
        return offset(outline.base, outline.layer + by)
    if abs(by) < ROUNDING:
        return outline
    bends = tuple(Bend(b.length + by * b.turn, b.turn, b.corner) for b in outline.bends)
    if outline.is_convex and all(bend.length >= 0 for bend in bends):
        return Outline(outline.outside(0.0, by), outline.heading, bends)
    trimmed = _trimmed(outline, by)
    if trimmed is not None:
        return trimmed
    fitted = from_path(buffered_edge(outline.path(), by, ARC_FIT))
    return _cornered(Outline(fitted.start, fitted.heading, fitted.bends, outline, by), outline, by)


def _cornered(found: Outline, base: Outline, by: float) -> Outline:
    """Return an offset with the corners of its base marked where they come nearest."""
    marked = set()
    for corner in (base.outside(s, by) for s in base.corners):
        near = [math.dist(corner, point) for point, _ in found.starts[:-1]]
        marked.add(near.index(min(near)))
    bends = tuple(
        Bend(bend.length, bend.turn, index in marked) for index, bend in enumerate(found.bends)
    )
    return Outline(found.start, found.heading, bends, base, by)


def _trimmed(outline: Outline, by: float) -> Outline | None:
    """Return the outline ``by`` mm outside another, made of the same segments, lengthened.

    At a sharp corner an arc comes between two segments, or, on its inner side, both end where they
    cross. None where a segment vanishes or others than neighbours cross.
    """
    laid, turns = segments(outline)
    longer = [_lengthened(each, by) for each in laid]
    if any(each.bend.length <= 0 for each in longer):
        return None
    starts, ends = [0.0] * len(longer), [1.0] * len(longer)
    joints: list[Bend | None] = []
    for index, corner in enumerate(turns):
        after = (index + 1) % len(longer)
        joint: Bend | None = None
        if corner is not None and corner.turn * by >= 0:
            joint = Bend(by * corner.turn, corner.turn, corner.corner)
        elif corner is not None:
            crossing = _crossing(longer[index], longer[after])
            if crossing is None:
                return None
            ends[index], starts[after] = crossing
            headings = longer[index].at(ends[index])[1], longer[after].at(starts[after])[1]
            joint = Bend(0.0, math.remainder(headings[1] - headings[0], math.tau), corner.corner)
        joints.append(joint)
    if any(start >= end for start, end in zip(starts, ends, strict=True)):
        return None
    bends = []
    for each, start, end, joint in zip(longer, starts, ends, joints, strict=True):
        bends += [each.bend.part(start, end), *([joint] if joint else [])]
    found = starting_at_back(*longer[0].at(starts[0]), bends)
    return found if is_simple(found.path()) else None


def segments(outline: Outline) -> tuple[list[Laid], list[Bend | None]]:
    """Return the segments that have a length, and the sharp corner after each, if there is one."""
    states = zip(outline.starts, outline.bends, strict=False)
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


def _lengthened(each: Laid, by: float) -> Laid:
    (x, y), bend = each.start, each.bend
    start = x + by * math.sin(each.heading), y - by * math.cos(each.heading)
    return Laid(start, each.heading, Bend(bend.length + by * bend.turn, bend.turn, bend.corner))


_LOOKS = 64
"""Places on a segment between which a crossing is looked for."""


def _crossing(one: Laid, other: Laid) -> tuple[float, float] | None:
    """Return at which shares of both a segment crosses the next: the last such place."""
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
        if -ROUNDING <= share <= 1 + ROUNDING:
            return low, min(max(share, 0.0), 1.0)
    return None
