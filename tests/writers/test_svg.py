"""The SVG of a piece and of a sheet as lxml, svgelements, svgpathtools and librsvg read them."""

from __future__ import annotations

import ctypes
import math
import re
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from io import BytesIO

import cv2
import numpy as np
import pikepdf
import pypdfium2
import pytest
import svgpathtools
from lxml import etree

from templates_gen import PAPERS, figures, write_svg
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.drawing import Anchor, Drawing, Label
from templates_gen.drawing.roles import Role
from templates_gen.pieces.check_square import check_square
from templates_gen.plan import make_plan
from templates_gen.sheets.pack import Sheet
from templates_gen.views.picture import picture
from templates_gen.writers.picture import picture_svg
from templates_gen.writers.svg import LAYERS, PAD
from templates_gen.writers.svg_sheet import write_sheet_svg
from tests.cakes import SAMPLES, cake, one_tier, pieces_of, sample_plan
from tests.pdf_content import forms_shown, lines_drawn, rewritten, without_text
from tests.prints import OWN, Job, printed
from tests.raster import DPI, Ink, Map, by_librsvg, by_pdfium, laid, missing, page_map
from tests.svg_content import (
    NOT_LINES,
    SVG_NAME,
    extent,
    groups,
    is_closed,
    piece_extent,
    points,
    without_groups,
)

ROLES = {role.word for role in Role}
LAYER = {f"{{{LAYERS}}}{name}" for name in ("groupmode", "label")}
STYLE = {"stroke", "stroke-width", "stroke-dasharray", "stroke-linejoin"}
PLAIN = {"svg", "title", "desc", "defs", "g", "path", "text"}
NAMES = [path.stem for path in SAMPLES]
Point = tuple[float, float]
Line = tuple[float, tuple[float, ...]]
"""Weight and dashes of a line, mm."""
samples = pytest.mark.parametrize("name", NAMES)


@cache
def svgs(name: str) -> tuple[tuple[str, bytes], ...]:
    """Return the id and the SVG of every piece of a sample."""
    return tuple((piece.id, write_svg(piece)) for piece in sample_plan(name).pieces)


def outermost(svg: bytes) -> list[etree._Element]:
    """Return the outermost groups of an SVG."""
    return etree.fromstring(svg).findall(f"{SVG_NAME}g")


def cut_length(svg: bytes) -> float:
    """Return the length of the cut line by svgpathtools, mm."""
    (cut,) = (group for group in outermost(svg) if group.get("id") == "cut")
    lines = [svgpathtools.parse_path(path.get("d")) for path in cut.findall(f"{SVG_NAME}path")]
    return float(sum(line.length(error=1e-6) for line in lines))


@samples
def test_the_cut_line_has_the_size_in_the_figures(name: str) -> None:
    """The box round the cut line is width by height of the figures, to 0.01 mm."""
    sizes = {
        piece["id"]: (piece["width_mm"], piece["height_mm"])
        for piece in figures(sample_plan(name))["pieces"]
    }
    for piece, svg in svgs(name):
        assert extent(groups(svg)["cut"]).size == pytest.approx(sizes[piece], abs=0.01), piece
        assert piece_extent(svg).size == pytest.approx(sizes[piece], abs=0.01), piece


@samples
def test_one_unit_is_one_millimetre(name: str) -> None:
    """Width and height are in mm, the same numbers as the view box, and hold all that is drawn."""
    for piece, svg in svgs(name):
        root = etree.fromstring(svg)
        size = root.get("viewBox", "").split()
        assert size[:2] == ["0", "0"]
        assert [root.get("width"), root.get("height")] == [f"{side}mm" for side in size[2:]]
        drawn = extent(path for paths in groups(svg).values() for path in paths)
        assert min(drawn) >= 0, piece
        assert drawn.right <= float(size[2])
        assert drawn.foot <= float(size[3])


