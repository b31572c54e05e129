"""The shapes of an SVG as paths, with all that it says of size and place.

svgelements applies that: units, viewBox, groups, transforms, basic shapes.
"""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from xml.etree.ElementTree import Element, tostring

import svgelements

from templates_gen.errors import DAMAGED, GeometryError
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import PathPen

FARTHEST = 1e7
"""A number of an SVG that is larger has no meaning."""


def shapes(root: Element) -> list[Path]:
    """Return the visible shapes of an SVG, y down. What is filled is closed.

    Raises GeometryError, in words for the decorator, where one cannot be drawn.
    """
    try:
        found = svgelements.SVG.parse(
            BytesIO(tostring(root)), reify=True, width=1000, height=1000, on_error="raise"
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
    pen = PathPen()
    _draw(abs(svgelements.Path(shape)), pen, closed=filled)
    path = pen.path
    if path.commands and path.bounds.width + path.bounds.height > 0:
        yield path


def _inked(paint: svgelements.Color | None) -> bool:
    return paint is not None and paint.value is not None and paint.opacity != 0


def _draw(path: svgelements.Path, pen: PathPen, *, closed: bool) -> None:
    """Draw the contours of a path; ``closed`` closes those that are left open."""
    end = pen.closePath if closed else pen.endPath
    start: Point = (0.0, 0.0)
    is_open = False
    for segment in path:
        if isinstance(segment, svgelements.Move | svgelements.Close):
            if is_open:
                pen.closePath() if isinstance(segment, svgelements.Close) else end()
            is_open = False
            start = start if isinstance(segment, svgelements.Close) else _point(segment.end)
        else:
            if not is_open:
                pen.moveTo(start)
            is_open = True
            _draw_segment(segment, pen)
    if is_open:
        end()


def _draw_segment(segment: svgelements.PathSegment, pen: PathPen) -> None:
    """Draw one segment as a line or cubics."""
    if isinstance(segment, svgelements.QuadraticBezier):
        pen.qCurveTo(_point(segment.control), _point(segment.end))
    elif isinstance(segment, svgelements.CubicBezier):
        pen.curveTo(*map(_point, (segment.control1, segment.control2, segment.end)))
    elif isinstance(segment, svgelements.Arc):
        for cubic in segment.as_cubic_curves():
            _draw_segment(cubic, pen)
    else:
        pen.lineTo(_point(segment.end))


def _point(place: svgelements.Point) -> Point:
    x, y = float(place.x), float(place.y)
    if not (abs(x) < FARTHEST and abs(y) < FARTHEST):
        raise GeometryError("the SVG has a number out of all measure")
    return x, y
