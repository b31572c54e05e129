"""A pack for a measured printer, printed by a printer that errs just so, comes out true."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from templates_gen.cakefile.printers import Printer
from templates_gen.drawing.drawing import Drawing
from templates_gen.units import MM_PER_INCH
from templates_gen.writers.svg_sheet import write_sheet_svg
from tests.cakes import sample_plan
from tests.pdf_content import made, rewritten
from tests.prints import Job, Print, print_of
from tests.raster import DPI, by_librsvg, by_pdfium, laid, missing, page_map
from tests.writers.test_assembled import differences, sheets_with
from tests.writers.test_measured import DPI as FINE
from tests.writers.test_measured import TOLERANCE, bar_errors, bars_on, marks_measured

KITCHEN = Printer("kitchen", 0.985, 1.012)


@cache
def pack() -> Print:
    """Return a sample for that printer."""
    plan = sample_plan("lantern-birthday")
    return print_of(Job("lantern-birthday", "a4", "a4"), plan, plan.pieces, KITCHEN)


@cache
def came_out() -> bytes:
    """Return the pages as that printer makes them: stretched about their middle."""
    across, up = KITCHEN.across, KITCHEN.up
    x, y = (side / 2 / MM_PER_INCH * 72 for side in (210, 297))
    erring = made("cm", across, 0, 0, up, x * (1 - across), y * (1 - up))
    return rewritten(pack().pdf, lambda _, page: [erring, *page])


def test_bars_read_what_they_say() -> None:
    """Every bar of every sheet is true to 0.1 mm; on a printer without the error none is."""
    drawn = (by_pdfium(each, FINE) for each in (came_out(), pack().pdf))
    for number, (printed, sent) in enumerate(zip(*drawn, strict=True)):
        bars = list(bars_on(came_out(), number, printed))
        assert len(bars) == 2
        assert all(error <= TOLERANCE for error in bar_errors(bars))
        exact = list(bars_on(pack().pdf, number, sent))
        assert len(exact) == 2
        for bar in exact:
            error = KITCHEN.up if bar.upright else KITCHEN.across
            assert bar.length == pytest.approx(bar.says_mm / error, abs=TOLERANCE)


def test_register_marks_are_where_the_manifest_says() -> None:
    """Every register mark is true to 0.1 mm on its sheet."""
    found = marks_measured(pack(), by_pdfium(came_out(), FINE))
    assert found
    assert all(missed <= TOLERANCE for missed, _ in found)


def test_sheets_put_together_equal_the_whole_piece() -> None:
    """Each piece put together from the printed sheets is the whole piece, to within a pixel."""
    piece = pack().split[0]
    assert not differences(pack(), piece, sheets_with(piece, pack(), came_out()))
    assert differences(pack(), piece, sheets_with(piece, pack(), pack().pdf))


def test_a_sheet_as_svg_is_the_page_of_the_pdf() -> None:
    """The SVG of a sheet is scaled as its page is: every line lies on one of the page."""
    made_of = pack().pack
    lines = replace(made_of.sheets[1], drawing=Drawing(made_of.sheets[1].drawing.strokes))
    (page,) = by_pdfium(pack().pdf, DPI, [1])
    for printer, same in ((KITCHEN, True), (None, False)):
        ink = by_librsvg(write_sheet_svg(replace(made_of, printer=printer), lines), DPI)
        shown = page_map(DPI / 25.4, DPI / 25.4, 297)
        assert (missing(ink, laid(page, shown, ink.shape)) == 0) == same
