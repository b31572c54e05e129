"""A drawing as a file of its own, to look at or to show: SVG, PDF or PNG."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from io import BytesIO

from fontTools.misc.transform import Transform

from templates_gen.drawing.drawing import Drawing
from templates_gen.writers.pdf import (
    POINTS_PER_MM,
    draw_fills,
    draw_labels,
    draw_strokes,
    in_bytes,
    new_canvas,
)
from templates_gen.writers.svg import add_fills, add_labels, add_strokes, canvas, file_bytes

MARGIN = 8.0
"""Blank edge of a picture, mm."""
DOTS_PER_INCH = 200


def picture_svg(title: str, drawing: Drawing) -> bytes:
    """Return a drawing as SVG, in mm."""
    page = drawing.box.expanded(MARGIN)
    made = canvas(page.width, page.height)
    made.set_desc(title=title)
    onto = Transform(1, 0, 0, -1, -page.x0, page.y1)
    add_fills(made, made, drawing.fills, onto)
    add_strokes(made, made, drawing, onto)
    add_labels(made, made, drawing.labels, onto)
    return file_bytes(made)


def picture_pdf(title: str, drawing: Drawing) -> bytes:
    """Return a drawing as a PDF of one page."""
    page = drawing.box.expanded(MARGIN)
    moved = drawing.moved(-page.x0, -page.y0)
    return pages_pdf(title, [moved], page.width, page.height)


@in_bytes()
def pages_pdf(title: str, pages: Iterable[Drawing], width: float, height: float) -> bytes:
    """Return drawings as the pages of a PDF, each ``width`` by ``height`` mm."""
    buffer = BytesIO()
    made = new_canvas(buffer, width, height, title)
    for drawing in pages:
        made.scale(POINTS_PER_MM, POINTS_PER_MM)
        draw_fills(made, drawing.fills)
        draw_strokes(made, drawing.strokes)
        draw_labels(made, drawing.labels)
        made.showPage()
    made.save()
    return buffer.getvalue()


def picture_png(title: str, drawing: Drawing) -> bytes:
    """Return a drawing as a PNG on white, drawn by PDFium from the PDF."""
    import pypdfium2

    document = pypdfium2.PdfDocument(picture_pdf(title, drawing))
    image = document[0].render(scale=DOTS_PER_INCH / 72).to_pil()
    buffer = BytesIO()
    image.save(buffer, format="PNG", dpi=(DOTS_PER_INCH, DOTS_PER_INCH))
    return buffer.getvalue()


PICTURES: dict[str, Callable[[str, Drawing], bytes]] = {
    ".svg": picture_svg,
    ".pdf": picture_pdf,
    ".png": picture_png,
}
"""By the ending of a file, what writes it."""
