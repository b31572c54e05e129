"""The line language: weights and dashes as the files set them, and as they come out on paper."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from functools import cache
from io import BytesIO
from itertools import accumulate, combinations, cycle, takewhile

import numpy as np
import pikepdf
import pytest
from lxml import etree

from templates_gen import PAPERS, Pack, Piece, write_pdf, write_svg
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Owner
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.plan import make_plan
from templates_gen.writers.manifest import write_manifest
from tests.cakes import one_tier
from tests.legibility import lines_of
from tests.pdf_content import Drawn, forms_alone, forms_shown, lines_drawn, rewritten
from tests.prints import OWN, Job, printed
from tests.raster import Ink, Raster, affine, by_pdfium, laid, piece_raster
from tests.svg_content import NOT_LINES, SVG_NAME

DPI = 600
DOT, GAP, SHORT, DASH, LONG = 0.5, 3.0, 6.0, 12.0, 24.0
"""Dash elements in line widths (ISO 128 as realised in public CAD templates)."""
SERIES = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7)
"""Line widths, mm (ISO 128 as realised in public CAD templates)."""

LINES: dict[str, tuple[float, tuple[float, ...]]] = {
    "cut": (0.7, ()),
    "fold-edge": (0.7, (DASH, GAP, DOT, GAP)),
    "trim": (0.35, (LONG, GAP)),
    "score": (0.35, (SHORT, GAP)),
    "check": (0.35, (LONG, GAP, DOT, GAP, DOT, GAP)),
    "fold": (0.25, (DASH, GAP, DOT, GAP)),
    "pipe": (0.35, ()),
    "guide": (0.25, ()),
    "centre": (0.18, (LONG, GAP, DOT, GAP)),
    "match": (0.25, (DASH, GAP)),
    "note": (0.18, ()),
    "grid": (0.13, (1.0, 9.0)),  # our own: faint
}
"""What each line is to be: width in mm, elements in widths."""
COLOURS = {role.word: role.colour for role in Role}
LENGTH, STEP, START = 131.0, 6.0, 10.0


def in_mm(word: str) -> list[float]:
    """Return the elements of a line in mm."""
    weight, elements = LINES[word]
    return [weight * element for element in elements]


@cache
def ruled() -> Piece:
    """Return a piece with one level line of each role, 10 mm from its left, 6 mm apart."""
    size = Box(0, 0, LENGTH + 2 * START, STEP * (len(Role) + 1))
    lines = [
        Stroke(line((START, height(role.word)), (START + LENGTH, height(role.word))), role)
        for role in Role
    ]
    edge = rectangle(size)
    piece = Piece(Owner("test", "test"), "lines", "Lines", "", "", edge, Drawing(tuple(lines)))
    return piece.finished()


def height(word: str) -> float:
    """Return how high a line stands on the ruled piece, mm."""
    return STEP * (list(LINES).index(word) + 1)


@cache
def sheet_of_lines() -> Pack:
    """Return the ruled piece on a sheet of its own, after the cover."""
    return make_pack(make_plan(one_tier()), PAPERS["a4"], pieces=[ruled()])


@cache
def on_paper() -> Raster:
    """Return the ruled piece as PDFium draws it on its sheet, without words along its lines."""
    _, sheet = json.loads(write_manifest(sheet_of_lines()))["sheets"]
    _, page = by_pdfium(
        rewritten(write_pdf(sheet_of_lines()), lambda _, drawn: forms_alone(drawn)), DPI
    )
    frame = in_svg().from_mm
    to_piece = np.linalg.inv(affine(*sheet["windows"][0]["to_sheet"]))
    return Raster(laid(page, frame @ to_piece, in_svg().ink.shape), frame)


@cache
def in_svg() -> Raster:
    """Return the ruled piece as librsvg draws its SVG."""
    return piece_raster(write_svg(ruled()), DPI)


def strip(raster: Raster, word: str) -> Ink:
    """Return the ink 2 mm each side of a line, from its start to its end."""
    left, y, _ = raster.from_mm @ (START, height(word), 1)
    pixels = raster.from_mm[0, 0]
    rows = slice(round(y - 2 * pixels), round(y + 2 * pixels) + 1)
    return raster.ink[rows, round(left + 0.5) : round(left + 0.5 + LENGTH * pixels)]


def measured_weight(ink: Ink, pixels: float) -> float:
    """Return the ink across a line where it is drawn, in mm of its own colour."""
    full = float(ink.max())
    drawn = ink[:, ink.max(axis=0) > 0.94 * full]
    return float(drawn.sum(axis=0).mean() / full / pixels)


def measured_edges(ink: Ink, pixels: float) -> list[float]:
    """Return where a line stops and starts again along its length, mm from its start."""
    drawn = (ink.max(axis=0) >= ink.max() / 2).astype(np.int8)
    drawn[0] = drawn[1]  # of the first pixel the line may take less than half
    return [(edge + 1) / pixels for edge in np.flatnonzero(np.diff(drawn))]


def expected_edges(word: str) -> list[float]:
    """Return where the elements of a line end, mm from its start."""
    if not in_mm(word):
        return []
    return list(takewhile(lambda at: at < LENGTH, accumulate(cycle(in_mm(word)))))


def test_every_line_is_in_the_table() -> None:
    """The lines the project draws are those of the line language, weights from ISO 128."""
    assert [role.word for role in Role] == list(LINES)
    assert {weight for weight, _ in LINES.values()} <= set(SERIES)


def test_no_two_lines_look_alike() -> None:
    """Any two lines differ in dashes, or one is at least 1.35 times as wide as the other."""
    for (one, elements), (other, others) in combinations(LINES.values(), 2):
        assert elements != others or max(one, other) / min(one, other) >= 1.35


def test_svg_sets_each_line() -> None:
    """The group of each role has its width, dashes in mm and colour, without a fill."""
    groups = etree.fromstring(write_svg(ruled())).findall(f"{SVG_NAME}g")
    found = {group.get("id"): group for group in groups if group.get("id") not in NOT_LINES}
    assert found.keys() == LINES.keys()
    for word, (weight, _) in LINES.items():
        group = found[word]
        assert float(group.get("stroke-width", "")) == pytest.approx(weight)
        dashes = [float(each) for each in group.get("stroke-dasharray", "").split()]
        assert dashes == pytest.approx(in_mm(word), abs=1e-4)
        assert (group.get("stroke"), group.get("fill")) == (COLOURS[word], "none")


def test_pdf_sets_each_line() -> None:
    """The form has every line with its width and dashes in mm."""
    with pikepdf.open(BytesIO(write_pdf(sheet_of_lines()))) as document:
        (shown,) = forms_shown(document.pages[1])
        drawn = lines_drawn(pikepdf.parse_content_stream(shown.form))
    for word, (weight, _) in LINES.items():
        (found,) = (each for each in drawn if is_level_at(each, height(word)))
        assert found.weight == pytest.approx(weight)
        assert found.dashes == pytest.approx(in_mm(word), abs=1e-4)


def is_level_at(drawn: Drawn, y: float) -> bool:
    """Tell whether a line is straight and level at a height, mm."""
    return len(drawn.points) == 2 and all(abs(point[1] - y) < 1e-3 for point in drawn.points)


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_a_pack_has_no_other_lines(job: Job) -> None:
    """Every line on every sheet and in every form of a sample is one of the line language."""
    allowed = [(weight, in_mm(word)) for word, (weight, _) in LINES.items()]
    with pikepdf.open(BytesIO(printed(job).pdf)) as document:
        for drawn in drawn_in(document):
            assert any(
                drawn.weight == pytest.approx(weight)
                and drawn.dashes == pytest.approx(dashes, abs=1e-4)
                for weight, dashes in allowed
            ), drawn


def drawn_in(document: pikepdf.Pdf) -> Iterator[Drawn]:
    """Yield every line of every page, its forms included."""
    for page in document.pages:
        yield from lines_drawn(pikepdf.parse_content_stream(page))
        for shown in forms_shown(page):
            yield from lines_drawn(pikepdf.parse_content_stream(shown.form))


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_each_sheet_explains_its_lines(job: Job) -> None:
    """The legend of a sheet names every kind of line that is on it, and no other."""
    for sheet in printed(job).pack.sheets:
        if not sheet.windows:
            continue
        lines = lines_of(sheet)
        legend = {each.text for each in sheet.drawing.labels} & {role.brief for role in Role}
        assert legend == {role.brief for role in lines.roles}, sheet.number


def luminance(colour: str) -> float:
    """Return the relative luminance of a colour (WCAG 2.1)."""
    shares = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [x / 12.92 if x <= 0.03928 else ((x + 0.055) / 1.055) ** 2.4 for x in shares]
    return float(np.dot(linear, (0.2126, 0.7152, 0.0722)))


@pytest.mark.parametrize("role", Role)
def test_every_colour_is_dark_on_white(role: Role) -> None:
    """In grey, too, each line stands out: a contrast of 4.5 to 1 or more (WCAG 2.1, AA)."""
    assert 1.05 / (luminance(role.colour) + 0.05) >= 4.5


@pytest.mark.parametrize("drawn", [on_paper, in_svg])
@pytest.mark.parametrize("word", LINES)
def test_each_line_comes_out_on_paper(word: str, drawn: Callable[[], Raster]) -> None:
    """Measured on the raster, widths are true to 0.01 mm, ends of dashes to a pixel (0.042 mm)."""
    pixels = drawn().from_mm[0, 0]
    ink = strip(drawn(), word)
    assert measured_weight(ink, pixels) == pytest.approx(LINES[word][0], abs=0.01)
    assert measured_edges(ink, pixels) == pytest.approx(expected_edges(word), abs=1.1 / pixels)
