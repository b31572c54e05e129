"""Check bars and register marks measured on the raster as with a very good ruler, to 0.1 mm."""

from __future__ import annotations

import math
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

import cv2
import numpy as np
import numpy.typing as npt
import pypdfium2
import pytest

from tests.pdf_content import made, rewritten
from tests.prints import OWN, Job, Print, printed
from tests.raster import DARK, Ink, Raster, affine, by_pdfium

DPI = 300
TOLERANCE = 0.1
"""What the paper promises of check bars and register marks, mm."""
CAPTION = re.compile(r"(\d+) mm \((\d+\.\d+) in\)")
INCH = 25.4
"""NBS Circular 572 Addendum (1960): 1 yd = 0.9144 m."""

Point = tuple[float, float]


class Bar(NamedTuple):
    """A check bar: which way it runs, what its caption says, what is measured from its start."""

    upright: bool
    says_mm: float
    says_in: float
    length: float
    inches: list[float]


def middle(ink: npt.NDArray[np.floating]) -> float:
    """Return the middle of a line from the ink across it, in pixels; nan where there is none."""
    total = ink.sum()
    return float(ink @ np.arange(len(ink)) / total) if total > DARK / 2 else math.nan


class Level(NamedTuple):
    """The surroundings of a bar, turned so that it runs to the right with its caption above."""

    ink: Ink
    along: float
    """Column of the caption's middle."""
    row: int
    """Row of the bar."""
    per_mm: Point
    """Pixels to a mm along and aside."""

    def tick(self, column: float, aside: tuple[float, float]) -> float:
        """Return the column of the tick near ``column``, seen so many mm below the bar."""
        first = round(column - 1.5 * self.per_mm[0])
        last = round(column + 1.5 * self.per_mm[0]) + 1
        rows = [self.row + round(mm * self.per_mm[1]) for mm in aside]
        return first + middle(self.ink[rows[0] : rows[1], first:last].mean(axis=0))


def level(raster: Raster, box: tuple[float, float, float, float], length: float) -> Level:
    """Turn the page level with the bar that has its caption in ``box``, mm, and find the bar."""
    left, foot, right, top = box
    x, y, _ = raster.from_mm @ ((left + right) / 2, (foot + top) / 2, 1)
    across, down = raster.from_mm[0, 0], -raster.from_mm[1, 1]
    if top - foot > right - left:
        ink, along = np.rot90(raster.ink, -1), len(raster.ink) - 1 - y
        near, per_mm = (raster.from_mm @ (right, 0, 1))[0], (down, across)
    else:
        ink, along = raster.ink, x
        near, per_mm = (raster.from_mm @ (0, foot, 1))[1], (across, down)
    half = length / 3 * per_mm[0]
    # the bar is 1.4 mm below its words; beyond 2.5 mm a piece may have an edge as long
    below = ink[
        round(near) : round(near + 2.5 * per_mm[1]), round(along - half) : round(along + half)
    ]
    return Level(ink, along, round(near) + int(below.mean(axis=1).argmax()), per_mm)


def bars_on(pdf: bytes, number: int, raster: Raster) -> Iterator[Bar]:
    """Find the check bars of a page (from 0) by their captions, and measure them as drawn."""
    text = pypdfium2.PdfDocument(pdf)[number].get_textpage()
    for caption in CAPTION.finditer(text.get_text_range()):
        boxes = np.array([text.get_charbox(at) for at in range(*caption.span())]) / 72 * INCH
        left, foot = boxes[:, :2].min(axis=0)
        right, top = boxes[:, 2:].max(axis=0)
        says_mm, says_in = map(float, caption.groups())
        seen = level(raster, (left, foot, right, top), says_mm)
        half = says_mm / 2 * seen.per_mm[0]
        # only the ticks at the ends reach from 1.8 to 2.8 mm above the bar
        start, end = (seen.tick(seen.along + side, (-2.8, -1.8)) for side in (-half, half))
        inches = [
            (seen.tick(start + inch * INCH * seen.per_mm[0], (0.5, 1.3)) - start) / seen.per_mm[0]
            for inch in range(1, int(says_mm / INCH) + 1)
        ]
        yield Bar(
            bool(top - foot > right - left),
            says_mm,
            says_in,
            (end - start) / seen.per_mm[0],
            inches,
        )


def bar_errors(bars: Iterable[Bar]) -> list[float]:
    """Return by how much each bar, and each inch on it, is off, mm."""
    return [
        abs(measured - should)
        for bar in bars
        for measured, should in [
            (bar.length, bar.says_mm),
            *((at, INCH * inch) for inch, at in enumerate(bar.inches, 1)),
        ]
    ]


