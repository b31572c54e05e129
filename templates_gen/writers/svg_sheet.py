"""SVG of one sheet, for printing or looking at: windows are shown through clip paths."""

from __future__ import annotations

import svgwrite
from fontTools.misc.transform import Transform
from svgwrite.base import BaseElement
from svgwrite.container import Group

from templates_gen.geometry.path import rectangle
from templates_gen.sheets.pack import Pack, Sheet, Window
from templates_gen.units import decimal
from templates_gen.writers.svg import (
    add_fills,
    add_labels,
    add_strokes,
    canvas,
    file_bytes,
    group,
    path_data,
)

OVERLAP = "#e6e6e6"
"""The grey of what a window shows beyond a match line."""


def write_sheet_svg(pack: Pack, sheet: Sheet) -> bytes:
    """Return one sheet as an SVG file of the size of its paper."""
    drawing = canvas(pack.paper.width, pack.paper.height)
    drawing.set_desc(
        title=f"{pack.title}: sheet {sheet.number} of {len(pack.sheets)}",
        desc=f"pack mark {pack.pack_mark}",
    )
    flip = Transform(1, 0, 0, -1, 0, pack.paper.height)
    page = _page(drawing, pack)
    for number, window in enumerate(sheet.windows, 1):
        page.add(_window(drawing, window, flip, f"window-{number}"))
    over = group(drawing, "sheet", "what is drawn over the pieces")
    add_fills(drawing, over, sheet.drawing.fills, flip)
    add_strokes(drawing, over, sheet.drawing, flip, prefix="sheet-")
    page.add(over)
    add_labels(drawing, page, sheet.drawing.labels, flip)
    return file_bytes(drawing)


def _page(drawing: svgwrite.Drawing, pack: Pack) -> BaseElement:
    """Return what a sheet is drawn on: for a printer a group with its scales about the middle."""
    if pack.printer is None:
        return drawing
    # about the middle, so that it is the same with y up and y down
    scaled = group(drawing, "page", f"for the printer “{pack.printer.name}” only")
    scaled.attribs["transform"] = f"matrix({' '.join(decimal(each, 9) for each in pack.to_page)})"
    drawing.add(scaled)
    return scaled


def _window(drawing: svgwrite.Drawing, window: Window, flip: Transform, name: str) -> Group:
    """Return the part of a piece that a window shows, already in its place on the sheet."""
    to_page = flip.transform(window.to_sheet)
    clip = drawing.clipPath(id=f"{name}-clip")
    clip.add(drawing.path(d=path_data(rectangle(window.box), to_page)))
    drawing.defs.add(clip)
    clipped = group(drawing, name, f"{window.piece.title}, {window.code}")
    clipped.attribs["clip-path"] = f"url(#{name}-clip)"
    for box in window.overlaps:
        grey = drawing.path(d=path_data(rectangle(box), to_page))
        grey.attribs["fill"] = OVERLAP
        clipped.add(grey)
    add_strokes(drawing, clipped, window.piece.drawing, to_page, prefix=f"{name}-")
    return clipped
