"""The sheets put together give every piece back: the strongest check of the main job.

Pages are drawn by PDFium or Poppler and laid in the piece's frame by the manifest; the whole piece
is drawn by librsvg from its SVG. Nothing of the project draws or compares anything here.
"""

from __future__ import annotations

from collections.abc import Callable
from io import BytesIO
from typing import Any, NamedTuple

import cv2
import numpy as np
import pikepdf
import pytest

from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from tests.cakes import one_tier, sample_plan
from tests.pdf_content import (
    Instructions,
    forms_alone,
    forms_shown,
    made,
    operator,
    rewritten,
    saved,
)
from tests.prints import BOTH, OWN, Job, Print, print_of, printed
from tests.raster import (
    DARK,
    Ink,
    Raster,
    affine,
    by_pdfium,
    by_poppler,
    laid,
    missing,
    piece_raster,
)
from tests.shape_gallery import DRIPS, PANELLED, spec

SHARED = [job for job in BOTH if job.sample == "lantern-birthday"]


class Sheets(NamedTuple):
    """Sheets by number as printed, and with nothing on them but the parts of pieces they show."""

    true: dict[int, Raster]
    forms: dict[int, Raster]


class Difference(NamedTuple):
    """Where sheets and whole piece differ: the window, pixels missing and pixels too many."""

    window: str
    missing: int
    extra: int


def sheets_of(pdf: bytes, draw: Callable[[bytes], list[Raster]] = by_pdfium) -> Sheets:
    """Return the sheets of a PDF as an outside program draws them."""
    forms = rewritten(pdf, lambda _, page: forms_alone(page))
    return Sheets(*(dict(enumerate(draw(each), 1)) for each in (pdf, forms)))


def sheets_with(piece: str, pack: Print, pdf: bytes) -> Sheets:
    """Return the sheets that show a piece, as PDFium draws them."""
    numbers = sorted({number for number, window in pack.windows if window["piece"] == piece})

    def draw(drawn: bytes) -> dict[int, Raster]:
        pages = by_pdfium(drawn, pages=[number - 1 for number in numbers])
        return dict(zip(numbers, pages, strict=True))

    return Sheets(draw(pdf), draw(rewritten(pdf, lambda _, page: forms_alone(page))))


def part(sheet: Raster, window: dict[str, Any], whole: Raster, at: tuple[slice, slice]) -> Ink:
    """Return what a sheet shows at some rows and columns of the whole piece."""
    rows, columns = at
    to_part = affine(1, 0, 0, 1, -columns.start, -rows.start) @ whole.from_mm
    to_piece = np.linalg.inv(affine(*window["to_sheet"]))
    return laid(sheet, to_part @ to_piece, whole.ink[at].shape)


def pixels_in(window: dict[str, Any], whole: Raster) -> tuple[slice, slice]:
    """Return rows and columns of the pixels a window shows whole, not cut by its edge."""
    x0, y0, x1, y1 = window["box_mm"]
    left, foot, _ = whole.from_mm @ (x0, y0, 1)
    right, top, _ = whole.from_mm @ (x1, y1, 1)
    return slice(int(np.ceil(top)) + 1, int(foot)), slice(int(np.ceil(left)) + 1, int(right))


def differences(pack: Print, piece: str, sheets: Sheets) -> list[Difference]:
    """Return where a piece put together from the sheets differs from the whole piece.

    Missing is what the whole piece has and a sheet as printed lacks, or no window shows at all;
    extra is what the form on a sheet draws and the whole piece lacks.
    """
    whole = piece_raster(pack.svg(piece))
    unseen = whole.ink >= DARK
    found = []
    for number, window in pack.windows:
        if window["piece"] != piece:
            continue
        at = pixels_in(window, whole)
        expected = whole.ink[at]
        lacking = missing(expected, part(sheets.true[number], window, whole, at))
        extra = missing(part(sheets.forms[number], window, whole, at), expected)
        found.append(Difference(window["code"], lacking, extra))
        unseen[at] = False
    found.append(Difference("no window", int(np.count_nonzero(unseen)), 0))
    return [each for each in found if each.missing or each.extra]


