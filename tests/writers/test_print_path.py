"""Packs on their way to paper come out true, or off by what the first sheet warns of."""

from __future__ import annotations

from io import BytesIO

import numpy as np
import pikepdf
import pytest

from templates_gen.cover.pages import FIT_TO_PAGE
from tests.print_path import SIZES, by_cups, by_ghostscript
from tests.prints import BOTH, printed
from tests.raster import DARK, Ink, by_pdfium, missing
from tests.writers.test_measured import TOLERANCE

JOBS = {job.paper: job for job in BOTH if job.sample == "lantern-birthday"}
PAPER = {"A4": "a4", "Letter": "letter"}
BAR = 150.0
LINE = 0.25
"""Length of the bars on the first sheet and width of their lines, mm."""
DPI = 300


def longest_run(ink: Ink) -> int:
    """Return the most dark pixels in a row without a gap."""
    dark = np.pad(ink >= DARK, ((0, 0), (1, 1))).astype(np.int8)
    edges = np.diff(dark, axis=1).ravel()
    starts, ends = np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)
    return int((ends - starts).max(initial=0))


def bars(pdf: bytes) -> tuple[float, float]:
    """Return the lengths of the level and the upright bar of the first page, mm, as a ruler does.

    Each is the longest line near its edge of the paper, where nothing else is as long.
    """
    (page,) = by_pdfium(pdf, DPI, [0])
    across, down = page.from_mm[0, 0], -page.from_mm[1, 1]
    foot = page.ink[round(len(page.ink) * 0.75) :]
    left = page.ink[:, : round(page.ink.shape[1] * 0.15)]
    return longest_run(foot) / across - LINE, longest_run(left.T) / down - LINE


def size(pdf: bytes) -> tuple[float, float]:
    """Return the size of the first page, points."""
    with pikepdf.open(BytesIO(pdf)) as document:
        box = [float(each) for each in document.pages[0].MediaBox]
    return box[2] - box[0], box[3] - box[1]


@pytest.mark.parametrize("paper", PAPER.values())
def test_ghostscript_keeps_every_line(paper: str) -> None:
    """Written anew by Ghostscript, bars are true, and every sheet is the same to a pixel."""
    pdf = printed(JOBS[paper]).pdf
    through = by_ghostscript(pdf)
    assert bars(through) == pytest.approx((BAR, BAR), abs=TOLERANCE)
    for before, after in zip(by_pdfium(pdf, 100), by_pdfium(through, 100), strict=True):
        assert missing(before.ink, after.ink) == missing(after.ink, before.ink) == 0


@pytest.mark.parametrize("tray", SIZES)
@pytest.mark.parametrize("paper", PAPER.values())
def test_without_scaling_bars_are_true_on_either_paper(paper: str, tray: str) -> None:
    """Printed without scaling, also on the other paper, the bars are true to 0.1 mm."""
    through = by_cups(printed(JOBS[paper]).pdf, tray, "none")
    assert size(through) == pytest.approx(SIZES[tray], abs=0.1)
    assert bars(through) == pytest.approx((BAR, BAR), abs=TOLERANCE)


@pytest.mark.parametrize("scaling", ["auto", "fit"])
@pytest.mark.parametrize("tray", SIZES)
@pytest.mark.parametrize("paper", PAPER.values())
def test_scaling_is_none_or_what_the_first_sheet_warns_of(
    paper: str, tray: str, scaling: str
) -> None:
    """Where the print system scales, the bars read what the first sheet says of “fit to page”."""
    for length in bars(by_cups(printed(JOBS[paper]).pdf, tray, scaling)):
        low, high = (round(share * BAR) for share in FIT_TO_PAGE)
        assert abs(length - BAR) <= TOLERANCE or low <= length <= high, length


def test_fit_to_page_is_seen() -> None:
    """A pack for A4 that is fitted to Letter does come out too small."""
    assert max(bars(by_cups(printed(JOBS["a4"]).pdf, "Letter", "fit"))) < BAR - 4
