"""Paths of lines and cubics, in mm, y up. They draw themselves to a pen.

A pen is any object with the five methods of the fontTools pen protocol, so the pens of fontTools
(bounds, transform, SVG path, reportlab, recording) serve as they are.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple, Protocol

from fontTools.misc.bezierTools import calcCubicBounds
from fontTools.misc.transform import Transform
from fontTools.pens.areaPen import AreaPen

Point = tuple[float, float]
Command = tuple[str, tuple[Point, ...]]

CIRCLE_CUBICS = 8
"""Cubics to a full circle: the radial error stays under 5e-6 of the radius."""


class Pen(Protocol):
    """What a path draws itself to."""

    def moveTo(self, pt: Point) -> None:  # noqa: N802 (the pen protocol of fontTools)
        """Start a contour."""

    def lineTo(self, pt: Point) -> None:  # noqa: N802
        """Draw a straight line."""

    def curveTo(self, *points: Point) -> None:  # noqa: N802
        """Draw a cubic: two control points and the end."""

    def closePath(self) -> None:  # noqa: N802
        """End the contour with a line back to its start."""

    def endPath(self) -> None:  # noqa: N802
        """End the contour open."""


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
        return (
            (self.x0, self.y0),
            (self.x1, self.y0),
            (self.x1, self.y1),
            (self.x0, self.y1),
        )

    def grown(self, by: float) -> Box:
        """Return the box with every edge moved outwards by ``by`` mm."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def moved(self, dx: float, dy: float) -> Box:
        """Return the box moved by (dx, dy)."""
        return Box(self.x0 + dx, self.y0 + dy, self.x1 + dx, self.y1 + dy)

    def holds(self, other: Box, slack: float = 1e-9) -> bool:
        """Tell whether ``other`` lies inside, edges included."""
        return (
            other.x0 >= self.x0 - slack
            and other.y0 >= self.y0 - slack
            and other.x1 <= self.x1 + slack
            and other.y1 <= self.y1 + slack
        )

    def common(self, other: Box) -> Box | None:
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


def joined(boxes: Iterable[Box]) -> Box:
    """Return the smallest box round at least one box."""
    x0s, y0s, x1s, y1s = zip(*boxes, strict=True)
    return Box(min(x0s), min(y0s), max(x1s), max(y1s))


@dataclass(frozen=True, slots=True)
class Path:
    """One or more contours, as the pen commands that draw them."""

    commands: tuple[Command, ...]

    def draw(self, pen: Pen) -> None:
        """Replay the path to ``pen``."""
        for name, points in self.commands:
            getattr(pen, name)(*points)

    def transformed(self, transform: Transform) -> Path:
        """Return the path mapped by an affine transform."""
        # written out: it is done to every line of a pack, several times
        xx, xy, yx, yy, dx, dy = transform
        return Path(
            tuple(
                (name, tuple((xx * x + yx * y + dx, xy * x + yy * y + dy) for x, y in points))
                for name, points in self.commands
            )
        )

    def moved(self, dx: float, dy: float) -> Path:
        """Return the path moved by (dx, dy)."""
        return self.transformed(Transform(1, 0, 0, 1, dx, dy))

    def scaled(self, factor: float) -> Path:
        """Return the path ``factor`` times as large about (0, 0)."""
        return self.transformed(Transform(factor, 0, 0, factor, 0, 0))

    @property
    def bounds(self) -> Box:
        """The smallest box round the drawn line (not round its control points)."""
        reached: list[Point] = []
        for name, points in self.commands:
            # a curve whose controls lie between its ends goes nowhere beyond these
            if name == "curveTo" and not _within(reached[-1], *points):
                x0, y0, x1, y1 = calcCubicBounds(reached[-1], *points)
                reached += ((x0, y0), (x1, y1))
            reached += points[-1:]
        return Box.round(reached)

    @property
    def area(self) -> float:
        """The area that one closed contour goes round, mm², exactly: by Green's theorem."""
        pen = AreaPen()
        self.draw(pen)
        return abs(float(pen.value))

    def __add__(self, other: Path) -> Path:
        return Path(self.commands + other.commands)


def _within(start: Point, first: Point, second: Point, end: Point) -> bool:
    """Tell whether both controls of a curve lie in the box of its ends."""
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = start, first, second, end
    left, right = (x0, x3) if x0 < x3 else (x3, x0)
    low, high = (y0, y3) if y0 < y3 else (y3, y0)
    across = left <= x1 <= right and left <= x2 <= right
    return across and low <= y1 <= high and low <= y2 <= high


EMPTY = Path(())


def straights(path: Path) -> Iterator[tuple[Point, Point]]:
    """Yield the straight lines of a path, those that close a contour included."""
    first = here = (0.0, 0.0)
    for name, points in path.commands:
        there = points[-1] if points else first
        if name == "moveTo":
            first = there
        elif name in ("lineTo", "closePath"):
            yield here, there
        here = there


def polyline(points: Sequence[Point], *, closed: bool = False) -> Path:
    """Return straight lines through ``points``."""
    first, *rest = points
    return Path(
        (
            ("moveTo", (first,)),
            *(("lineTo", (point,)) for point in rest),
            ("closePath" if closed else "endPath", ()),
        )
    )


def line(start: Point, end: Point) -> Path:
    """Return the straight line from ``start`` to ``end``."""
    return polyline((start, end))


def rectangle(box: Box) -> Path:
    """Return the outline of ``box``."""
    return polyline(box.corners, closed=True)


def arc_cubics(
    centre: Point, radius: float, start: float, sweep: float, cubics: int = CIRCLE_CUBICS
) -> tuple[Command, ...]:
    """Return the cubics of an arc from the angle ``start`` over ``sweep``, radians, no moveTo.

    A full circle has as many ``cubics``. Handle length 4/3 tan(angle / 4) of the radius,
    which puts the middle of each cubic exactly on the circle.
    """
    pieces = max(1, math.ceil(abs(sweep) / math.tau * cubics - 1e-9))
    step = sweep / pieces
    handle = 4 / 3 * math.tan(step / 4) * radius
    cx, cy = centre
    commands: list[Command] = []
    for index in range(pieces):
        a, b = start + index * step, start + (index + 1) * step
        ax, ay, bx, by = math.cos(a), math.sin(a), math.cos(b), math.sin(b)
        commands.append(
            (
                "curveTo",
                (
                    (cx + radius * ax - handle * ay, cy + radius * ay + handle * ax),
                    (cx + radius * bx + handle * by, cy + radius * by - handle * bx),
                    (cx + radius * bx, cy + radius * by),
                ),
            )
        )
    return tuple(commands)


def circle(centre: Point, radius: float, start: float = 0.0) -> Path:
    """Return a full circle, counter-clockwise from the angle ``start`` (radians)."""
    begin = (centre[0] + radius * math.cos(start), centre[1] + radius * math.sin(start))
    cubics = arc_cubics(centre, radius, start, math.tau)
    return Path((("moveTo", (begin,)), *cubics, ("closePath", ())))
