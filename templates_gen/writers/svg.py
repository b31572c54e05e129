"""SVG of one piece, for vector editors and cutting machines, in true mm."""

from __future__ import annotations

from collections.abc import Iterable

import svgwrite
from fontTools.misc.transform import Transform
from svgwrite.base import BaseElement
from svgwrite.container import Group

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Fill, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Point, union_box
from templates_gen.geometry.path import Path
from templates_gen.units import decimal
from templates_gen.views.colours import to_hex

PLACES = 4
LAYERS = "http://www.inkscape.org/namespaces/inkscape"
"""The name space of the attributes that make a group a layer in editors."""
PAD = 2.0
"""Blank edge round the drawing, so that no line is cut in half, mm."""


def number(value: float) -> str:
    """Write a coordinate in mm."""
    return decimal(value, PLACES)


def canvas(width: float, height: float) -> svgwrite.Drawing:
    """Return an empty SVG of a size in mm whose units are mm."""
    size = (number(width), number(height))
    made = svgwrite.Drawing(
        size=tuple(f"{side}mm" for side in size), viewBox=f"0 0 {' '.join(size)}", debug=False
    )
    made.attribs["xmlns:inkscape"] = LAYERS
    return made


def path_data(path: Path, transform: Transform) -> str:
    """Return the absolute path data of ``path`` mapped by ``transform``."""
    return path.transformed(transform).data(_point)


def _point(at: Point) -> str:
    return f"{number(at[0])},{number(at[1])}"


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
    *,
    solid: bool = False,
) -> None:
    """Add one group for each role that occurs, its id the word of the role after ``prefix``.

    Editors that know layers show each group as one.
    """
    for role in Role:
        paths = [stroke.path for stroke in content.strokes if stroke.role is role]
        if not paths:
            continue
        drawn = group(drawing, prefix + role.word, f"{role.word}: {role.meaning}")
        drawn.attribs.update({**_line_style(role, solid=solid), **_layer(role.word)})
        for path in paths:
            drawn.add(drawing.path(d=path_data(path, transform)))
        parent.add(drawn)


def add_fills(
    drawing: svgwrite.Drawing, parent: BaseElement, fills: Iterable[Fill], transform: Transform
) -> None:
    """Add areas of colour, if there are any, in one group that lies under all strokes."""
    found = list(fills)
    if not found:
        return
    colours = group(drawing, "colours", "colours: to look at, not to cut")
    for fill in found:
        colours.add(drawing.path(d=path_data(fill.path, transform), fill=to_hex(fill.colour)))
    parent.add(colours)


def _layer(name: str) -> dict[str, str]:
    """Return the attributes by which editors know a group as a layer."""
    return {"inkscape:groupmode": "layer", "inkscape:label": name}


def _line_style(role: Role, *, solid: bool) -> dict[str, str]:
    # round: no spike of a sharp corner reaches beyond half a line
    style = {"fill": "none", "stroke": role.colour, "stroke-linejoin": "round"}
    style["stroke-width"] = number(role.weight)
    if role.dashes and not solid:
        style["stroke-dasharray"] = " ".join(map(number, role.dashes))
    return style


def add_labels(
    drawing: svgwrite.Drawing,
    parent: BaseElement,
    labels: Iterable[Label],
    transform: Transform,
    *,
    outlined: bool = False,
) -> None:
    """Add labels in one group, apart from everything that is cut: as text, or as outlines."""
    words = group(drawing, "labels", "labels: for reading only, not to cut")
    words.attribs.update(_layer("labels"))
    if outlined:
        from templates_gen.drawing.word_outlines import word_outlines

        for path in word_outlines(labels):
            words.add(drawing.path(d=path_data(path, transform)))
    else:
        words.attribs["font-family"] = f"'{fonts.FAMILY}', sans-serif"
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


def write_svg(
    piece: Piece, pack_mark: str = "", *, solid: bool = False, outlined: bool = False
) -> bytes:
    """Return one piece as an SVG file, with the mark of the pack it belongs to in its description.

    With ``solid`` no line is dashed; with ``outlined`` words are outlines of letters, not text.
    """
    of_pack = f"pack mark {pack_mark}" if pack_mark else ""
    size = union_box([piece.size, *(label.box for label in piece.drawing.labels)])
    drawing = canvas(size.width + 2 * PAD, size.height + 2 * PAD)
    described = f"Cut {piece.copies}. {piece.use}"
    drawing.set_desc(title=piece.title, desc=f"{described} ({of_pack})" if of_pack else described)
    transform = Transform(1, 0, 0, -1, PAD - size.x0, PAD + size.y1)
    add_strokes(drawing, drawing, piece.drawing, transform, solid=solid)
    add_labels(drawing, drawing, piece.drawing.labels, transform, outlined=outlined)
    return file_bytes(drawing)


def file_bytes(drawing: svgwrite.Drawing) -> bytes:
    """Return the file of a drawing."""
    text: str = drawing.tostring()
    return f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n'.encode()
