"""SVG of one piece, for vector editors and cutting machines, in true mm."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from xml.etree.ElementTree import Element, tostring

from fontTools.misc.transform import Transform
from fontTools.pens.svgPathPen import SVGPathPen

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Fill, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.word_outlines import word_outlines
from templates_gen.geometry.box import union_box
from templates_gen.geometry.path import Path
from templates_gen.units import decimal

PLACES = 4
LAYERS = "http://www.inkscape.org/namespaces/inkscape"
"""The name space of the attributes that make a group a layer in editors."""
PAD = 2.0
"""Blank edge round the drawing, so that no line is cut in half, mm."""


def number(value: float) -> str:
    """Write a coordinate in mm."""
    return decimal(value, PLACES)


def element(name: str, attributes: Mapping[str, str], text: str | None = None) -> Element:
    """Return an element, its attributes in the order of their names."""
    made = Element(name, dict(sorted(attributes.items())))
    made.text = text
    return made


def canvas(width: float, height: float, title: str, description: str = "") -> Element:
    """Return an SVG of a size in mm whose units are mm; it has definitions, and no drawing yet."""
    size = (number(width), number(height))
    made = element(
        "svg",
        {
            "baseProfile": "full",
            "height": f"{size[1]}mm",
            "version": "1.1",
            "viewBox": f"0 0 {' '.join(size)}",
            "width": f"{size[0]}mm",
            "xmlns": "http://www.w3.org/2000/svg",
            "xmlns:ev": "http://www.w3.org/2001/xml-events",
            "xmlns:inkscape": LAYERS,
            "xmlns:xlink": "http://www.w3.org/1999/xlink",
        },
    )
    made.append(element("title", {}, title))
    if description:
        made.append(element("desc", {}, description))
    made.append(element("defs", {}))
    return made


def path_data(path: Path, transform: Transform) -> str:
    """Return the absolute path data of ``path`` mapped by ``transform``."""
    pen = SVGPathPen(None, ntos=number)
    path.transformed(transform).draw(pen)
    return str(pen.getCommands())


def path_element(path: Path, transform: Transform, **attributes: str) -> Element:
    """Return ``path`` mapped by ``transform`` as an element."""
    return element("path", {"d": path_data(path, transform), **attributes})


def group(name: str, title: str, attributes: Mapping[str, str]) -> Element:
    """Return a named group with a title."""
    made = element("g", {"id": name, **attributes})
    made.append(element("title", {}, title))
    return made


def add_strokes(
    parent: Element,
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
        look = {**_line_style(role, solid=solid), **_layer(role.word)}
        drawn = group(prefix + role.word, f"{role.word}: {role.meaning}", look)
        drawn.extend(path_element(path, transform) for path in paths)
        parent.append(drawn)


def add_fills(parent: Element, fills: Iterable[Fill], transform: Transform) -> None:
    """Add areas of colour, if there are any, in one group that lies under all strokes."""
    found = list(fills)
    if not found:
        return
    colours = group("colours", "colours: to look at, not to cut", {})
    for fill in found:
        colour = "#{:02x}{:02x}{:02x}".format(*fill.colour)
        colours.append(path_element(fill.path, transform, fill=colour))
    parent.append(colours)


def _layer(name: str) -> dict[str, str]:
    """Return the attributes by which editors know a group as a layer."""
    return {"inkscape:groupmode": "layer", "inkscape:label": name}


def _line_style(role: Role, *, solid: bool = False) -> dict[str, str]:
    # round: no spike of a sharp corner reaches beyond half a line
    style = {"fill": "none", "stroke": role.colour, "stroke-linejoin": "round"}
    style["stroke-width"] = number(role.weight)
    if role.dashes and not solid:
        style["stroke-dasharray"] = " ".join(map(number, role.dashes))
    return style


def add_labels(
    parent: Element,
    labels: Iterable[Label],
    transform: Transform,
    *,
    outlined: bool = False,
) -> None:
    """Add labels in one group, apart from everything that is cut: as text, or as outlines."""
    look = _layer("labels")
    if not outlined:
        look["font-family"] = f"'{fonts.FAMILY}', sans-serif"
    words = group("labels", "labels: for reading only, not to cut", look)
    if outlined:
        words.extend(path_element(path, transform) for path in word_outlines(labels))
    else:
        words.extend(_text(label, transform) for label in labels)
    parent.append(words)


def _text(label: Label, transform: Transform) -> Element:
    x, y = map(number, transform.transformPoint(label.at))
    attributes = {
        "x": x,
        "y": y,
        "font-size": number(label.size),
        # keeps its width where another font stands in
        "textLength": number(label.width),
        "lengthAdjust": "spacingAndGlyphs",
    }
    if label.anchor is not Anchor.START:
        attributes["text-anchor"] = label.anchor.name.lower()
    if label.bold:
        attributes["font-weight"] = "bold"
    if label.turn:
        attributes["transform"] = f"rotate({number(-label.turn)} {x} {y})"
    return element("text", attributes, label.text)


def write_svg(
    piece: Piece, pack_mark: str = "", *, solid: bool = False, outlined: bool = False
) -> bytes:
    """Return one piece as an SVG file, with the mark of the pack it belongs to in its description.

    With ``solid`` no line is dashed; with ``outlined`` words are outlines of letters, not text.
    """
    of_pack = f"pack mark {pack_mark}" if pack_mark else ""
    size = union_box([piece.size, *(label.box for label in piece.drawing.labels)])
    described = f"Cut {piece.copies}. {piece.use}"
    drawing = canvas(
        size.width + 2 * PAD,
        size.height + 2 * PAD,
        piece.title,
        f"{described} ({of_pack})" if of_pack else described,
    )
    transform = Transform(1, 0, 0, -1, PAD - size.x0, PAD + size.y1)
    add_strokes(drawing, piece.drawing, transform, solid=solid)
    add_labels(drawing, piece.drawing.labels, transform, outlined=outlined)
    return file_bytes(drawing)


def file_bytes(drawing: Element) -> bytes:
    """Return the file of a drawing."""
    text = tostring(drawing, encoding="unicode")
    return f'<?xml version="1.0" encoding="utf-8"?>\n{text}\n'.encode()
