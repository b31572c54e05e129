"""Laws of laying out: what holds for every cake on every paper."""

from __future__ import annotations

from collections import defaultdict
from itertools import combinations

import pytest
import shapely
from fontTools.misc.transform import Transform
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from templates_gen import PAPERS, build_pieces, lay_out
from templates_gen.cake.model import Cake
from templates_gen.cake.papers import SHARED, Paper
from templates_gen.drawing import lettering
from templates_gen.drawing.path import Box
from templates_gen.drawing.piece import Label
from templates_gen.drawing.polygons import region
from templates_gen.sheets.layout import lay_out_each
from templates_gen.sheets.pack import Pack, Window
from templates_gen.sheets.stretches import OVERLAP
from tests.strategies import cakes

OWN = st.builds(
    lambda width, more: Paper("own", float(width), float(width + more)),
    st.integers(144, 500),
    st.integers(40, 300),
)
PAPER = st.one_of(st.sampled_from(list(PAPERS.values())), OWN)


FEW = settings(max_examples=30)
"""A pack takes a tenth of a second; a law is soon broken or not at all."""


@st.composite
def packs(draw: st.DrawFn) -> Pack:
    """Draw a random cake on a random paper."""
    cake: Cake = draw(cakes())
    return lay_out(cake, build_pieces(cake), draw(PAPER))


def shown(window: Window) -> BaseGeometry:
    """Return the part of a piece that a window shows, on the sheet."""
    part = region(window.piece.outline).intersection(shapely.box(*window.box))
    a, b, c, d, e, f = window.to_sheet
    moved: BaseGeometry = shapely.affinity.affine_transform(part, (a, c, b, d, e, f))
    return moved


def by_piece(pack: Pack) -> dict[str, list[Window]]:
    """Return the windows of each piece."""
    found: dict[str, list[Window]] = defaultdict(list)
    for sheet in pack.sheets:
        for window in sheet.windows:
            found[window.piece.id].append(window)
    return found


@FEW
@given(packs())
def test_everything_printed_lies_inside_the_printable_area(pack: Pack) -> None:
    """No label, window or line of a sheet leaves the printable area."""
    for sheet in pack.sheets:
        for label in sheet.drawing.labels:
            assert pack.area.holds(label.box, 0.05), (sheet.number, label)
        for window in sheet.windows:
            assert pack.area.holds(window.box.transformed(window.to_sheet), 1e-6)
        for stroke in sheet.drawing.strokes:
            assert pack.area.holds(stroke.path.bounds, 0.6), (sheet.number, stroke)


@FEW
@given(packs())
def test_no_two_windows_of_a_sheet_overlap(pack: Pack) -> None:
    """What one window shows covers nothing that another shows, by the true outlines."""
    for sheet in pack.sheets:
        for one, other in combinations(sheet.windows, 2):
            assert shown(one).intersection(shown(other)).area < 1e-6


@FEW
@given(packs())
def test_windows_put_together_give_the_piece_back(pack: Pack) -> None:
    """The union of a piece's windows is the piece; neighbours share an overlap of 10 mm."""
    for windows in by_piece(pack).values():
        whole = region(windows[0].piece.outline)
        parts = [whole.intersection(shapely.box(*window.box)) for window in windows]
        assert shapely.union_all(parts).area == pytest.approx(whole.area, rel=1e-9)
        doubled = sum(part.area for part in parts) - whole.area
        assert (doubled > 1e-6) == (len(windows) > 1)
        for one, other in combinations(windows, 2):
            common = one.box.common(other.box)
            if common is not None:
                assert min(common.width, common.height) <= OVERLAP + 1e-6


@FEW
@given(packs())
def test_every_printed_piece_is_there_once_and_no_sheet_is_empty(pack: Pack) -> None:
    """Codes of a piece differ; a sheet after the cover shows something; numbers run on."""
    assert [sheet.number for sheet in pack.sheets] == list(range(1, len(pack.sheets) + 1))
    for windows in by_piece(pack).values():
        codes = [window.code for window in windows]
        assert len(codes) == len(set(codes))
    first = next(index for index, sheet in enumerate(pack.sheets) if sheet.windows)
    assert all(sheet.windows for sheet in pack.sheets[first:])
    for sheet in pack.sheets:
        assert all(shown(window).area > 0 for window in sheet.windows)


@FEW
@given(packs())
def test_a_window_lies_on_its_sheet_at_true_size(pack: Pack) -> None:
    """The map from piece to sheet turns by quarters and moves, and does nothing else."""
    turns = {(1, 0, 0, 1), (0, 1, -1, 0), (0, -1, 1, 0)}
    for windows in by_piece(pack).values():
        assert {tuple(window.to_sheet)[:4] for window in windows} <= turns