def mark_centre(raster: Raster, near: Point) -> Point:
    """Return the middle of the register mark near a point of a page, mm; nan where there is none.

    The upright arms give x, the level ones y: the median over the rows (columns) between ring and
    centre and beyond the ring, so that a line of the piece across an arm does not count.
    """
    column, row, _ = raster.from_mm @ (*near, 1)
    reach = round(3.2 * raster.from_mm[0, 0])
    x, y = round(column), round(row)
    seen = raster.ink[y - reach : y + reach + 1, x - reach : x + reach + 1].astype(np.float64)
    dx, dy = _arm(seen, raster.from_mm[0, 0]), _arm(seen.T, raster.from_mm[0, 0])
    found = np.linalg.inv(raster.from_mm) @ (x + dx, y + dy, 1)
    return float(found[0]), float(found[1])


def _arm(seen: npt.NDArray[np.float64], per_mm: float) -> float:
    """Return how far the upright arm stands from the middle column of a mark's surroundings."""
    half, search = len(seen) // 2, round(0.4 * per_mm)
    rows = [
        half + side * round(mm * per_mm)
        for side in (-1, 1)
        for mm in (0.6, 0.8, 1.0, 1.2, 1.4, 1.6, 2.4, 2.6, 2.8, 3.0)
    ]
    middles = [middle(seen[row, half - search : half + search + 1]) for row in rows]
    return float(np.median(middles)) - search


def ring_shown(raster: Raster, centre: Point) -> float:
    """Return the share of a register mark's ring, 2 mm about its centre, that is drawn."""
    angles = np.radians(np.arange(0, 360, 5))
    x, y = centre
    around = np.array([x + 2 * np.cos(angles), y + 2 * np.sin(angles), np.ones(len(angles))])
    columns, rows, _ = np.rint(raster.from_mm @ around).astype(int)
    near = cv2.dilate(raster.ink, np.ones((3, 3), np.uint8))
    return float(np.mean(near[rows, columns] >= DARK))


def marks_measured(pack: Print, rasters: Sequence[Raster]) -> list[tuple[float, float]]:
    """Return for each register mark by how much its middle is off, mm, and its ring's share."""
    found = []
    for number, window in pack.windows:
        for mark in window["marks"]:
            centre = mark_centre(rasters[number - 1], mark["sheet_mm"])
            missed = math.dist(centre, mark["sheet_mm"])
            found.append((missed, ring_shown(rasters[number - 1], mark["sheet_mm"])))
    return found


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_check_bars_and_register_marks_are_true(job: Job) -> None:
    """Bars and marks of every sheet are true to 0.1 mm.

    A level and an upright bar of 100 mm, on the first sheet of 150 mm; every mark a cross in a
    whole ring, its middle where the manifest says.
    """
    pack = printed(job)
    rasters = by_pdfium(pack.pdf, DPI)
    assert len(rasters) == len(pack.manifest["sheets"])
    for number, raster in enumerate(rasters):
        bars = list(bars_on(pack.pdf, number, raster))
        assert sorted(bar.upright for bar in bars) == [False, True]
        assert [bar.says_mm for bar in bars] == [100 if number else 150] * 2
        assert all(error <= TOLERANCE for error in bar_errors(bars))
        # a caption says the same length in both units, to a hundredth of an inch
        assert all(abs(bar.says_in - bar.says_mm / INCH) <= 0.005 for bar in bars)
    marks = marks_measured(pack, rasters)
    assert all(ring == 1 for _, ring in marks)
    assert all(missed <= TOLERANCE for missed, _ in marks)


@pytest.mark.parametrize("job", OWN, ids="/".join)
def test_marks_of_neighbours_are_the_same_points_of_the_piece(job: Job) -> None:
    """In the manifest each mark is on two sheets, and both lead back to one point to 0.01 mm."""
    pack = printed(job)
    found: dict[str, list[Point]] = defaultdict(list)
    for _, window in pack.windows:
        to_piece = np.linalg.inv(affine(*window["to_sheet"]))
        for mark in window["marks"]:
            x, y, _ = to_piece @ (*mark["sheet_mm"], 1)
            assert math.dist((x, y), mark["piece_mm"]) <= 0.01
            found[window["piece"]].append((x, y))
    assert set(found) == set(pack.split)
    for points in found.values():
        for point in points:
            assert sum(math.dist(point, other) <= 0.01 for other in points) == 2


def test_sheets_printed_at_99_5_percent_are_caught() -> None:
    """No bar and no mark passes on sheets that the printer shrank by half a percent."""
    pack = printed(OWN[1])
    small = rewritten(pack.pdf, lambda _, page: [made("cm", 0.995, 0, 0, 0.995, 0, 0), *page])
    rasters = by_pdfium(small, DPI)
    for number, raster in enumerate(rasters):
        bars = list(bars_on(small, number, raster))
        assert len(bars) == 2
        for bar in bars:
            assert bar.length == pytest.approx(0.995 * bar.says_mm, abs=0.02)
            # its first inches are off by less
            assert max(bar_errors([bar])) > TOLERANCE
    # a mark passes as above: nan, one that is not found, does not, nor other lines near its place
    assert not any(miss <= TOLERANCE and ring == 1 for miss, ring in marks_measured(pack, rasters))
