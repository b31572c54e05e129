"""The decorator's own artwork: an SVG file read as lines and outlines.

The file is checked before it is drawn: it may define no entities, fetch nothing from elsewhere, and
have only so many elements, each counted as often as it is used. svgelements then applies what an
SVG can say of size and place: units, viewBox, groups, transforms, basic shapes.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from xml.etree.ElementTree import Element, ParseError

from defusedxml import DefusedXmlException
from defusedxml.ElementTree import fromstring
from fontTools.misc.transform import Transform

from templates_gen.errors import GeometryError
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import Path
from templates_gen.memo import Memo

LARGEST_FILE = 2_000_000
"""Bytes of a file that are read at the most."""
MOST_ELEMENTS = 5_000
MOST_CURVES = 2_000
"""Lines and curves of all paths together."""
_LINK = "{http://www.w3.org/1999/xlink}href"
_TEXTS = {"text", "tspan", "textPath", "tref"}
_POSITIONS = {
    "circle": ("cx", "cy"),
    "ellipse": ("cx", "cy"),
    "rect": ("x", "y"),
    "line": ("x1", "y1", "x2", "y2"),
}
_SIZES = {"circle": ("r",), "ellipse": ("rx", "ry"), "rect": ("width", "height", "rx", "ry")}
_OF_POINTS, _BETWEEN = {"polygon", "polyline"}, " ,\t\r\n"
"""Elements that have points, and what lies between the numbers of those."""
_NUMBER = re.compile(r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:e[+-]?\d+)?", re.IGNORECASE)
_LENGTH = re.compile(rf"\s*(?:{_NUMBER.pattern}\s*[a-z%]*|auto)?\s*", re.IGNORECASE)
_NEGATIVE = re.compile(r"\s*-[0.]*[1-9]")
_PICTURES = {"image", "foreignObject", "video", "iframe", "canvas"}


@dataclass(frozen=True, slots=True)
class Artwork:
    """Lines and outlines with the upper left of the box round them at (0, 0), y down."""

    paths: tuple[Path, ...]

    @property
    def box(self) -> Box:
        """The box round all of it."""
        return union_box(path.bounds for path in self.paths)

    def fitted(self, width: float, height: float) -> Artwork:
        """Return it as large as fits a box, in its own proportions."""
        box = self.box
        factor = min(
            width / box.width if box.width else height / box.height,
            height / box.height if box.height else width / box.width,
        )
        return Artwork(tuple(path.scaled(factor) for path in self.paths))

    def placed(self, x: float, y: float, *, mirrored: bool = False) -> tuple[Path, ...]:
        """Return its paths with the middle of its box at (x, y)."""
        middle = self.box.centre
        way = -1 if mirrored else 1
        move = Transform(way, 0, 0, 1, x - way * middle[0], y - middle[1])
        return tuple(path.transformed(move) for path in self.paths)


_READ = Memo(16)
"""The last files that were read: one is drawn at every repeat, and at every edit."""


def read_artwork(content: bytes) -> Artwork:
    """Return the visible lines and outlines of an SVG file. What is filled is closed.

    Raises GeometryError, in words for the decorator, for anything else.
    """
    return _READ.get(content, lambda: _read(content))


def _read(content: bytes) -> Artwork:
    root = _checked(content)
    from templates_gen.drawing.svg_shapes import FARTHEST, shapes  # a large library, seldom needed

    paths = shapes(root)
    if not paths:
        raise GeometryError("the SVG shows no lines or shapes")
    if sum(len(path.commands) for path in paths) > MOST_CURVES:
        raise GeometryError(f"the SVG has over {MOST_CURVES} lines and curves: simplify it")
    box = union_box(path.bounds for path in paths)
    if not all(abs(side) < FARTHEST for side in box) or max(box.width, box.height) <= 0:
        raise GeometryError("the SVG has no size, or one out of all measure")
    return Artwork(tuple(path.moved(-box.x0, -box.y0) for path in paths))


def _checked(content: bytes) -> Element:
    """Return the elements of a file that is safe to draw."""
    if len(content) > LARGEST_FILE:
        raise GeometryError(f"the SVG is larger than {LARGEST_FILE // 1_000_000} MB: simplify it")
    try:
        root: Element = fromstring(content, forbid_entities=True, forbid_external=True)
    except DefusedXmlException:
        raise GeometryError(
            "the SVG defines entities, which are not read: save it as plain SVG"
        ) from None
    except (ParseError, ValueError, LookupError):
        raise GeometryError("the file is no SVG") from None
    if _name(root) != "svg":
        raise GeometryError(f"the file is no SVG but “{_name(root)[:20]}”")
    _refuse_foreign(root)
    _refuse_wrong(root)
    _count(root)
    return root


def _name(element: Element) -> str:
    tag = element.tag
    return tag.rpartition("}")[2] if isinstance(tag, str) else ""


def _refuse_foreign(root: Element) -> None:
    for element in root.iter():
        name = _name(element)
        if name in _TEXTS:
            raise GeometryError("the SVG has text: convert it to outlines in the drawing program")
        if name in _PICTURES:
            raise GeometryError("the SVG has a picture in it: trace it to lines first")
        link = _link(element)
        if name == "use" and link and not link.startswith("#"):
            raise GeometryError("the SVG uses parts of other files: put them into this one")


def _refuse_wrong(root: Element) -> None:
    """Refuse a number of a shape that is none, and a size that is negative.

    SVG 1.1, 9.2 to 9.4: “A negative value is an error”. Programs differ in what they show of it.
    """
    for element in root.iter():
        name = _name(element)
        for key in (*_POSITIONS.get(name, ()), *_SIZES.get(name, ())):
            value = element.get(key, "")
            if not _LENGTH.fullmatch(value):
                raise GeometryError(f"the SVG has a {name} whose {key} is no number: {value[:20]}")
            if key in _SIZES.get(name, ()) and _NEGATIVE.match(value):
                raise GeometryError(f"the SVG has a {name} whose {key} is negative: {value[:20]}")
        if name in _OF_POINTS and _NUMBER.sub("", element.get("points", "")).strip(_BETWEEN):
            raise GeometryError(f"the SVG has a {name} whose points are not all numbers")


def _link(element: Element) -> str:
    return element.get("href") or element.get(_LINK) or ""


def _count(root: Element) -> None:
    """Refuse more elements than can be drawn, counting what is used again as often as that."""
    by_id = {element.get("id"): element for element in root.iter() if element.get("id")}
    sizes: dict[int, int] = {}
    open_: Counter[int] = Counter()

    def size(element: Element, depth: int) -> int:
        key = id(element)
        if key in sizes:
            return sizes[key]
        if open_[key] or depth > 200:
            raise GeometryError("the SVG is nested too deeply, or uses a part within itself")
        open_[key] += 1
        total = 1 + sum(size(child, depth + 1) for child in element)
        if _name(element) == "use" and (used := by_id.get(_link(element)[1:])) is not None:
            total += size(used, depth + 1)
        open_[key] -= 1
        sizes[key] = total
        return total

    if size(root, 0) > MOST_ELEMENTS:
        raise GeometryError(f"the SVG has over {MOST_ELEMENTS} elements: simplify it")