@samples
def test_cutting_groups_are_plain(name: str) -> None:
    """Each role's group has id and title, then paths that carry nothing but their data."""
    for piece, svg in svgs(name):
        for group in outermost(svg):
            assert group.get("id")
            assert group.findtext(f"{SVG_NAME}title")
            if group.get("id") in NOT_LINES:
                continue
            assert group.get("id") in ROLES
            assert set(group.attrib) <= {"id", "fill", *STYLE, *LAYER}
            title, *paths = group
            assert title.tag == f"{SVG_NAME}title"
            assert paths, piece
            assert all(
                path.tag == f"{SVG_NAME}path" and set(path.attrib) == {"d"} for path in paths
            )


@samples
def test_nothing_is_referred_to(name: str) -> None:
    """No style sheet, class, clip path, link, picture or reuse; only lettering may be turned."""
    for piece, svg in svgs(name):
        for element in etree.fromstring(svg).iter(etree.Element):
            assert etree.QName(element).localname in PLAIN, piece
            turned = {"transform"} & set(element.attrib)
            assert not turned or element.tag == f"{SVG_NAME}text"
            assert not {"style", "class", "clip-path", "mask", "filter"} & set(element.attrib)
        assert b"url(" not in svg


@samples
def test_paths_are_absolute_and_cut_lines_closed(name: str) -> None:
    """Path data has no relative command, and every contour of a cut line is closed."""
    for piece, svg in svgs(name):
        for path in etree.fromstring(svg).iter(f"{SVG_NAME}path"):
            assert re.fullmatch(r"[MLHVCZ0-9 ,.\-]+", path.get("d", "")), piece
        assert all(is_closed(path) for path in groups(svg)["cut"]), piece


def test_the_check_square_is_a_file_of_its_own() -> None:
    """It is 100 mm each way and cut like a piece; no other file has it."""
    square = groups(write_svg(check_square()))
    assert extent(square["cut"]).size == pytest.approx((100, 100), abs=0.01)
    assert set(square) == {"cut", "labels"}


@samples
def test_groups_are_layers(name: str) -> None:
    """Every outermost group has the open attributes of a layer, named as its id."""
    for _, svg in svgs(name):
        for group in outermost(svg):
            assert group.get(f"{{{LAYERS}}}groupmode") == "layer"
            assert group.get(f"{{{LAYERS}}}label") == group.get("id")


def test_solid_lines_are_as_long() -> None:
    """With solid no line is dashed, and every path stays as it is."""
    for piece in sample_plan("paper-garden").pieces:
        dashed, solid = write_svg(piece), write_svg(piece, solid=True)
        assert b"dasharray" not in solid
        assert re.findall(rb' d="[^"]*"', solid) == re.findall(rb' d="[^"]*"', dashed)


def test_words_as_outlines_cover_the_words() -> None:
    """No text is left, and each outline lies in the box of its words, as wide as these are."""
    text = "AHg Øé"
    labels = (Label(text, (20, 30), 4), Label(text, (50, 40), 6, Anchor.MIDDLE, 90, bold=True))
    piece = replace(check_square(), drawing=Drawing(labels=labels))
    svg = write_svg(piece, outlined=True)
    assert b"<text" not in svg
    boxes = [path.bbox() for path in groups(svg)["labels"]]
    assert len(boxes) == 2
    for label, box in zip(labels, boxes, strict=True):
        left, right = box[0] - PAD, box[2] - PAD
        assert left == pytest.approx(label.box.x0, abs=0.15 * label.size)
        assert right == pytest.approx(label.box.x1, abs=0.25 * label.size)
        assert 100 + PAD - box[3] == pytest.approx(label.box.y0, abs=0.25 * label.size)


# The American House-Carpenter, Table of Circles (from Gregory): across and round, in;
# digits cut off, not rounded
CIRCLES = {6: 18.84955, 8: 25.13274, 10: 31.41592, 12: 37.69911}


