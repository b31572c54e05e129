"""Blocks put under one another, paragraphs and tables."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st

from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.flow import Block, flow, heading, table, text
from templates_gen.geometry.box import Box

WORDS = st.text("abc defg. ", min_size=1, max_size=60).filter(str.strip)
PAGE = Box(20, 30, 200, 250)


@given(st.lists(st.tuples(WORDS, st.booleans()), min_size=1, max_size=40), st.floats(40, 200))
def test_every_block_comes_once_in_order_and_no_heading_ends_a_page(
    said: list[tuple[str, bool]], low: float
) -> None:
    """Pages hold all blocks, inside the page; below each heading stands what it leads."""
    room = PAGE._replace(y0=low)
    blocks = [
        heading(f"H{number}") if leads else text(f"T{number} {words}", 180)
        for number, (words, leads) in enumerate([*said, ("end", False)])
    ]
    pages = flow(blocks, room)
    starts = [label.text.split()[0] for page in pages for label in page.labels]
    numbered = [start for start in starts if start[0] in "HT"]
    assert numbered == [block.drawing.labels[0].text.split()[0] for block in blocks]
    for page in pages:
        assert all(room.holds(label.box, 0.5) for label in page.labels)
        assert not page.labels[-1].text.startswith("H")


def test_a_block_without_words_takes_its_height() -> None:
    """A picture stands between paragraphs, and what follows stands below it."""
    (page,) = flow([text("before", 100), Block(80, Drawing()), text("after", 100)], PAGE)
    before, after = (label.at[1] for label in page.labels)
    assert before - after > 80


@given(st.lists(st.tuples(WORDS, WORDS, WORDS), min_size=1, max_size=8), st.floats(70, 180))
def test_a_table_keeps_its_width_and_its_cells_apart(
    rows: list[tuple[str, str, str]], width: float
) -> None:
    """No cell reaches beyond the table or onto another; the first row stays with the second."""
    blocks = table(rows, width)
    assert [block.leads for block in blocks] == [True, *[False] * (len(rows) - 1)]
    for block in blocks:
        boxes = [label.box for label in block.drawing.labels]
        assert all(Box(0, -block.height, width, 0).holds(box, 1e-6) for box in boxes)
        assert not any(one.common(other) for one, other in combinations(boxes, 2))


def test_a_table_that_runs_on_has_its_headings_on_each_page() -> None:
    """On the second page as on the first, and once on each."""
    pages = flow(table([("name", "size"), *[("row", "1")] * 80], 150), PAGE)
    assert len(pages) > 1
    for page in pages:
        assert page.labels[0].text == "name"
        assert [label.text for label in page.labels].count("size") == 1
    assert sum(label.text == "row" for page in pages for label in page.labels) == 80


def test_narrow_columns_take_what_they_need() -> None:
    """Where room is short the widest column wraps, and no other."""
    long = "as many words as do not fit in what is left of so narrow a table"
    _, row = table([("a", "b", "what"), ("short", "1.2 kg", long)], 80)
    lines = {label.text for label in row.drawing.labels}
    assert {"short", "1.2 kg"} < lines
    assert " ".join(label.text for label in row.drawing.labels[2:]) == long
    assert isinstance(row.drawing.labels[0], Label)
