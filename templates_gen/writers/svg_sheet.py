"""SVG of one sheet, for printing or looking at: windows are shown through clip paths."""

from __future__ import annotations

import svgwrite
from fontTools.misc.transform import Transform

from templates_gen.geometry.path import rectangle
from templates_gen.sheets.pack import Pack, Sheet, Window
from templates_gen.writers.svg import (
    add_labels,
    add_strokes,
    canvas,
    file_bytes,
    group,
    path_data,
)


def write_sheet_svg(pack: Pack, sheet: Sheet) -> bytes:
    """Return one sheet as an SVG file of the size of its paper."""
    drawing = canvas(pack.paper.width, pack.paper.height)
    drawing.set_desc(
        title=f"{pack.title}: sheet {sheet.number} of {len(pack.sheets)}",
        desc=f"pack mark {pack.pack_mark}",
    )
    flip = Transform(1, 0, 0, -1, 0, pack.paper.height)
    for number, window in enumerate(sheet.windows, 1):
        _add_window(drawing, window, flip, f"window-{number}")
    over = group(drawing, "sheet", "what is drawn over the pieces")
    add_strokes(drawing, over, sheet.drawing, flip, prefix="sheet-")
    drawing.add(over)
    add_labels(drawing, drawing, sheet.drawing.labels, flip)
    return file_bytes(drawing)


def _add_window(drawing: svgwrite.Drawing, window: Window, flip: Transform, name: str) -> None:
    """Add the part of a piece that a window shows, already in its place on the sheet."""
    to_page = flip.transform(window.to_sheet)
    clip = drawing.clipPath(id=f"{name}-clip")
    clip.add(drawing.path(d=path_data(rectangle(window.box), to_page)))
    drawing.defs.add(clip)
    shown = group(drawing, name, f"{window.piece.title}, {window.code}")
    shown.attribs["clip-path"] = f"url(#{name}-clip)"
    add_strokes(drawing, shown, window.piece.drawing, to_page, prefix=f"{name}-")
    drawing.add(shown)
