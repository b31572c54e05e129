"""Nesting, cutting and numbering on their own."""

from __future__ import annotations

import math
from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cake.papers import PAPERS
from templates_gen.drawing.path import Box
from templates_gen.errors import CakeError
from templates_gen.sheets.stretches import OVERLAP, Axis, stretches
from templates_gen.sheets.frame import Margins, frame_for
from templates_gen.sheets.nest import nest
from templates_gen.sheets.split import letters

SIZES = st.lists(st.tuples(st.floats(5, 180), st.floats(5, 240)), min_size=1, max_size=30)


@given(SIZES)
def test_nested_items_lie_on_their_sheet_apart_from_each_other(
    sizes: list[tuple[float, float]],
) -> None:
    """Every item has one spot, inside the sheet, over no other item."""
    spots = nest(sizes, range(len(sizes)), 180, 240)
    boxes = []
    for (width, height), spot in zip(sizes, spots, strict=True):
        w, h = (height, width) if spot.turned else (width, height)
        box = Box(spot.x, spot.y, spot.x + w, spot.y + h)
        assert Box(0, 0, 180, 240).holds(box, 1e-6)
        boxes.append((spot.sheet, box))
    for (one_sheet, one), (other_sheet, other) in combinations(boxes, 2):
        common = one.common(other) if one_sheet == other_sheet else None
        assert common is None or min(common.width, common.height) < 1e-5


def test_items_that_fit_one_sheet_exactly_take_one_sheet() -> None:
    """Halves of a sheet lie on one, the second turned."""
    sizes = [(180.0, 120.0), (120.0, 180.0)]
    assert {spot.sheet for spot in nest(sizes, range(2), 180, 240)} == {0}


@given(st.floats(10, 3000), st.floats(60, 400), st.booleans(), st.data())
def test_stretches_cover_an_axis_with_the_fewest(
    length: float, most: float, equal: bool, data: st.DataObject
) -> None:
    """They overlap by 10 mm, none is longer than allowed, and fewer would not reach."""
    hits = tuple(data.draw(st.lists(st.integers(0, 3), min_size=1, max_size=40)))
    axis = Axis(0, length, (hits * (math.ceil(length) // len(hits) + 1))[: math.ceil(length) + 1])
    found = stretches(axis, most, equal=equal)
    assert found[0][0] == 0
    assert found[-1][1] == length
    assert all(end - start <= most + 1e-6 for start, end in found)
    for (_, end), (start, _) in pairwise(found):
        assert end - start == pytest.approx(OVERLAP)
    if len(found) > 1:
        fewer = len(found) - 1
        assert fewer * most - (fewer - 1) * OVERLAP < length


@given(
    st.integers(1, 12),
    st.floats(60, 400),
    st.floats(-1e-8, 1e-8),
    st.booleans(),
    st.integers(0, 3),
)
def test_lengths_that_stretches_just_fill_are_covered(
    count: int, most: float, more: float, equal: bool, busy: int
) -> None:
    """A length that so many stretches fill to the last place, or miss by a rounding, is covered."""
    length = OVERLAP + count * (most - OVERLAP) + more
    found = stretches(Axis(0, length, (busy,) * (math.ceil(length) + 1)), most, equal=equal)
    assert len(found) in (count, count + 1)
    assert (found[0][0], found[-1][1]) == (0, length)
    assert all(end - start <= most + 1e-6 for start, end in found)


def test_a_cut_keeps_clear_of_words_where_it_can() -> None:
    """With a free gap in reach, the match line lies in it."""
    busy = [0 if 150 <= place <= 160 else 1 for place in range(301)]
    (_, end), _ = stretches(Axis(0, 300, tuple(busy)), 200, equal=False)
    assert 150 <= end - OVERLAP / 2 <= 160


def test_rows_are_lettered_without_i_and_o() -> None:
    """Fields are A, B and so on without I and O (ISO 5457 as public templates have it)."""
    names = [letters(index) for index in range(26)]
    assert names[:9] == ["A", "B", "C", "D", "E", "F", "G", "H", "J"]
    assert not {"I", "O"} & set(names)
    assert names[24:] == ["AA", "AB"]


@pytest.mark.parametrize("name", PAPERS)
def test_the_printable_area_keeps_the_margins(name: str) -> None:
    """7 mm in from the long edges, 15 mm from the short ones, unless the cake says otherwise."""
    paper = PAPERS[name]
    area = frame_for(paper, (), Margins()).area
    assert area == pytest.approx((7, 15, paper.width - 7, paper.height - 15))
    wide = frame_for(paper, (), Margins(3, 5)).area
    assert wide == pytest.approx((3, 5, paper.width - 3, paper.height - 5))


def test_the_shared_area_fits_both_papers() -> None:
    """The area A4 and Letter share is as wide as A4's and as tall as Letter's."""
    shared = (PAPERS["a4"], PAPERS["letter"])
    for paper in shared:
        area = frame_for(paper, shared, Margins()).area
        assert (area.width, area.height) == pytest.approx((210 - 14, 11 * 25.4 - 30))
        assert Box(7, 15, paper.width - 7, paper.height - 15).holds(area)


def test_margins_that_leave_no_room_are_an_error() -> None:
    """The message says how much is left and what is needed."""
    with pytest.raises(CakeError, match="margin_sides"):
        frame_for(PAPERS["a4"], (), Margins(70, 15))