@pytest.mark.parametrize("job", OWN + SHARED, ids="/".join)
def test_sheets_put_together_equal_the_whole_piece(job: Job) -> None:
    """Every window shows what the whole piece has there, to within a pixel; outside all is blank.

    Blank but for labels and marks, which are left out.
    """
    pack = printed(job)
    sheets = sheets_of(pack.pdf)
    for piece in pack.shown:
        assert not differences(pack, piece, sheets), piece
    assert strays(pack, sheets) == 0


@pytest.mark.parametrize(("name", "lines"), tuple(spec()), ids=lambda each: each.partition("\n")[0])
def test_wraps_and_collars_of_every_shape_can_be_put_together(name: str, lines: str) -> None:
    """The same holds for the wrap and the collar of each shape, of tapers, slopes and holes."""
    plan = make_plan(one_tier(PANELLED + lines + DRIPS, size="6 in"))
    pieces = tuple(each for each in plan.pieces if each.kind in ("wrap", "collar"))
    pack = print_of(Job(name, "a4", "a4"), plan, pieces)
    sheets = sheets_of(pack.pdf)
    assert len(pack.shown) == 2
    for piece in pack.shown:
        assert not differences(pack, piece, sheets), piece


def strays(pack: Print, sheets: Sheets) -> int:
    """Count the pixels that pieces ink outside their windows."""
    count = 0
    for sheet, raster in zip(pack.manifest["sheets"], sheets.forms.values(), strict=True):
        outside = raster.ink.copy()
        for window in sheet["windows"]:
            x0, y0, x1, y1 = window["box_mm"]
            corners = np.array([(x0, y0, 1), (x1, y0, 1), (x1, y1, 1), (x0, y1, 1)]).T
            seen = (raster.from_mm @ affine(*window["to_sheet"]) @ corners)[:2].T
            cv2.fillConvexPoly(outside, np.rint(seen).astype(np.int32), 0)
            # and the pixels that the edge of the window runs through
            cv2.polylines(outside, [np.rint(seen).astype(np.int32)], True, 0, 3)
        count += int(np.count_nonzero(outside))
    return count


def test_poppler_agrees() -> None:
    """The same holds when Poppler draws the sheets."""
    pack = printed(OWN[1])
    sheets = sheets_of(pack.pdf, by_poppler)
    for piece in pack.shown:
        assert not differences(pack, piece, sheets), piece


FEW = [("harbour-wedding", by_pdfium), ("starter", by_poppler)]
"""Samples as they are printed by default: tapes, repeats, stretches, parts on the fold."""


@pytest.mark.parametrize(("name", "draw"), FEW, ids=["harbour-wedding", "starter"])
def test_tapes_and_other_templates_can_be_put_together(
    name: str, draw: Callable[[bytes], list[Raster]]
) -> None:
    """Taped strip by strip, each template is what it is as one drawing."""
    plan = sample_plan(name)
    made = tuple(each for each in templates(plan) if each.printed)
    pack = print_of(Job(name, "a4", "a4"), plan, made)
    sheets = sheets_of(pack.pdf, draw)
    assert any(": tape" in each.title and each.id in pack.split for each in made)
    for piece in pack.shown:
        assert not differences(pack, piece, sheets), piece


# From here on: the comparer fails where it must.

SPOILT = SHARED[0]
SPLIT = printed(SPOILT).split


def place_of(pack: Print, piece: str) -> tuple[int, int]:
    """Return the first sheet that shows a piece, and which of its windows, from 0, does."""
    number, window = next(each for each in pack.windows if each[1]["piece"] == piece)
    return number, pack.manifest["sheets"][number - 1]["windows"].index(window)


