"""Path data of SVG, read as one closed outline or as one open line."""

from __future__ import annotations

from templates_gen.errors import DAMAGED, GeometryError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import FLIP, PathPen

LONGEST = 50_000
"""Characters of path data that are read at the most."""
MOST_EDGES = 200
"""Lines and curves of an outline: more cannot be followed with paste."""


def read_outline(data: str) -> Path:
    """Return path data as one closed contour, y up. Raises GeometryError for anything else."""
    path = read_path(data)
    names = [name for name, _ in path.commands]
    if names.count("moveTo") != 1 or names[-1:] != ["closePath"] or len(names) < 3:
        raise GeometryError("the path is not one closed curve: it must start once, and end with Z")
    if len(names) - 2 > MOST_EDGES:
        raise GeometryError(
            f"the path has {len(names) - 2} lines and curves, more than {MOST_EDGES}"
        )
    region(path)  # refuses a curve that crosses itself
    return path


def read_path(data: str) -> Path:
    """Return path data as drawn, y up. Raises GeometryError where it is none."""
    if len(data) > LONGEST:
        raise GeometryError(f"the path has over {LONGEST} characters")
    from templates_gen.geometry.path_data import draw  # a large library, seldom needed

    pen = PathPen(FLIP)
    try:
        draw(data, pen)
    except DAMAGED:
        raise GeometryError("the text is no SVG path data") from None
    if not all(_finite(points) for points, _ in sampled(pen.path)):
        raise GeometryError("the path has a number out of all measure")
    return pen.path


def _finite(points: list[Point]) -> bool:
    return all(abs(x) < 1e6 and abs(y) < 1e6 for x, y in points)
