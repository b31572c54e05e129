"""The shapes of an SVG as paths, with all that it says of size and place.

svgelements works that out: units, viewBox, groups, transforms, basic shapes. The path data is read
as that of a cake file is.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from xml.etree.ElementTree import Element, tostring

import svgelements
from fontTools.misc.transform import Transform

from templates_gen.errors import DAMAGED, GeometryError
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_data import draw
from templates_gen.geometry.path_pen import PathPen

FARTHEST = 1e7
"""A number of an SVG that is larger has no meaning."""


def shapes(root: Element) -> list[Path]:
    """Return the visible shapes of an SVG, y down. What is filled is closed.

    Raises GeometryError, in words for the decorator, where one cannot be drawn.
    """
    try:
        found = svgelements.SVG.parse(
            BytesIO(tostring(root)), reify=False, width=1000, height=1000, on_error="raise"
        )
        return [path for shape in found.elements() for path in _drawn(shape)]
    except DAMAGED:
        raise GeometryError("the SVG has a part that cannot be drawn") from None


def _drawn(shape: object) -> Iterator[Path]:
    """Yield a visible shape as a path; one that is filled has its contours closed."""
    if not isinstance(shape, svgelements.Shape):
        return
    filled, stroked = (_inked(paint) for paint in (shape.fill, shape.stroke))
    if shape.values.get("visibility") in ("hidden", "collapse") or not (filled or stroked):
        return
    # not as svgelements reads it, which leaves out what follows an error, silently
    is_path = isinstance(shape, svgelements.Path)
    data = shape.values.get("d", "") if is_path else svgelements.Path(shape).d(transformed=False)
    onto = shape.transform
    matrix = Transform(onto.a, onto.b, onto.c, onto.d, onto.e, onto.f)
    pen = _ShapePen(matrix, closed=filled)
    draw(data, pen, coarser=True)
    if pen.path.commands and pen.path.bounds.width + pen.path.bounds.height > 0:
        yield pen.path


def _inked(paint: svgelements.Color | None) -> bool:
    return paint is not None and paint.value is not None and paint.opacity != 0


class _ShapePen(PathPen):
    """Collect the contours that have a length; ``closed`` closes those that are left open."""

    def __init__(self, transform: Transform, *, closed: bool) -> None:
        super().__init__(transform)
        self._closed = closed

    def _add(self, name: str, *points: Point) -> None:
        if not all(abs(x) < FARTHEST and abs(y) < FARTHEST for x, y in points):
            raise GeometryError("the SVG has a number out of all measure")
        if name == "endPath" and self._commands[-1][0] == "moveTo":
            self._commands.pop()
            return
        super()._add("closePath" if name == "endPath" and self._closed else name, *points)
