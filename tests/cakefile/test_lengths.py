"""Lengths as people write them: what is read, what is refused, and that writing reads back."""

from __future__ import annotations

import math
import re
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.lengths import BARE, LengthError, length_of, parse_length
from templates_gen.errors import CakeError
from tests.cakes import cake

SIZES = st.one_of(
    st.floats(1e-9, 1e7), st.floats(-1e7, -1e-9), st.just(0.0), st.integers(0, 10_000).map(float)
)
"""Lengths in mm, from atoms to kilometres."""

READ = {
    "8 in": "203.2",
    "8in": "203.2",
    "  8   in  ": "203.2",
    "8 IN": "203.2",
    "8 in.": "203.2",
    "8 inch": "203.2",
    "8 inches": "203.2",
    '8"': "203.2",
    "8 ″": "203.2",
    "8”": "203.2",
    "8''": "203.2",
    "8.5 in": "215.9",
    "8,5 in": "215.9",
    "8 1/2 in": "215.9",
    "8-1/2 in": "215.9",
    "8 - 1/2 in": "215.9",
    '8 1/2"': "215.9",
    "8½ in": "215.9",
    "8 ½ in": "215.9",
    "½ in": "12.7",
    "1/2in": "12.7",
    "3/8 in": "9.525",
    "17/2 in": "215.9",
    "⅛ in": "3.175",
    ".5 in": "12.7",
    ",5 in": "12.7",
    "5. in": "127",
    "20 cm": "200",
    "20,5 cm": "205",
    "20.5cm": "205",
    "2 1/2 cm": "25",
    "1 centimetre": "10",
    "3 centimeters": "30",
    "5 mm": "5",
    "0,5 mm": "0.5",
    "1.250 mm": "1.25",
    "0,125 mm": "0.125",
    "1,2345 mm": "1.2345",
    "+5 mm": "5",
    "-5 mm": "-5",
    "−5 mm": "-5",
    "5\u00a0mm": "5",
    "5 millimetres": "5",
    "0": "0",
    "0 in": "0",
    "-0 mm": "0",
}
"""What is read, and how many mm it is; 1 in = 25.4 mm (NBS Circular 572 Addendum, 1960)."""

REFUSED = {
    "8": "has no unit",
    "8.5": "has no unit",
    "1/2": "has no unit",
    "8 ft": "unknown unit “ft”",
    "8'": "unknown unit “'”",
    "8 m": "unknown unit “m”",
    "8 px": "unknown unit “px”",
    "8 in in": "unknown unit “in in”",
    "8 in 4 mm": "unknown unit “in 4 mm”",
    "1/2/3 in": "unknown unit",
    "1e3 mm": "unknown unit",
    "1,000 mm": "decimal or thousands",
    "12,345 mm": "decimal or thousands",
    "1,000,000 mm": "“1,000,000 mm”",
    "1/0 in": "divides by zero",
    "8 1/0 in": "divides by zero",
    "8 1/ in": "“8 1/ in”",
    "8 4 in": "is not a length",
    "1 1 1/2 in": "is not a length",
    "½½ in": "“½½ in”",
    "--8 in": "is not a length",
    "in": "is not a length",
    "in 8": "is not a length",
    "": "no length",
    " ": "no length",
    ".": "is not a length",
    "nan": "is not a length",
    "nan mm": "is not a length",
    "inf mm": "is not a length",
    "eight in": "is not a length",
    "٨ in": "is not a length",
    "²in": "is not a length",
    "8\nin 9": "“8",
    "0x10 mm": "more than one length",
    "10 by 8 by 4": "more than one length",
    "9" * 400 + " mm": "is not a length",
}
"""What is refused, and what the message says was found."""


@pytest.mark.parametrize("text", READ)
def test_read(text: str) -> None:
    """A length in any of the usual spellings is read exactly, and remembers its text."""
    length = parse_length(text)
    assert length.mm == float(Decimal(READ[text]))
    assert str(length) == text.strip()


@pytest.mark.parametrize(
    ("text", "tidy"),
    [
        ("8in", "8 in"),
        ('8"', "8 in"),
        ("8½ inches", "8 1/2 in"),
        ("8-1/2”", "8-1/2 in"),
        ("20,5CM", "20,5 cm"),
        ("5  millimetres", "5 mm"),
        ("-5mm", "-5 mm"),
        ("0", "0"),
    ],
)
def test_tidy(text: str, tidy: str) -> None:
    """A length can be shown in the usual spelling, whatever its own."""
    assert parse_length(text).tidy == tidy


