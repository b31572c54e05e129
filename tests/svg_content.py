"""What an SVG draws, read with lxml and svgelements, in mm."""

from __future__ import annotations

from collections.abc import Iterable
from io import BytesIO
from typing import Any, NamedTuple

from lxml import etree
from svgelements import SVG, Close, CubicBezier, Group, Move
from svgelements import Path as SvgPath

SVG_NAME = "{http://www.w3.org/2000/svg}"
NOT_LINES = ("labels",)
"""The groups of a piece's SVG that are not lines of the piece."""


class Extent(NamedTuple):
    """A box in mm as SVG counts: y down."""

    left: float
    top: float
    right: float
    foot: float

    @property
    def size(self) -> tuple[float, float]:
        """Width and height, mm."""
        return self.right - self.left, self.foot - self.top


def without_groups(svg: bytes, *names: str) -> bytes:
    """Return an SVG without some of its outermost groups."""
    root = etree.fromstring(svg)
    for group in root.findall("{*}g"):
        if group.get("id") in names:
            root.remove(group)
    return bytes(etree.tostring(root))


def groups(svg: bytes) -> dict[str, list[Any]]:
    """Return the paths in each outermost group by its id, as svgelements reads them."""
    # at 25.4 pixels to the inch svgelements speaks in mm
    read = SVG.parse(BytesIO(svg), ppi=25.4)
    outermost = [each for each in read if isinstance(each, Group)]
    return {
        each.id: list(each.select(lambda part: isinstance(part, SvgPath))) for each in outermost
    }


def extent(paths: Iterable[Any]) -> Extent:
    """Return the box round paths, true to their curves."""
    left, top, right, foot = zip(*(path.bbox() for path in paths), strict=True)
    return Extent(min(left), min(top), max(right), max(foot))


def piece_extent(svg: bytes) -> Extent:
    """Return the box round the lines of a piece."""
    lines = {name: paths for name, paths in groups(svg).items() if name not in NOT_LINES}
    return extent(path for paths in lines.values() for path in paths)


def points(path: Any) -> list[tuple[float, float]]:  # noqa: ANN401 (svgelements has no types)
    """Return every point a path is drawn by, control points too, in order."""
    found: list[Any] = []
    for segment in path:
        if isinstance(segment, CubicBezier):
            found += [segment.control1, segment.control2]
        if not isinstance(segment, Close):
            found.append(segment.end)
    return [(float(point.x), float(point.y)) for point in found]


def cut_short(svg: bytes, height: float) -> bytes:
    """Return an SVG in mm with its canvas ended ``height`` mm below its top."""
    root = etree.fromstring(svg)
    width = root.get("viewBox", "").split()[2]
    root.set("height", f"{height}mm")
    root.set("viewBox", f"0 0 {width} {height}")
    return bytes(etree.tostring(root))


def is_closed(path: Any) -> bool:  # noqa: ANN401 (svgelements has no types)
    """Tell whether every contour of a path is closed."""
    starts = [index for index, segment in enumerate(path) if isinstance(segment, Move)]
    ends = [*(start - 1 for start in starts[1:]), len(path) - 1]
    return all(isinstance(path[end], Close) for end in ends)


def rings(paths: Iterable[Any], steps: int = 24) -> list[list[tuple[float, float]]]:
    """Return the contours of paths as points on them, each cubic at ``steps`` places."""
    found: list[list[tuple[float, float]]] = []
    for path in paths:
        for segment in path:
            if isinstance(segment, Move):
                found.append([])
            many = steps if isinstance(segment, CubicBezier) else 1
            places = [segment.point(step / many) for step in range(1, many + 1)]
            found[-1] += [(float(place.x), float(place.y)) for place in places]
    return found
