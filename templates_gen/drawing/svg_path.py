"""Path data of SVG, read as one closed outline or as one open line."""

from __future__ import annotations

from fontTools.svgLib.path import parse_path

from templates_gen.drawing.path import Path, Point
from templates_gen.drawing.path_pen import FLIP, PathPen
from templates_gen.drawing.polygons import region, sampled
from templates_gen.errors import GeometryError

LONGEST = 50_000
"""Characters of path data that are read at the most."""


def read_outline(data: str) -> Path:
    """Return path data as one closed contour, y up. Raises GeometryError for anything else."""
    path = read_path(data)
    names = [name for name, _ in path.commands]
    if names.count("moveTo") != 1 or names[-1:] != ["closePath"] or len(names) < 3:
        raise GeometryError("the path is not one closed curve: it must start once, and end with Z")
    region(path)  # refuses a curve that crosses itself
    return path


def read_path(data: str) -> Path:
    """Return path data as drawn, y up. Raises GeometryError where it is none."""
    if len(data) > LONGEST:
        raise GeometryError(f"the path has over {LONGEST} characters")
    pen = PathPen(FLIP)
    try:
        parse_path(data, pen)
    except (ValueError, IndexError, KeyError, AssertionError, OverflowError, TypeError):
        raise GeometryError("the text is no SVG path data") from None
    if not all(_finite(points) for points, _ in sampled(pen.path)):
        raise GeometryError("the path has a number out of all measure")
    return pen.path


def _finite(points: list[Point]) -> bool:
    return all(abs(x) < 1e6 and abs(y) < 1e6 for x, y in points)
