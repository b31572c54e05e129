"""SVG of one sheet, for printing or looking at: windows are shown through clip paths."""

from __future__ import annotations

from xml.etree.ElementTree import Element

from fontTools.misc.transform import Transform

from templates_gen.geometry.path import rectangle
from templates_gen.sheets.pack import Pack, Sheet, Window
from templates_gen.units import decimal
from templates_gen.writers.svg import (
    add_fills,
    add_labels,
    add_strokes,
    canvas,
    element,
    file_bytes,
    group,
    path_element,
)

OVERLAP = "#e6e6e6"
"""The grey of what a window shows beyond a match line."""


def write_sheet_svg(pack: Pack, sheet: Sheet) -> bytes:
    """Return one sheet as an SVG file of the size of its paper."""
    drawing = canvas(
        pack.paper.width,
        pack.paper.height,
        f"{pack.title}: sheet {sheet.number} of {len(pack.sheets)}",
        f"pack mark {pack.pack_mark}",
    )
    flip = Transform(1, 0, 0, -1, 0, pack.paper.height)
    page = _page(drawing, pack)
    for number, window in enumerate(sheet.windows, 1):
        page.append(_window(drawing, window, flip, f"window-{number}"))
    over = group("sheet", "what is drawn over the pieces", {})
    add_fills(over, sheet.drawing.fills, flip)
    add_strokes(over, sheet.drawing, flip, prefix="sheet-")
    page.append(over)
    add_labels(page, sheet.drawing.labels, flip)
    return file_bytes(drawing)


def _page(drawing: Element, pack: Pack) -> Element:
    """Return what a sheet is drawn on: for a printer a group with its scales about the middle."""
    if pack.printer is None:
        return drawing
    # about the middle, so that it is the same with y up and y down
    scales = f"matrix({' '.join(decimal(each, 9) for each in pack.to_page)})"
    title = f"for the printer “{pack.printer.name}” only"
    scaled = group("page", title, {"transform": scales})
    drawing.append(scaled)
    return scaled


def _window(drawing: Element, window: Window, flip: Transform, name: str) -> Element:
    """Return the part of a piece that a window shows, already in its place on the sheet."""
    to_page = flip.transform(window.to_sheet)
    clip = element("clipPath", {"id": f"{name}-clip"})
    clip.append(path_element(rectangle(window.box), to_page))
    next(drawing.iterfind("defs")).append(clip)
    title = f"{window.piece.title}, {window.code}"
    shown = group(name, title, {"clip-path": f"url(#{name}-clip)"})
    shown.extend(path_element(rectangle(box), to_page, fill=OVERLAP) for box in window.overlaps)
    add_strokes(shown, window.piece.drawing, to_page, prefix=f"{name}-")
    return shown