@pytest.mark.parametrize("text", READ)
def test_tidy_means_the_same(text: str) -> None:
    """The usual spelling of a length is the same length."""
    length = parse_length(text)
    assert parse_length(length.tidy).mm == length.mm


@pytest.mark.parametrize("text", REFUSED)
def test_refused(text: str) -> None:
    """What is no length, or could mean two, is refused with what was found and is allowed."""
    with pytest.raises(LengthError) as caught:
        parse_length(text)
    assert REFUSED[text] in caught.value.found
    assert caught.value.allowed


@pytest.mark.parametrize(
    ("text", "unit", "mm"), [("8", "in", 203.2), ("8 1/2", "in", 215.9), ("2,5", "cm", 25.0)]
)
def test_unit_declared_once(text: str, unit: str, mm: float) -> None:
    """A bare number is read in the declared unit, and its text then names the unit."""
    length = parse_length(text, unit)
    assert length.mm == mm
    assert parse_length(length.text) == length


def test_own_unit_wins() -> None:
    """A unit that is written wins over the declared one."""
    assert parse_length("5 mm", "in").mm == 5


@given(SIZES)
def test_written_and_read(mm: float) -> None:
    """What is written of a length reads back as the very same number and text."""
    length = length_of(mm)
    assert parse_length(length.text) == length


@given(st.integers(0, 9999), st.integers(0, 99), st.integers(1, 99), st.sampled_from(["in", "cm"]))
def test_fractions(whole: int, over: int, under: int, unit: str) -> None:
    """A whole number and a fraction are added up exactly before they become mm."""
    exact = (whole + Fraction(over, under)) * {"in": Fraction("25.4"), "cm": Fraction(10)}[unit]
    assert parse_length(f"{whole} {over}/{under} {unit}").mm == float(exact)


@given(st.integers(0, 999), st.integers(0, 99_999), st.integers(1, 5))
def test_decimal_comma(whole: int, part: int, places: int) -> None:
    """A comma is a decimal point, unless three figures after it could mean thousands."""
    figures = f"{part:0{places}}"
    with_comma = f"{whole},{figures} cm"
    if len(figures) == 3 and whole > 0:
        with pytest.raises(LengthError, match="decimal or thousands"):
            parse_length(with_comma)
    else:
        assert parse_length(with_comma).mm == parse_length(f"{whole}.{figures} cm").mm


@given(st.text(st.sampled_from("0123456789.,/ -+−½⅓⅟↉inchcm\"'”″x×e\u00a0²∞⁄"), max_size=12))
def test_nothing_else_is_raised(text: str) -> None:
    """Any text is either a finite length or a LengthError that quotes it."""
    for unit in (None, "in"):
        try:
            length = parse_length(text, unit)
        except LengthError as error:
            quoted = error.found
        else:
            quoted = text.strip()
            assert math.isfinite(length.mm)
            assert parse_length(length.text, unit).mm == length.mm
        assert text.strip() in quoted


@pytest.mark.parametrize("text", [text for text in READ if Fraction(READ[text])])
def test_the_pattern_of_bare_lengths_tells_those_without_a_unit(text: str) -> None:
    """What the page holds for a bare number is what has no unit here; with one it is none."""
    number = re.match(BARE, text.strip())
    assert number is not None
    bare = number.group().strip()
    assert re.fullmatch(BARE, text.strip()) is None
    assert parse_length(bare, "mm").mm
    with pytest.raises(LengthError, match="no unit"):
        parse_length(bare)


@pytest.mark.parametrize(
    ("lines", "advised"),
    [
        ("size = 22\ndepth = '4 in'", '"22 cm"'),
        ("size = 9\ndepth = '4 in'", '"9 in"'),
        ("size = 220\ndepth = '4 in'", '"220 mm"'),
        ("size = '8 in'\ndepth = '4 in'\n[tier.drips]\nspacing = 30", '"30 mm"'),
        ("size = '8 in'\ndepth = '4 in'\n[tier.drips]\nlengths = [20]", '"20 mm"'),
    ],
)
def test_the_unit_that_is_advised_makes_sense_for_its_key(lines: str, advised: str) -> None:
    """A tin of 22 in, or drips 30 in apart, would be made as they were typed."""
    with pytest.raises(CakeError) as raised:
        cake(f"[[tier]]\n{lines}\n")
    (problem,) = raised.value.problems
    assert problem.advice.startswith(f"write the unit, such as {advised}, or say once")