@FEW
@given(packs())
def test_register_marks_are_shared_by_neighbours(pack: Pack) -> None:
    """Each mark of a split piece lies in its window, and on exactly two of its windows."""
    for windows in by_piece(pack).values():
        seen: dict[tuple[float, float], int] = defaultdict(int)
        for window in windows:
            for mark in window.marks:
                assert shapely.box(*window.box).covers(shapely.Point(mark.on_piece))
                assert window.to_sheet.transformPoint(mark.on_piece) == mark.on_sheet
                seen[mark.on_piece] += 1
        assert set(seen.values()) <= {2}
        assert bool(seen) == (len(windows) > 1)


@FEW
@given(packs())
def test_split_pieces_hang_together_by_their_marks(pack: Pack) -> None:
    """From any window one comes to every other over joins that carry two marks."""
    for windows in by_piece(pack).values():
        reached, wave = {windows[0].code}, [windows[0]]
        while wave:
            here = wave.pop()
            mine = {mark.on_piece for mark in here.marks}
            for other in windows:
                common = mine & {mark.on_piece for mark in other.marks}
                if other.code not in reached and len(common) >= 2:
                    reached.add(other.code)
                    wave.append(other)
        assert len(reached) == len(windows), windows[0].piece.id


@FEW
@given(packs())
def test_every_label_of_a_piece_is_printed_once_and_whole(pack: Pack) -> None:
    """The words of a piece are on its sheets as often as the piece has them."""
    for windows in by_piece(pack).values():
        piece = windows[0].piece
        sheets = [sheet for sheet in pack.sheets if any(w.piece is piece for w in sheet.windows)]
        printed = [label.text for sheet in sheets for label in sheet.drawing.labels]
        # a line that had no room is broken into several
        running = " ".join(printed)
        for label in piece.drawing.labels:
            assert label.text in printed or label.text in running


def printed_on(label: Label) -> shapely.Polygon:
    """Return what a label takes of a sheet, without a hair's breadth round it."""
    top, foot = lettering.CAP_HEIGHT * label.size, -lettering.DESCENT * label.size
    own = Box(0, foot, label.width, top).grown(-0.1)
    return shapely.Polygon(label.frame.transformPoints(own.corners))


@FEW
@given(packs())
def test_no_text_of_a_sheet_lies_on_another(pack: Pack) -> None:
    """Whatever the cake and the paper, the words of pieces, marks and margins stay apart."""
    for sheet in pack.sheets:
        labels = sheet.drawing.labels
        places = [printed_on(label) for label in labels]
        for one, other in shapely.STRtree(places).query(places, "intersects").T:
            assert one == other, (sheet.number, labels[one].text, labels[other].text)


@FEW
@given(packs())
def test_words_are_large_enough_to_read(pack: Pack) -> None:
    """Words in the margins and along windows are 3 mm, names of the grid 2.6, in maps 2.2."""
    pieces = {window.piece.id: window.piece for sheet in pack.sheets for window in sheet.windows}
    of_pieces = {label.text for piece in pieces.values() for label in piece.drawing.labels}
    for sheet in pack.sheets:
        for label in sheet.drawing.labels:
            least = 3.0 if len(label.text) > 3 and sheet.windows else 2.6 if sheet.windows else 2.2
            assert label.size >= least or label.text in " ".join(of_pieces)


@FEW
@given(cakes())
def test_both_papers_have_the_same_sheets(cake: Cake) -> None:
    """Laid out on the area A4 and Letter share, sheet 7 is sheet 7 for everyone."""
    pieces = build_pieces(cake)
    one, other = lay_out_each(cake, pieces, ["both"])
    alone = lay_out(cake, pieces, PAPERS["letter"], shared=SHARED)
    assert other.area == pytest.approx(alone.area)
    assert other.sheets[-1].drawing.labels[0].at == pytest.approx(
        alone.sheets[-1].drawing.labels[0].at
    )
    assert len(one.sheets) == len(other.sheets)
    for sheet, twin in zip(one.sheets, other.sheets, strict=True):
        assert [(w.piece.id, w.code, w.box) for w in sheet.windows] == [
            (w.piece.id, w.code, w.box) for w in twin.windows
        ]
        for window, double in zip(sheet.windows, twin.windows, strict=True):
            back: Transform = window.to_sheet.inverse()
            assert back.transform(double.to_sheet)[:4] == pytest.approx((1, 0, 0, 1))
