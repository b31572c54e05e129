"""Blocks put under one another, paragraphs and tables."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import partial
from itertools import combinations, groupby, pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.flow import Block, columns_first, flow, heading, table, text
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line

WORDS = st.text("abc defg. ", min_size=1, max_size=60).filter(str.strip)
PAGE = Box(20, 30, 200, 250)


SAID = st.lists(st.tuples(WORDS, st.booleans()), min_size=1, max_size=40)


@given(SAID, st.integers(0, 39), st.floats(40, 200))
def test_every_block_comes_once_in_order_and_no_heading_ends_a_column(
    said: list[tuple[str, bool]], first: int, low: float
) -> None:
    """Pages hold all blocks of all sections, inside the page; below each heading what it leads."""
    room = PAGE._replace(y0=low)

    def section(width: float, part: Sequence[tuple[int, tuple[str, bool]]]) -> list[Block]:
        return [
            heading(f"H{number}") if leads else text(f"T{number} {words}", width)
            for number, (words, leads) in part
        ]

    # headings that lead each other stay together, and have room on a page
    runs = [len(list(run)) for leads, run in groupby(leads for _, leads in said) if leads]
    assume(heading("").height * (max(runs, default=0) + 2) < room.height)
    # a section does not end with a heading
    said = [*said[:first], ("end", False), *said[first:], ("end", False)]
    numbered = list(enumerate(said))
    parts = [part for part in (numbered[: first + 1], numbered[first + 1 :]) if part]
    pages = flow([partial(lambda part, width: section(width, part), part) for part in parts], room)
    labels = [label for page in pages for label in page.labels]
    starts = [label for label in labels if label.text[:1] in "HT" and "," not in label.text]
    found = [label.text.split()[0] for label in starts]
    assert found == [("H" if leads else "T") + str(number) for number, (_, leads) in numbered]
    for page in pages:
        assert all(room.contains(label.box, 0.5) for label in page.labels)
        for one, other in pairwise(page.labels):
            if one.text.startswith("H") and "," not in one.text:
                assert one.at[0] == other.at[0]
                assert one.at[1] > other.at[1]
        assert not page.labels[-1].text.startswith("H")


def test_a_narrow_table_stands_in_two_columns() -> None:
    """Where half of each line would be empty, its rows stand beside each other, alike tall."""
    rows = [("name", "size"), *[(f"row {number}", "1") for number in range(20)]]
    (page,) = flow([lambda width: [heading("Sizes"), *table(rows, width)]], PAGE)
    places = {label.text: label.at for label in page.labels}
    assert places["row 0"][0] < PAGE.centre[0] < places["row 19"][0]
    assert abs(places["row 19"][1] - min(y for _, y in places.values())) < 10


def test_what_needs_the_whole_width_comes_after_the_columns() -> None:
    """Columns are not parted by it; otherwise sections keep their order."""
    narrow = [("name", "size"), *[("row", "1")] * 9]
    wide = [["measurements"] * 8] * 9
    said = [("A", narrow), ("B", wide), ("C", narrow), ("D", wide)]
    sections = [
        partial(lambda name, rows, width: [heading(name), *table(rows, width)], name, rows)
        for name, rows in said
    ]
    found = columns_first(sections, PAGE.width)
    names = [section(PAGE.width)[0].drawing.labels[0].text for section in found]
    assert names == ["A", "C", "B", "D"]


@pytest.mark.parametrize("width", [85, 95])
def test_a_wide_picture_stands_in_no_column(width: float) -> None:
    """Beside a text it would leave the page, with its lines as with its words."""
    drawn = Drawing((Stroke(line((0, -10), (width, -10)), Role.NOTE),))
    blocks = [Block(20, drawn), Block(20, drawn)]
    (page,) = flow([lambda _: blocks], PAGE)
    assert all(PAGE.contains(stroke.path.bounds) for stroke in page.strokes)
    beside = len({stroke.path.bounds.y0 for stroke in page.strokes}) == 1
    assert beside == (width < PAGE.width / 2)


@pytest.mark.parametrize("rows", [41, 80, 97, 150])
def test_the_last_page_is_filled_by_a_third(rows: int) -> None:
    """More of a text is left for a last page that would hold little, and no page is added."""
    blocks = [Block(5, Drawing(labels=(Label(f"{number}", (0, -4)),))) for number in range(rows)]
    pages = flow([lambda _: blocks], PAGE)
    # two columns of blocks of 5 mm
    assert len(pages) == math.ceil(rows / (2 * (PAGE.height // 5)))
    if len(pages) > 1:
        lowest = min(label.at[1] - 1 for label in pages[-1].labels)
        assert PAGE.y1 - lowest >= PAGE.height / 3 - 5


def test_a_block_without_words_takes_its_height() -> None:
    """A picture stands between paragraphs, and what follows stands below it."""
    blocks = (text("before", 100), Block(80, Drawing()), text("after", 100))
    (page,) = flow([partial(lambda block, _: [block], block) for block in blocks], PAGE)
    before, after = (label.at[1] for label in page.labels)
    assert before - after > 80


@given(st.lists(st.tuples(WORDS, WORDS, WORDS), min_size=1, max_size=8), st.floats(70, 180))
def test_a_table_keeps_its_width_and_its_cells_apart(
    rows: list[tuple[str, str, str]], width: float
) -> None:
    """No cell reaches beyond the table or onto another; neither end of the table stands alone."""
    blocks = table(rows, width)
    leads = [number in (0, len(rows) - 2) for number in range(len(rows))]
    assert [block.leads for block in blocks] == leads
    for block in blocks:
        boxes = [label.box for label in block.drawing.labels]
        assert all(Box(0, -block.height, width, 0).contains(box, 1e-6) for box in boxes)
        assert not any(one.intersection(other) for one, other in combinations(boxes, 2))


def test_a_table_that_runs_on_has_its_headings_on_each_page() -> None:
    """Each column of each page begins with them, and has them once."""
    rows = [("name", "size"), *[("row", "1")] * 120]
    pages = flow([lambda width: table(rows, width)], PAGE)
    assert len(pages) > 1
    for page in pages:
        heads = [label for label in page.labels if label.text == "size"]
        assert len(heads) == len({label.at[0] for label in page.labels}) / 2
        assert {label.at[1] for label in heads} == {max(label.at[1] for label in page.labels)}
    assert sum(label.text == "row" for page in pages for label in page.labels) == 120


def test_a_section_that_runs_on_has_its_heading_again() -> None:
    """What stands at the top of a column is never taken for part of the section above it."""
    rows = [("name", "size"), *[("row", "1")] * 200]
    for section in (
        lambda width: [heading("Sizes"), *table(rows, width)],
        lambda width: [heading("Sizes"), *[text("row", width)] * 200],
    ):
        pages = flow([section], PAGE)
        assert len(pages) > 1
        for number, page in enumerate(pages):
            columns = {label.at[0] for label in page.labels if label.text == "row"}
            heads = {label.at[0]: label for label in page.labels if label.text[:5] == "Sizes"}
            assert set(heads) == columns
            named = [heads[x].text for x in sorted(columns)]
            assert named == ["Sizes"] * (number == 0) + ["Sizes, continued"] * (2 - (number == 0))
            top = max(label.at[1] for label in page.labels)
            assert all(top - label.at[1] < 7 for label in heads.values())


def test_narrow_columns_take_what_they_need() -> None:
    """Where room is short the widest column wraps, and no other."""
    long = "as many words as do not fit in what is left of so narrow a table"
    _, row = table([("a", "b", "what"), ("short", "1.2 kg", long)], 80)
    lines = {label.text for label in row.drawing.labels}
    assert {"short", "1.2 kg"} < lines
    assert " ".join(label.text for label in row.drawing.labels[2:]) == long
    assert isinstance(row.drawing.labels[0], Label)
