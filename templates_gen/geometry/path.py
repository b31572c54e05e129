"""Paths of lines and cubics, in mm, y up. They draw themselves to a pen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import chain, pairwise
from typing import Protocol

from fontTools.misc.bezierTools import calcCubicBounds, splitCubicAtT
from fontTools.misc.transform import Scale, Transform
from fontTools.pens.areaPen import AreaPen

from templates_gen.geometry.box import Box, Point, between, union_box

Command = tuple[str, tuple[Point, ...]]
Edge = tuple[Point, ...]
"""A straight line by its two ends, or a cubic by its four points."""
_LETTERS = {"moveTo": "M", "lineTo": "L", "curveTo": "C", "closePath": "Z", "endPath": ""}
"""What path data of SVG has for each command of a pen."""


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


@dataclass(frozen=True)
class Path:
    """One or more contours, as the pen commands that draw them."""

    commands: tuple[Command, ...]

    def draw(self, pen: Pen) -> None:
        """Replay the path to ``pen``."""
        for name, points in self.commands:
            getattr(pen, name)(*points)

    def data(self, point: Callable[[Point], str]) -> str:
        """Return the path as path data of SVG, absolute; ``point`` writes one point."""
        # without a pen, which takes more than twice as long: the page sends much of it at each edit
        return "".join(
            [_LETTERS[name] + " ".join(map(point, points)) for name, points in self.commands]
        )

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
        return Path(
            tuple((name, tuple((x + dx, y + dy) for x, y in pts)) for name, pts in self.commands)
        )

    def scaled(self, factor: float) -> Path:
        """Return the path ``factor`` times as large about (0, 0)."""
        return self.transformed(Scale(factor))

    def centred(self, size: float) -> Path:
        """Return the path ``size`` mm at its longer side, with the middle of its box at (0, 0)."""
        box = self.bounds
        factor = size / max(box.size)
        x, y = box.centre
        return self.transformed(Transform(factor, 0, 0, factor, -x * factor, -y * factor))

    @cached_property
    def bounds(self) -> Box:
        """The smallest box round the drawn line (not round its control points)."""
        box = Box.round([points[-1] for _, points in self.commands if points])
        for (_, before), (name, points) in pairwise(self.commands):
            # a curve whose controls lie in the box so far goes nowhere beyond it
            if name == "curveTo" and not _within(box, *points):
                box = union_box((box, Box(*calcCubicBounds(before[-1], *points))))
        return box

    @property
    def area(self) -> float:
        """The area that one closed contour goes round, mm², exactly: by Green's theorem."""
        pen = AreaPen()
        self.draw(pen)
        return abs(float(pen.value))

    def __add__(self, other: Path) -> Path:
        return Path(self.commands + other.commands)


def _within(box: Box, first: Point, second: Point, _: Point) -> bool:
    """Tell whether both controls of a curve lie in a box."""
    left, low, right, high = box
    across = left <= first[0] <= right and left <= second[0] <= right
    return across and low <= first[1] <= high and low <= second[1] <= high


EMPTY = Path(())


def together(paths: Iterable[Path]) -> Path:
    """Return the contours of several paths as one path."""
    return Path(tuple(chain.from_iterable(path.commands for path in paths)))


def contours(path: Path) -> Iterator[tuple[list[Edge], bool]]:
    """Yield the edges of each contour, the one that closes it too, and whether it is closed.

    An open contour of one point has none.
    """
    edges: list[Edge] = []
    first = here = (0.0, 0.0)
    for name, points in path.commands:
        if name == "moveTo":
            first, edges = points[0], []
        elif name == "closePath":
            yield [*edges, (here, first)], True
        elif name == "endPath":
            if edges:
                yield edges, False
        else:
            edges.append((here, *points))
        here = points[-1] if points else first


def straights(path: Path) -> Iterator[tuple[Point, Point]]:
    """Yield the straight lines of a path, those that close a contour included."""
    for edges, _ in contours(path):
        yield from ((edge[0], edge[1]) for edge in edges if len(edge) == 2)


def contour(edges: Sequence[Edge], *, closed: bool = False) -> Path:
    """Return the contour of some edges, each from where the one before it ends."""
    drawn = (("lineTo" if len(edge) == 2 else "curveTo", edge[1:]) for edge in edges)
    return Path((("moveTo", edges[0][:1]), *drawn, ("closePath" if closed else "endPath", ())))


def part(edge: Edge, start: float, end: float) -> Edge:
    """Return the part of an edge between two shares of it; its own ends stay to the last digit."""
    if len(edge) == 2:
        found: Edge = (between(*edge, start), between(*edge, end))
    else:
        inner = [share for share in (start, end) if 0 < share < 1]
        found = splitCubicAtT(*edge, *inner)[0 if start == 0 else 1]
    return (edge[0] if start == 0 else found[0], *found[1:-1], edge[-1] if end == 1 else found[-1])


def backwards(path: Path) -> Path:
    """Return one open contour drawn from its end to its start."""
    ((edges, _),) = contours(path)
    return contour([edge[::-1] for edge in edges[::-1]])


def closed(edge: Path, back: Path) -> Path:
    """Return the outline that goes along one open line, then back along another."""
    (_, corner), *rest = back.commands[:-1]
    return Path((*edge.commands[:-1], ("lineTo", corner), *rest, ("closePath", ())))


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


def both_halves(right: Sequence[Point]) -> Path:
    """Return an outline by its right half: its start, then three points for each of its cubics.

    It goes back along the image of that half in x = 0.
    """
    points = [*right, *((-x, y) for x, y in right[-2::-1])]
    cubics = (("curveTo", tuple(points[at : at + 3])) for at in range(1, len(points), 3))
    return Path((("moveTo", (points[0],)), *cubics, ("closePath", ())))


def polygons(outlines: Iterable[Sequence[Point]]) -> Path:
    """Return closed polygons as one path."""
    return together(polyline(points, closed=True) for points in outlines)


def line(start: Point, end: Point) -> Path:
    """Return the straight line from ``start`` to ``end``."""
    return polyline((start, end))


def rectangle(box: Box) -> Path:
    """Return the outline of ``box``."""
    return polyline(box.corners, closed=True)