@pytest.mark.parametrize(("across", "round_"), CIRCLES.items())
def test_a_disc_is_as_long_round_as_the_table_says(across: int, round_: float) -> None:
    """The cut line of the disc of a bare tier has the printed circumference."""
    cake = one_tier("cover = 'panelled'\ncoating = '0 mm'", size=f"{across} in")
    (svg,) = (write_svg(piece) for piece in pieces_of(cake) if piece.kind == "disc")
    assert round_ - 4e-4 <= cut_length(svg) / 25.4 <= round_ + 1e-5 + 4e-4


@pytest.mark.parametrize(
    ("name", "piece", "length"),
    [
        # 225 across, 4 coating, half of 4 paste each side; 20 trim; 120 deep, 4 on top, 4 top disc
        ("naming-day", "lower/wrap", 2 * (math.pi * (225 + 8 + 4) + 20) + 2 * (120 + 4 + 4 + 20)),
        # top first: the coated outline
        ("naming-day", "lower/disc", math.pi * (225 + 8)),
        # side first: the covered outline
        ("harbour-wedding", "third/disc", math.pi * (6 * 25.4 + 10 + 10)),
        # 150 across, 4 coating; twice 100 deep and 4 coating; twice the 15 of trim
        ("naming-day", "upper/rolling-out-circle", math.pi * ((150 + 8) + 2 * (100 + 4) + 2 * 15)),
    ],
)
def test_cut_lines_are_as_long_as_the_geometry_says(name: str, piece: str, length: float) -> None:
    """Girth, layers and trim worked out by hand give the length of the cut line."""
    assert cut_length(dict(svgs(name))[piece]) == pytest.approx(length, abs=0.01)


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_pdf_and_svg_of_a_piece_agree(job: Job) -> None:
    """Every point of every line of a form is where the SVG has it, to 0.01 mm, line by line."""
    pack = printed(job)
    with pikepdf.open(BytesIO(pack.pdf)) as document:
        forms = {
            window["piece"]: shown.form
            for page, sheet in zip(document.pages, pack.manifest["sheets"], strict=True)
            for shown, window in zip(forms_shown(page), sheet["windows"], strict=True)
        }
        for piece, form in forms.items():
            in_pdf: dict[Line, list[Point]] = defaultdict(list)
            for drawn in lines_drawn(pikepdf.parse_content_stream(form)):
                in_pdf[drawn.weight, drawn.dashes] += drawn.points
            in_svg = points_by_line(pack.svg(piece))
            assert in_pdf.keys() == in_svg.keys()
            for line, expected in in_svg.items():
                assert np.allclose(in_pdf[line], expected, rtol=0, atol=0.01), piece


def points_by_line(svg: bytes) -> dict[Line, list[Point]]:
    """Return the points of a piece by weight and dashes, from its lower left with y up."""
    at = piece_extent(svg)
    found = {}
    for group in outermost(svg):
        if group.get("id") not in NOT_LINES:
            dashes = tuple(map(float, group.get("stroke-dasharray", "").split()))
            drawn = [point for path in groups(svg)[group.get("id", "")] for point in points(path)]
            moved = [(x - at.left, at.foot - y) for x, y in drawn]
            found[float(group.get("stroke-width", "")), dashes] = moved
    return found


SHEETS = [job for job in OWN if job.sample in ("lantern-birthday", "starter")]


@pytest.mark.parametrize("job", SHEETS, ids="/".join)
def test_pdf_and_svg_of_a_sheet_agree(job: Job) -> None:
    """The lines of a sheet are the same in both, to within a pixel.

    Not where a window ends: PDFium rounds a clip to whole pixels, librsvg does not.
    """
    pack = printed(job)
    frame = page_map(DPI / 25.4, DPI / 25.4, pack.pack.paper.height)
    pages = by_pdfium(rewritten(pack.pdf, lambda _, page: without_text(page)))
    for sheet, page in zip(pack.pack.sheets, pages, strict=True):
        svg = by_librsvg(without_groups(write_sheet_svg(pack.pack, sheet), "labels"))
        pdf, inside = laid(page, frame, svg.shape), off_edges(sheet, frame, svg.shape)
        assert missing(svg * inside, pdf) == missing(pdf * inside, svg) == 0, sheet.number