def with_form(piece: str, change: Callable[[Instructions], Instructions]) -> list[Difference]:
    """Return the differences of a piece whose form draws what ``change`` makes of it."""
    pack = printed(SPOILT)
    number, place = place_of(pack, piece)
    with pikepdf.open(BytesIO(pack.pdf)) as document:
        form = forms_shown(document.pages[number - 1])[place].form
        drawn = change(list(pikepdf.parse_content_stream(form)))
        form.write(pikepdf.unparse_content_stream(drawn))
        return differences(pack, piece, sheets_with(piece, pack, saved(document)))


@pytest.mark.parametrize("piece", SPLIT)
@pytest.mark.parametrize("scale", [1.005, 0.995])
def test_a_piece_scaled_by_half_a_percent_is_caught(piece: str, scale: float) -> None:
    """A piece drawn half a percent too large or too small differs."""
    assert with_form(piece, lambda drawn: [made("cm", scale, 0, 0, scale, 0, 0), *drawn])


@pytest.mark.parametrize("piece", SPLIT)
@pytest.mark.parametrize("move", [(0.5, 0.0), (0.0, 0.5)])
def test_a_window_shifted_by_half_a_millimetre_is_caught(
    piece: str, move: tuple[float, float]
) -> None:
    """One window on one sheet printed half a millimetre aside differs, and no other does."""
    pack = printed(SPOILT)
    number, place = place_of(pack, piece)

    def moved(page: int, drawn: Instructions) -> Instructions:
        if page != number:
            return drawn
        start = [index for index, each in enumerate(drawn) if operator(each) == "q"][place] + 1
        return [*drawn[:start], made("cm", 1, 0, 0, 1, *move), *drawn[start:]]

    sheets = sheets_with(piece, pack, rewritten(pack.pdf, moved))
    code = pack.manifest["sheets"][number - 1]["windows"][place]["code"]
    assert [each.window for each in differences(pack, piece, sheets)] == [code]


@pytest.mark.parametrize("piece", SPLIT)
def test_a_line_left_out_is_caught(piece: str) -> None:
    """A piece that lacks its last lines on the sheets differs, by pixels missing."""

    def without_last(drawn: Instructions) -> Instructions:
        strokes = [index for index, each in enumerate(drawn) if operator(each) == "S"]
        left_out = set(strokes[len(strokes) // 2 :])  # some may lie in other windows
        return [made("n") if index in left_out else each for index, each in enumerate(drawn)]

    found = with_form(piece, without_last)
    assert any(each.missing for each in found)
    assert not any(each.extra for each in found)


@pytest.mark.parametrize("piece", SPLIT)
def test_a_line_too_many_is_caught(piece: str) -> None:
    """A piece with short thin lines more on the sheets differs, by pixels too many."""
    pack = printed(SPOILT)
    number, place = place_of(pack, piece)
    x0, y0, x1, y1 = pack.manifest["sheets"][number - 1]["windows"][place]["box_mm"]
    lines = [made("G", 0), made("w", 0.18)]  # black, whatever was drawn last
    for share in (0.21, 0.37, 0.52, 0.64, 0.83):  # one may lie on what is drawn there
        x, y = x0 + share * (x1 - x0), y0 + share * (y1 - y0)
        lines += [made("m", x, y), made("l", x + 2, y), made("S")]
    found = with_form(piece, lambda drawn: drawn + lines)
    assert any(each.extra for each in found)
    assert not any(each.missing for each in found)


def test_a_part_painted_over_is_caught() -> None:
    """A sheet on which something white covers a part of a piece differs."""
    pack = printed(SPOILT)
    middle = pack.pack.paper.width / 2, pack.pack.paper.height / 2
    white = [made("g", 1), made("re", *middle, 60, 60), made("f")]
    sheets = sheets_of(rewritten(pack.pdf, lambda _, drawn: drawn + white))
    assert any(differences(pack, piece, sheets) for piece in pack.shown)


def test_a_piece_outside_its_window_is_caught() -> None:
    """A sheet that shows pieces without their clip is not blank outside the windows."""
    pack = printed(SPOILT)
    loose = rewritten(pack.pdf, lambda _, page: [each for each in page if operator(each) != "W*"])
    assert strays(pack, sheets_of(loose))
