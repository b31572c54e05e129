"""Points, intervals and upright boxes, in mm."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from fontTools.misc.transform import Transform

Point = tuple[float, float]
Span = tuple[float, float]
"""An interval: from where to where."""


class Box(NamedTuple):
    """An upright rectangle from (x0, y0) lower left to (x1, y1) upper right, mm."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def width(self) -> float:
        """Extent in x, mm."""
        return self.x1 - self.x0

    @property
    def height(self) -> float:
        """Extent in y, mm."""
        return self.y1 - self.y0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, mm."""
        return self.width, self.height

    @property
    def centre(self) -> Point:
        """The middle point."""
        return (self.x0 + self.x1) / 2, (self.y0 + self.y1) / 2

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """The four corners, counter-clockwise from the lower left."""
        return ((self.x0, self.y0), (self.x1, self.y0), (self.x1, self.y1), (self.x0, self.y1))

    def expanded(self, by: float) -> Box:
        """Return the box with every edge moved outwards by ``by`` mm."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def moved(self, dx: float, dy: float) -> Box:
        """Return the box moved by (dx, dy)."""
        return Box(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)

    def contains(self, other: Box, slack: float = 1e-9) -> bool:
        """Tell whether ``other`` lies inside, edges included."""
        return (
            other.x0 >= self.x0 - slack
            and other.y0 >= self.y0 - slack
            and other.x1 <= self.x1 + slack
            and other.y1 <= self.y1 + slack
        )

    def meets(self, other: Box) -> bool:
        """Tell whether both boxes have a point in common."""
        across = self.x0 <= other.x1 and self.x1 >= other.x0
        return across and self.y0 <= other.y1 and self.y1 >= other.y0

    def intersection(self, other: Box) -> Box | None:
        """Return the part both boxes cover, or None when it has no area."""
        box = Box(
            max(self.x0, other.x0),
            max(self.y0, other.y0),
            min(self.x1, other.x1),
            min(self.y1, other.y1),
        )
        return box if box.width > 0 and box.height > 0 else None

    def transformed(self, transform: Transform) -> Box:
        """Return the upright box round this box after ``transform``."""
        return Box.round(transform.transformPoints(self.corners))

    @classmethod
    def round(cls, points: Iterable[Point]) -> Box:
        """Return the smallest box round at least one point."""
        xs, ys = zip(*points, strict=True)
        return cls(min(xs), min(ys), max(xs), max(ys))


def gaps(start: float, end: float, taken: Iterable[Span]) -> Iterator[Span]:
    """Yield what other intervals leave of one, in order."""
    for low, high in sorted(taken):
        if start < min(low, end):
            yield start, min(low, end)
        start = max(start, high)
    if start < end:
        yield start, end


def nearest_count(length: float, wanted: float, multiple: int = 1) -> int:
    """Return the count, divisible by ``multiple``, whose equal parts come nearest to ``wanted``."""
    few = max(1, math.floor(length / wanted / multiple)) * multiple
    return min((few, few + multiple), key=lambda count: abs(length / count - wanted))


def between(start: Point, end: Point, share: float) -> Point:
    """Return the point at a share of the way from one point to another."""
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def union_box(boxes: Iterable[Box]) -> Box:
    """Return the smallest box round at least one box."""
    x0s, y0s, x1s, y1s = zip(*boxes, strict=True)
    return Box(min(x0s), min(y0s), max(x1s), max(y1s))