def off_edges(sheet: Sheet, frame: Map, shape: tuple[int, ...]) -> Ink:
    """Return 1 for each pixel of a sheet, and 0 for those at the edges of its windows."""
    inside = np.ones(shape, np.uint8)
    for window in sheet.windows:
        corners = [window.to_sheet.transformPoint(corner) for corner in window.box.corners]
        at = np.array([(*corner, 1.0) for corner in corners]) @ frame[:2].T
        cv2.polylines(inside, [np.rint(at).astype(np.int32)], isClosed=True, color=0, thickness=3)
    return inside


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_pdf_and_svg_of_a_sheet_have_the_same_words(job: Job) -> None:
    """A sheet has the same letters in both, and each text set from its start begins in one place.

    PDFium gives the origin of a letter: the point on the baseline that it is set from.
    """
    pack = printed(job)
    height = pack.pack.paper.height
    for sheet, page in zip(pack.pack.sheets, pypdfium2.PdfDocument(pack.pdf), strict=True):
        letters = list(letters_of(page))
        texts = list(etree.fromstring(write_sheet_svg(pack.pack, sheet)).iter(f"{SVG_NAME}text"))
        words = "".join(text.text or "" for text in texts)
        assert Counter("".join(words.split())) == Counter(letter for letter, _ in letters)
        for text in texts:
            if (text.text or "").strip() and not text.get("text-anchor"):
                at = float(text.get("x", "")), height - float(text.get("y", ""))
                initial = (text.text or "").strip()[0]
                assert any(
                    letter == initial and math.dist(origin, at) <= 0.01
                    for letter, origin in letters
                ), text.text


def letters_of(page: pypdfium2.PdfPage) -> Iterator[tuple[str, tuple[float, float]]]:
    """Yield the letters of a page with their origins in mm, as PDFium reads them."""
    text = page.get_textpage()
    x, y = ctypes.c_double(), ctypes.c_double()
    for place in range(text.count_chars()):
        letter = text.get_text_range(place, 1)
        if letter.strip():
            pypdfium2.raw.FPDFText_GetCharOrigin(text, place, x, y)
            yield letter, (x.value / 72 * 25.4, y.value / 72 * 25.4)


def test_every_text_reaches_svg_as_it_was_written() -> None:
    """Signs that SVG itself uses are words on the paper, wherever a cake file may have them."""
    sign = 'A&B <i> "q" &amp;'
    name = sign.replace('"', '\\"')
    spec = cake(
        f'title = "T {name}"\nnote = "N {name}"\n[[tier]]\nname = "{name}"\nsize = "8 in"\n'
        f'depth = "4 in"\ncolour = "{name}"\n'
        f'[[tier]]\nsize = "6 in"\ndepth = "3 in"\n[[topper]]\ncolour = "{name}"\n'
    )
    plan = make_plan(spec)
    pack = make_pack(plan, PAPERS["a4"])
    sheets = [words_of(write_sheet_svg(pack, sheet)) for sheet in pack.sheets]
    of_pieces = {piece.title: words_of(write_svg(piece)) for piece in plan.pieces}
    seen = words_of(picture_svg(spec.title, picture(plan, 200, 300).drawing))
    assert all(title in words for title, words in of_pieces.items())
    assert f"{sign}: placement guide" in of_pieces
    assert all(f"T {sign}" in words for words in (*sheets, seen))
    for text in (f"N {sign}", sign, f"{sign}: placement guide"):
        assert any(text in words for words in sheets), text
    for text in (f"N {sign}", sign):
        assert text in seen


def words_of(svg: bytes) -> str:
    """Return every text of an SVG, titles and descriptions too, a line each."""
    return "\n".join(str(text) for text in etree.fromstring(svg).itertext())
