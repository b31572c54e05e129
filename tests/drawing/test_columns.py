"""Widths of the columns of a table: no word cut, and few lines."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from templates_gen.drawing import fonts
from templates_gen.drawing.columns import widths

SIZE = 3.0
CELL = st.lists(
    st.sampled_from(["ox", "tea", "icing", "modelling", "7 1/2 in", "(19\u00a0cm)"]), max_size=6
).map(" ".join)
ROWS = st.integers(2, 4).flatmap(
    lambda count: st.lists(st.tuples(*[CELL] * count), min_size=1, max_size=6)
)


def lines(rows: Sequence[tuple[str, ...]], columns: list[float]) -> int:
    """Count the lines of a table as they are set."""
    return sum(
        max(
            len(fonts.wrapped(cell, width, SIZE, bold=number == 0))
            for cell, width in zip(row, columns, strict=True)
        )
        for number, row in enumerate(rows)
    )


def longest(rows: Sequence[tuple[str, ...]]) -> list[float]:
    """Return the width of the longest word of each column."""
    return [
        max(
            fonts.text_width(word, SIZE, bold=number == 0)
            for number, cell in enumerate(cells)
            for word in fonts.words(cell) or [""]
        )
        for cells in zip(*rows, strict=True)
    ]


@given(ROWS, st.floats(0, 150))
def test_columns_fit_and_cut_no_word(rows: list[tuple[str, ...]], available: float) -> None:
    """Together they have room, where single words have; and no word is wider than its column."""
    least = longest(rows)
    assume(sum(least) + 0.1 * len(least) <= available)
    found = widths(rows, available, SIZE)
    assert sum(found) <= available + 1e-9
    assert all(width >= word for width, word in zip(found, least, strict=True))
    for number, row in enumerate(rows):
        for cell, width in zip(row, found, strict=True):
            set_so = fonts.wrapped(cell, width, SIZE, bold=number == 0)
            assert not any(line.endswith("…") for line in set_so)


@given(ROWS)
def test_a_table_with_room_takes_one_line_a_row(rows: list[tuple[str, ...]]) -> None:
    """Where there is room, nothing is broken."""
    assert lines(rows, widths(rows, 1000, SIZE)) == len(rows)


def test_columns_share_alike_where_that_takes_no_more_lines() -> None:
    """A chart of which every row has to be broken keeps the columns that need little whole."""
    row = ("4 in round", *["14 7/16 in (36.6 cm)"] * 6)
    first, *others = widths([("tin", *["wrap"] * 6), *[row] * 5], 150, SIZE)
    assert first >= fonts.text_width("4 in round", SIZE)
    assert others == pytest.approx([others[0]] * 6)


def test_the_column_that_costs_fewest_lines_is_made_narrower() -> None:
    """One long cell of a last column is broken, not every row of another: as few as any split."""
    rows = [
        ("what", "to weigh", ""),
        *[("fondant and modelling paste", "1.34 kg (2 lb 15 oz)", "945 mL")] * 8,
        ("paint on drips", "edible dust 0.5 g", "clear alcohol ¼ tsp"),
    ]
    found = widths(rows, 75, SIZE)
    assert lines(rows, found) == len(rows) + 2
    grid = [x / 2 for x in range(10, 140)]
    tried = ([one, other, 75 - one - other] for one, other in product(grid, grid))
    splits = [each for each in tried if each[2] > 0]
    assert lines(rows, found) == min(lines(rows, each) for each in splits if fits(rows, each))


def fits(rows: Sequence[tuple[str, ...]], columns: list[float]) -> bool:
    """Tell whether columns cut no word."""
    return all(width >= word for width, word in zip(columns, longest(rows), strict=True))
