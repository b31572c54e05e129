"""Numbers as text."""

from __future__ import annotations

import ast
import math
import re
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from hypothesis import given
from hypothesis import strategies as st

import templates_gen
from templates_gen.cakefile.lengths import parse_length
from templates_gen.errors import NumberError
from templates_gen.resources import folder
from templates_gen.units import (
    EIGHTHS,
    at_least,
    at_most,
    counted,
    decimal,
    in_both,
    in_trade,
    in_unit,
    inch_fraction,
    metres,
    times,
    waiting,
)

FINITE = st.floats(-1e6, 1e6)


def test_waits_of_days_are_written_in_days() -> None:
    """Nobody divides 672 h by 24; what is no whole number of days stays in hours."""
    found = [waiting(number) for number in (0.5, 8, 24, 28.25, 48, 72, 76, 672)]
    assert found == ["30 min", "8 h", "24 h", "28 h 15 min", "2 days", "3 days", "76 h", "28 days"]


@given(st.floats(0.01, 100))
def test_ribbon_is_bought_long_enough(number: float) -> None:
    """In metres and in yards of 0.9144 m, each no more than one step longer than it must be."""
    found = re.fullmatch(r"([\d.]+) m \((\d*)([¼½¾]?) yd\)", metres(number))
    assert found is not None
    yards = int(found[2] or 0) + {"": 0, "¼": 0.25, "½": 0.5, "¾": 0.75}[found[3]]
    assert number - 1e-5 <= float(found[1]) < number + 0.01
    assert number - 1e-5 <= yards * 0.9144 < number + 0.2286


@given(FINITE, st.integers(0, 9))
def test_a_decimal_reads_back_within_half_its_last_place(value: float, places: int) -> None:
    """Formatting loses no more than half a unit of the last place."""
    assert abs(float(decimal(value, places)) - value) <= 0.5 * 10**-places * (1 + 1e-9)


@given(FINITE)
def test_a_decimal_has_no_exponent_trailing_zero_or_minus_zero(value: float) -> None:
    """A number is written the plain way."""
    text = decimal(value)
    assert "e" not in text
    assert text != "-0"
    assert "." not in text or not text.endswith(("0", "."))


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("write", [decimal, inch_fraction, in_both])
def test_what_is_no_number_is_refused(value: float, write: object) -> None:
    """Neither nan nor an infinity reaches paper."""
    assert callable(write)
    with pytest.raises(NumberError):
        write(value)


@pytest.mark.parametrize(
    ("mm", "text"),
    [(25.4, "1"), (12.7, "½"), (209.55, "8¼"), (1.5875, "1/16"), (0.0, "0"), (-38.1, "-1½")],
)
def test_inches_are_written_as_the_ruler_shows_them(mm: float, text: str) -> None:
    """Marks of a ruler are written as lowest fractions, finer below half an inch."""
    assert inch_fraction(mm) == text


@pytest.mark.parametrize(("unit", "text"), [("in", "8¼ in"), ("cm", "21 cm"), ("mm", "210 mm")])
def test_a_length_is_written_in_one_unit(unit: str, text: str) -> None:
    """Inches as on a ruler, centimetres to a tenth, whole millimetres."""
    assert in_unit(209.55, unit) == text


@given(st.floats(0, 5000))
def test_inch_fractions_are_the_nearest_mark(mm: float) -> None:
    """A written fraction is at most half a mark off: 1/32 in, below half an inch 1/64 in."""
    for typed in (False, True):
        written = inch_fraction(mm, typed=typed)
        assert abs(parse_length(written, "in").mm - mm) <= 25.4 / (64 if mm < 12.7 else 32) + 1e-9
        assert written.isascii() or not typed


@pytest.mark.parametrize("name", ["SourceSans3-Regular.ttf", "SourceSans3-Bold.ttf"])
def test_the_fonts_of_the_sheets_have_every_fraction(name: str) -> None:
    """A fraction that is one character is drawn, not left out."""
    known = TTFont(folder("fonts") / name).getBestCmap()
    assert all(ord(char) in known for char in EIGHTHS.values())


@pytest.mark.parametrize(
    ("number", "text"), [(0, "0 dowels"), (1, "1 dowel"), (2, "2 dowels"), (11, "11 dowels")]
)
def test_a_noun_is_counted(number: int, text: str) -> None:
    """One of a thing stands in the singular, any other number in the plural."""
    assert counted(number, "dowel") == text


def test_numbers_are_formatted_here_alone() -> None:
    """No other module gives a number a format of its own: each purpose has one function."""
    folder = Path(templates_gen.__file__).parent
    own = {
        str(file.relative_to(folder))
        for file in folder.rglob("*.py")
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8")))
        if isinstance(node, ast.FormattedValue)
        and node.format_spec is not None
        and re.search(r"[eg]'$|\..*f'$", ast.unparse(node.format_spec))
    }
    # the paths of a picture on the page, written at a fixed length since they are many
    assert own == {"units.py", "web/view_data.py"}


def test_nothing_needs_no_unit() -> None:
    """A limit of 0 is the same in every unit, whichever comes first."""
    assert at_least(0.0) == at_most(0.0) == "0"
    assert at_most(1.0) == "1 mm (1/32 in)"


def test_a_noun_in_y_is_counted_as_it_is_spelled() -> None:
    """After a consonant y becomes ie, after a vowel it stays."""
    assert counted(2, "daisy") == "2 daisies"
    assert counted(1, "daisy") == "1 daisy"
    assert counted(3, "day") == "3 days"


@pytest.mark.parametrize(("number", "text"), [(1, "once"), (2, "twice"), (3, "3 times")])
def test_how_often_is_said_in_a_word_where_there_is_one(number: int, text: str) -> None:
    """Nobody fills a cake 1 time."""
    assert times(number) == text


@pytest.mark.parametrize(
    ("mm", "said"),
    [
        (12, "12 mm (½ in)"),
        (12.7, "12.7 mm (½ in)"),
        (6, "6 mm (¼ in)"),
        (10, "10 mm (⅜ in)"),
        (15, "15 mm (⅝ in)"),
        (25, "25 mm (1 in)"),
        (3, "3 mm (⅛ in)"),
        (5, "5 mm (3/16 in)"),
        (8, "8 mm (5/16 in)"),
        (1, "1 mm (1/32 in)"),
    ],
)
def test_what_is_sold_by_its_thickness_has_that_of_the_trade(mm: float, said: str) -> None:
    """Drums and dowels of 12 mm are sold as ½ in: common practice, no source."""
    assert in_trade(mm) == said
