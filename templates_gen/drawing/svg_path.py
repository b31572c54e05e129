"""Path data of SVG, read as one closed outline."""

from __future__ import annotations

from fontTools.pens.basePen import BasePen
from fontTools.svgLib.path import parse_path

from templates_gen.drawing.path import Command, Path, Point
from templates_gen.drawing.polygons import region, sampled
from templates_gen.errors import GeometryError

LONGEST = 50_000
"""Characters of path data that are read at the most."""


class _Collector(BasePen):  # type: ignore[misc]  # the base class is untyped
    """Collect path data as lines and cubics, y up; BasePen raises quadratics to cubics."""

    def __init__(self) -> None:
        super().__init__(None)
        self.commands: list[Command] = []

    def _moveTo(self, pt: Point) -> None:  # noqa: N802 (the pen protocol)
        self.commands.append(("moveTo", (_up(pt),)))

    def _lineTo(self, pt: Point) -> None:  # noqa: N802
        self.commands.append(("lineTo", (_up(pt),)))

    def _curveToOne(self, pt1: Point, pt2: Point, pt3: Point) -> None:  # noqa: N802
        self.commands.append(("curveTo", (_up(pt1), _up(pt2), _up(pt3))))

    def _closePath(self) -> None:  # noqa: N802
        self.commands.append(("closePath", ()))

    def _endPath(self) -> None:  # noqa: N802
        self.commands.append(("endPath", ()))


def _up(point: Point) -> Point:
    return float(point[0]), -float(point[1])


def read_outline(data: str) -> Path:
    """Return path data as one closed contour, y up. Raises GeometryError for anything else."""
    if len(data) > LONGEST:
        raise GeometryError(f"the path has over {LONGEST} characters")
    pen = _Collector()
    try:
        parse_path(data, pen)
    except (ValueError, IndexError, KeyError, AssertionError, OverflowError, TypeError):
        raise GeometryError("the text is no SVG path data") from None
    names = [name for name, _ in pen.commands]
    if names.count("moveTo") != 1 or names[-1:] != ["closePath"] or len(names) < 3:
        raise GeometryError("the path is not one closed curve: it must start once, and end with Z")
    path = Path(tuple(pen.commands))
    region(path)  # refuses a curve that crosses itself
    if not all(_finite(points) for points, _ in sampled(path)):
        raise GeometryError("the path has a number out of all measure")
    return path


def _finite(points: list[Point]) -> bool:
    return all(abs(x) < 1e6 and abs(y) < 1e6 for x, y in points)
