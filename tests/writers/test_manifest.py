"""The manifest: its shape, and that the windows it gives make up the pieces."""

from __future__ import annotations

import re
from collections import defaultdict
from itertools import combinations
from typing import Any

import numpy as np
import pypdfium2
import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from tests.prints import BOTH, OWN, Job, Print, printed
from tests.raster import affine
from tests.svg_content import groups, piece_extent, rings

SIDES, ENDS = 7.0, 15.0
"""What a home printer leaves blank at the long and the short edges, mm (common practice)."""
OVERLAP = 10.0
"""What neighbouring windows both show, mm."""
CODE = re.compile(r"([A-HJ-NP-Z]+)([1-9][0-9]*)")
"""Row letter and column number; no I, no O."""

Number = (int, float)
POINT = [Number] * 2
MARK = {"piece_mm": POINT, "sheet_mm": POINT}
WINDOW = {
    "piece": str,
    "code": str,
    "box_mm": [Number] * 4,
    "to_sheet": [Number] * 6,
    "marks": [MARK, ...],
}
SHEET = {"number": int, "windows": [WINDOW, ...]}
PAPER = {"width_mm": Number, "height_mm": Number}


def has_shape(value: Any, shape: Any) -> bool:  # noqa: ANN401 (any JSON)
    """Tell whether JSON data has just the keys and kinds of ``shape``; […] is any number of one."""
    if isinstance(shape, dict):
        return value.keys() == shape.keys() and all(has_shape(value[k], shape[k]) for k in shape)
    if isinstance(shape, list):
        each = [shape[0]] * len(value) if shape[-1] is ... else shape
        return len(value) == len(each) and all(map(has_shape, value, each))
    return isinstance(value, shape)


@pytest.fixture(params=OWN + BOTH, ids="/".join)
def pack(request: pytest.FixtureRequest) -> Print:
    """Return every sample on its own paper, and on the area that A4 and Letter share."""
    job: Job = request.param
    return printed(job)


def test_sheets_have_just_the_promised_keys(pack: Print) -> None:
    """Sheets, windows and marks have the promised keys and kinds of value, and no others."""
    assert pack.manifest.keys() == {"name", "title", "pack_mark", "paper", "files", "sheets"}
    assert has_shape(pack.manifest["sheets"], [SHEET, ...])


def test_paper_has_just_the_promised_keys() -> None:
    """The paper has its width and height, and nothing else."""
    assert has_shape(printed(OWN[0]).manifest["paper"], PAPER)


def test_a_wrong_shape_is_caught() -> None:
    """A key too many, one missing, and a text for a number are found."""
    sheet = {"number": 1, "windows": []}
    assert has_shape([sheet], [SHEET, ...])
    for wrong in ({**sheet, "name": "x"}, {"number": 1}, {**sheet, "number": "1"}):
        assert not has_shape([wrong], [SHEET, ...])


def test_sheets_are_the_pages_of_the_pdf(pack: Print) -> None:
    """Sheets count from 1 as the pages do, have their size, and after the cover none is empty."""
    sheets = pack.manifest["sheets"]
    document = pypdfium2.PdfDocument(pack.pdf)
    assert [sheet["number"] for sheet in sheets] == list(range(1, len(document) + 1))
    size = (pack.manifest["paper"]["width_mm"], pack.manifest["paper"]["height_mm"])
    for page in document:
        assert np.array(page.get_size()) / 72 * 25.4 == pytest.approx(size, abs=0.01)
    filled = [bool(sheet["windows"]) for sheet in sheets]
    assert filled == sorted(filled)


def test_each_printed_piece_is_there(pack: Print) -> None:
    """Every printed piece has its windows, each with a code of its own; no other piece has."""
    assert set(pack.shown) == {piece.id for piece in pack.pieces if piece.printed}
    codes = [(window["piece"], window["code"]) for _, window in pack.windows]
    assert len(set(codes)) == len(codes)
    assert all(CODE.fullmatch(code) for _, code in codes)
    assert {code for piece, code in codes if piece not in pack.split} == {"A1"}


def test_maps_are_rigid(pack: Print) -> None:
    """A piece is moved and turned on the sheet, never scaled, sheared or mirrored."""
    for _, window in pack.windows:
        turn = affine(*window["to_sheet"])[:2, :2]
        assert np.linalg.det(turn) == pytest.approx(1, abs=1e-9)
        assert turn @ turn.T == pytest.approx(np.eye(2), abs=1e-9)


def test_marks_lie_in_their_windows(pack: Print) -> None:
    """A mark is in its window's box, and the map takes it to its place on the sheet."""
    for _, window in pack.windows:
        x0, y0, x1, y1 = window["box_mm"]
        for mark in window["marks"]:
            x, y = mark["piece_mm"]
            assert x0 < x < x1
            assert y0 < y < y1
            on_sheet = affine(*window["to_sheet"]) @ (x, y, 1)
            assert on_sheet[:2] == pytest.approx(mark["sheet_mm"], abs=1e-6)


def test_windows_lie_apart_in_the_printable_area(pack: Print) -> None:
    """No two windows of a sheet overlap, and none reaches into the margins."""
    paper = pack.manifest["paper"]
    area = shapely.box(SIDES, ENDS, paper["width_mm"] - SIDES, paper["height_mm"] - ENDS)
    on_sheet = defaultdict(list)
    for number, window in pack.windows:
        x0, y0, x1, y1 = window["box_mm"]
        corners = affine(*window["to_sheet"]) @ np.array(
            [[x0, x1, x1, x0], [y0, y0, y1, y1], [1] * 4]
        )
        on_sheet[number].append(shapely.Polygon(corners[:2].T))
    for windows in on_sheet.values():
        assert all(area.buffer(1e-6).covers(window) for window in windows)
        assert all(one.intersection(other).area < 1e-6 for one, other in combinations(windows, 2))


def test_windows_cover_each_piece(pack: Print) -> None:
    """The windows together show all that the cut line of the SVG encloses, and the line's width."""
    for piece in pack.shown:
        svg = pack.svg(piece)
        at = piece_extent(svg)
        cut: BaseGeometry = shapely.Polygon()
        for ring in rings(groups(svg)["cut"]):
            # a contour inside another is a hole
            contour = shapely.Polygon([(x - at.left, at.foot - y) for x, y in ring])
            cut = shapely.symmetric_difference(cut, contour)
        cut = cut.buffer(0.25)  # half the width of its line
        boxes = [shapely.box(*w["box_mm"]) for _, w in pack.windows if w["piece"] == piece]
        assert cut.difference(shapely.union_all(boxes)).area < 1e-6, piece
        assert len(boxes) == 1 or not cut.within(shapely.union_all(boxes[1:]))


def test_neighbours_overlap_by_ten_millimetres(pack: Print) -> None:
    """Windows next to each other in a row or a column both show the same 10 mm."""
    boxes: dict[tuple[str, str, int], list[float]] = {}
    for _, window in pack.windows:
        found = CODE.fullmatch(window["code"])
        assert found
        boxes[window["piece"], found[1], int(found[2])] = window["box_mm"]
    rows = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    for (piece, row, column), box in boxes.items():
        right = boxes.get((piece, row, column + 1))
        below = boxes.get((piece, rows[rows.index(row) + 1], column))
        assert right is None or box[2] - right[0] == pytest.approx(OVERLAP)
        assert below is None or below[3] - box[1] == pytest.approx(OVERLAP)
