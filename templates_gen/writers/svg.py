"""SVG of one piece, for vector editors and cutting machines, in true mm."""

from __future__ import annotations

from collections.abc import Iterable

import svgwrite
from fontTools.misc.transform import Transform
from fontTools.pens.svgPathPen import SVGPathPen
from svgwrite.base import BaseElement
from svgwrite.container import Group

from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Anchor, Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import Path, rectangle
from templates_gen.units import decimal

PLACES = 4
PAD = 2.0
"""Blank edge round the drawing, so that no line is cut in half, mm."""
CHECK_SIDE = 100.0
GAP = 6.0
"""Between the piece and the check square, mm."""


def number(value: float) -> str:
    """Write a coordinate in mm."""
    return decimal(value, PLACES)


def canvas(width: float, height: float) -> svgwrite.Drawing:
    """Return an empty SVG of a size in mm whose units are mm."""
    size = (number(width), number(height))
    return svgwrite.Drawing(
        size=tuple(f"{side}mm" for side in size), viewBox=f"0 0 {' '.join(size)}", debug=False
    )


def path_data(path: Path, transform: Transform) -> str:
    """Return the absolute path data of ``path`` mapped by ``transform``."""
    pen = SVGPathPen(None, ntos=number)
    path.transformed(transform).draw(pen)
    return str(pen.getCommands())


def group(drawing: svgwrite.Drawing, name: str, title: str) -> Group:
    """Return a named group with a title."""
    made = drawing.g(id=name, debug=False)
    made.set_desc(title=title)
    return made


def add_strokes(
    drawing: svgwrite.Drawing,
    parent: BaseElement,
    content: Drawing,
    transform: Transform,
    prefix: str = "",
) -> None:
    """Add one group for each role that occurs, its id the word of the role after ``prefix``."""
    for role in Role:
        paths = [stroke.path for stroke in content.strokes if stroke.role is role]
        if not paths:
            continue
        drawn = group(drawing, prefix + role.word, f"{role.word}: {role.meaning}")
        drawn.attribs.update(_line_style(role))
        for path in paths:
            drawn.add(drawing.path(d=path_data(path, transform)))
        parent.add(drawn)


def _line_style(role: Role) -> dict[str, str]:
    # round: no spike of a sharp corner reaches beyond half a line
    style = {"fill": "none", "stroke": "black", "stroke-linejoin": "round"}
    style["stroke-width"] = number(role.weight)
    if role.dashes:
        style["stroke-dasharray"] = " ".join(map(number, role.dashes))
    return style


def add_labels(
    drawing: svgwrite.Drawing,
    parent: BaseElement,
    labels: Iterable[Label],
    transform: Transform,
) -> None:
    """Add lettering as text in one group, apart from everything that is cut."""
    words = group(drawing, "labels", "labels: for reading only, not to cut")
    words.attribs["font-family"] = f"'{lettering.FAMILY}', sans-serif"
    for label in labels:
        words.add(_text(drawing, label, transform))
    parent.add(words)


def _text(drawing: svgwrite.Drawing, label: Label, transform: Transform) -> BaseElement:
    x, y = transform.transformPoint(label.at)
    item = drawing.text(label.text, insert=(number(x), number(y)))
    item.attribs["font-size"] = number(label.size)
    # keeps its width where another font stands in
    item.attribs["textLength"] = number(label.width)
    item.attribs["lengthAdjust"] = "spacingAndGlyphs"
    if label.anchor is not Anchor.START:
        item.attribs["text-anchor"] = label.anchor.name.lower()
    if label.bold:
        item.attribs["font-weight"] = "bold"
    if label.turn:
        item.attribs["transform"] = f"rotate({number(-label.turn)} {number(x)} {number(y)})"
    return item


def write_svg(piece: Piece, pack_mark: str = "") -> bytes:
    """Return one piece as an SVG file, with a removable 100 mm check square below it.

    The mark of the pack that it belongs to is in its description and in the square.
    """
    of_pack = f"pack mark {pack_mark}" if pack_mark else ""
    size = union_box([piece.size, *(label.box for label in piece.drawing.labels)])
    height = size.height + 2 * PAD + GAP + CHECK_SIDE
    drawing = canvas(max(size.width, CHECK_SIDE) + 2 * PAD, height)
    described = f"Cut {piece.copies}. {piece.use}"
    drawing.set_desc(title=piece.title, desc=f"{described} ({of_pack})" if of_pack else described)
    transform = Transform(1, 0, 0, -1, PAD - size.x0, PAD + size.y1)
    add_strokes(drawing, drawing, piece.drawing, transform)
    add_labels(drawing, drawing, piece.drawing.labels, transform)
    square = Box(PAD, height - PAD - CHECK_SIDE, PAD + CHECK_SIDE, height - PAD)
    check = group(drawing, "check-square", "check square: 100 mm each way; delete before cutting")
    side = drawing.path(d=path_data(rectangle(square), Transform()))
    side.attribs.update(_line_style(Role.NOTE))
    check.add(side)
    x, y = square.centre
    for index, words in enumerate(["100 mm", of_pack] if of_pack else ["100 mm"]):
        label = Label(words, (x, y + 8 * index), 5, Anchor.MIDDLE)
        check.add(_text(drawing, label, Transform()))
    drawing.add(check)
    return file_bytes(drawing)


def file_bytes(drawing: svgwrite.Drawing) -> bytes:
    """Return the file of a drawing."""
    text: str = drawing.tostring()
    return f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n'.encode()
