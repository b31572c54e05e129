"""PDF of a pack. Each piece is one form, drawn once and shown through a clip on every sheet.

Pages and forms are drawn in mm: one scaling at the start of a page turns them into PDF units of
1/72 in, and makes up for what the pack's printer does to lengths. Labels are drawn on the sheets,
so no text is hidden behind a clip.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager, nullcontext
from functools import cache
from io import BytesIO
from itertools import groupby

from fontTools.misc.transform import Transform
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pathobject import PDFPathObject

from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Fill, Label, Stroke
from templates_gen.drawing.fonts import BOLD, REGULAR, font_file
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Point, union_box
from templates_gen.geometry.path import Path, rectangle
from templates_gen.sheets.pack import Pack, Sheet, Window
from templates_gen.units import MM_PER_INCH
from templates_gen.writers.pdf_layers import WORDS, Layers, add_metadata

POINTS_PER_MM = 72 / MM_PER_INCH
IN_POINTS = Transform(POINTS_PER_MM, 0, 0, POINTS_PER_MM, 0, 0)
CREATOR = "templates_gen"
SUBJECT = "True-size templates, to print at 100 %"
NON_ZERO = 1
"""What reportlab calls filling by the turning of contours."""
COVER = "cover"
"""Where links lead back to."""
VIEWER = {"PrintScaling": "None", "Duplex": "Simplex", "DisplayDocTitle": "true"}
"""What the PDF tells a viewer about printing the pack: no scaling, one side."""

PLACES = 3
"""Decimals of a coordinate, mm: a thousandth is a fortieth of a dot of a fine printer."""

OVERLAP = 0.9
"""The grey of what a window shows beyond a match line, 1 for white: no line is lost on it."""


class _PathPen:
    """Draw to a reportlab path."""

    def __init__(self, path: PDFPathObject) -> None:
        self._path = path

    def moveTo(self, pt: Point) -> None:  # noqa: N802 (the pen protocol)
        self._path.moveTo(*_rounded(pt))

    def lineTo(self, pt: Point) -> None:  # noqa: N802
        self._path.lineTo(*_rounded(pt))

    def curveTo(self, *points: Point) -> None:  # noqa: N802
        first, second, end = map(_rounded, points)
        self._path.curveTo(*first, *second, *end)

    def closePath(self) -> None:  # noqa: N802
        self._path.close()

    def endPath(self) -> None:  # noqa: N802
        """Leave the contour open."""


def _rounded(point: Point) -> Point:
    return round(point[0], PLACES), round(point[1], PLACES)


@contextmanager
def in_bytes() -> Iterator[None]:
    """Write streams as bytes: as text, which reportlab prefers, they are a quarter larger."""
    usual, rl_config.useA85 = rl_config.useA85, 0
    try:
        yield
    finally:
        rl_config.useA85 = usual


@cache
def _register_fonts() -> None:
    for face in (REGULAR, BOLD):
        pdfmetrics.registerFont(TTFont(face, str(font_file(face))))


def new_canvas(buffer: BytesIO, width: float, height: float, title: str) -> Canvas:
    """Return an empty PDF with pages of a size in mm; the same content gives the same bytes."""
    _register_fonts()
    canvas = Canvas(
        buffer,
        pagesize=(width * POINTS_PER_MM, height * POINTS_PER_MM),
        pdfVersion=(1, 7),
        invariant=1,
        pageCompression=1,
        initialFontName=REGULAR,  # type: ignore[arg-type]  # the stub has the wrong type
        lang="en",
    )
    canvas.setTitle(title)
    canvas.setAuthor("")
    canvas.setCreator(CREATOR)
    return canvas


@in_bytes()
def write_pdf(pack: Pack) -> bytes:
    """Return the pack as a PDF file; the same pack gives the same bytes.

    Raises GlyphError when a label needs a character that the face lacks.
    """
    buffer = BytesIO()
    canvas = new_canvas(buffer, pack.paper.width, pack.paper.height, pack.title)
    keywords = f"pack mark {pack.pack_mark}" if pack.pack_mark else ""
    canvas.setSubject(SUBJECT)
    canvas.setKeywords(keywords)
    add_metadata(canvas, title=pack.title, subject=SUBJECT, keywords=keywords, creator=CREATOR)
    for preference, value in VIEWER.items():
        canvas.setViewerPreference(preference, value)
    pieces = [window.piece for sheet in pack.sheets for window in sheet.windows]
    titles = {piece.title: piece.id for piece in pieces}
    layers = Layers(canvas, [*(role.word for role in Role), WORDS])
    forms = _draw_forms(canvas, pieces, layers)
    entered: set[str] = set()
    for index, sheet in enumerate(pack.sheets):
        _add_outline_entries(canvas, sheet, entered)
        canvas.addPageLabel(index, style="ARABIC", start=sheet.number)
        canvas.transform(*IN_POINTS.transform(pack.to_page))
        _draw_sheet(canvas, sheet, forms, layers)
        _add_links(canvas, sheet, titles if not sheet.windows else {}, entered)
        layers.show_page()
    canvas.save()
    return buffer.getvalue()


def _draw_forms(canvas: Canvas, pieces: Iterable[Piece], layers: Layers) -> dict[str, str]:
    """Draw every piece once; return the name of its form by piece id."""
    by_id = {piece.id: piece for piece in pieces}
    names = {}
    for number, (key, piece) in enumerate(by_id.items()):
        names[key] = f"piece{number}"
        canvas.beginForm(names[key], *piece.size.expanded(1))  # type: ignore[arg-type]  # floats serve
        draw_strokes(canvas, piece.drawing.strokes, layers)
        canvas.endForm(Resources=layers.resources())
    return names


def _add_outline_entries(canvas: Canvas, sheet: Sheet, entered: set[str]) -> None:
    """Enter each piece at the first sheet that shows it, and the cover."""
    titles = {window.piece.id: window.piece.title for window in sheet.windows}
    if not titles and not entered:
        titles = {COVER: "Cover"}
    for key, title in titles.items():
        if key not in entered:
            entered.add(key)
            canvas.bookmarkPage(key)
            canvas.addOutlineEntry(title, key)


def _add_links(
    canvas: Canvas, sheet: Sheet, titles: Mapping[str, str], entered: Collection[str]
) -> None:
    """Lead from each title in a list to the first sheet of its piece, from a sheet's number back.

    ``titles`` has the pieces by title; there is a way back once the cover has been ``entered``.
    """
    for lines in blocks(sheet.drawing.labels):
        piece = titles.get(" ".join(line.text for line in lines))
        if piece is not None:
            box = union_box(line.box for line in lines)
            canvas.linkRect("", piece, box, relative=1, thickness=0)
    if sheet.windows and COVER in entered:
        number = sheet.drawing.labels[0]
        canvas.linkRect("", COVER, number.box, relative=1, thickness=0)


def _draw_sheet(canvas: Canvas, sheet: Sheet, forms: dict[str, str], layers: Layers) -> None:
    for window in sheet.windows:
        _draw_window(canvas, window, forms[window.piece.id])
    draw_fills(canvas, sheet.drawing.fills)
    draw_strokes(canvas, sheet.drawing.strokes, layers)
    with layers.on(WORDS):
        draw_labels(canvas, sheet.drawing.labels)


def _draw_window(canvas: Canvas, window: Window, form: str) -> None:
    canvas.saveState()
    canvas.transform(*window.to_sheet)
    canvas.clipPath(_path(canvas, rectangle(window.box)), stroke=0, fill=0)
    if window.overlaps:
        canvas.setFillGray(OVERLAP)
        for box in window.overlaps:
            canvas.rect(box.x0, box.y0, box.width, box.height, stroke=0, fill=1)
    canvas.doForm(form)
    canvas.restoreState()


def draw_fills(canvas: Canvas, fills: Iterable[Fill]) -> None:
    """Fill areas with their colours, without an edge."""
    for fill in fills:
        canvas.saveState()
        canvas.setFillColorRGB(*(each / 255 for each in fill.colour))
        canvas.drawPath(_path(canvas, fill.path), stroke=0, fill=1, fillMode=NON_ZERO)
        canvas.restoreState()


def draw_strokes(canvas: Canvas, strokes: Iterable[Stroke], layers: Layers | None = None) -> None:
    """Draw strokes, each with the line of its role, on the layer of that name if there are any."""
    # round: no spike of a sharp corner reaches beyond half a line
    canvas.setLineJoin(1)
    for role, alike in groupby(strokes, lambda stroke: stroke.role):
        with layers.on(role.word) if layers else nullcontext():
            canvas.setLineWidth(role.weight)
            canvas.setDash(list(role.dashes))
            canvas.setStrokeColorRGB(*role.rgb)
            for stroke in alike:
                canvas.drawPath(_path(canvas, stroke.path))


def _path(canvas: Canvas, path: Path) -> PDFPathObject:
    drawn = canvas.beginPath()
    path.draw(_PathPen(drawn))
    return drawn


def draw_labels(canvas: Canvas, labels: Iterable[Label]) -> None:
    """Write labels in the bundled face."""
    for label in labels:
        text = canvas.beginText()
        text.setFont(BOLD if label.bold else REGULAR, label.size)
        xx, xy, yx, yy, dx, dy = label.frame
        text.setTextTransform(xx, xy, yx, yy, *_rounded((dx, dy)))
        text.textOut(label.text)
        canvas.drawText(text)
