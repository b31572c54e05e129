"""Numbers as text. Every number that reaches paper, a file or a message is formatted here."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Sequence
from fractions import Fraction

from templates_gen.errors import NumberError

MM_PER_INCH = 25.4
"""Exact since 1959: 1 yd = 0.9144 m (NBS Circular 572 addendum, 1960)."""

METRES_PER_YARD, GRAMS_PER_POUND = 0.9144, 453.59237
"""Exact, from the same circular."""
NO_BREAK = "\u00a0"
"""A blank at which no line ends."""
EIGHTHS = dict(zip(("1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"), "⅛¼⅜½⅝¾⅞", strict=True))
"""Fractions of an inch that are one character."""
_SOLD = MM_PER_INCH / 8
"""The step in which boards, drums, dowels and ribbons are sold in inches, mm."""
_SMALL = MM_PER_INCH / 2
"""Below half an inch a length is written to the nearest thirty-second, else to a sixteenth."""
_NOISE = 1e-6
"""What a figure may be off by the rounding of floats, in the last place that is written."""

Rounding = Callable[[float], int]
"""Makes a whole number of a figure counted in the last place that is written."""


def nearest(count: float) -> int:
    """Round to the nearest whole number, halves up."""
    return math.floor(count + 0.5)


def down(count: float) -> int:
    """Round down; what is next to a whole number is that number."""
    return math.floor(count + _NOISE)


def up(count: float) -> int:
    """Round up; what is next to a whole number is that number."""
    return math.ceil(count - _NOISE)


def decimal(value: float, places: int = 3) -> str:
    """Write ``value`` with at most ``places`` decimals, without trailing zeros or minus zero.

    Raises NumberError for nan and the infinities.
    """
    if not math.isfinite(value):
        raise NumberError(f"{value} is not a number that can be printed")
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def inch_fraction(mm: float, *, typed: bool = False, rounding: Rounding = nearest) -> str:
    """Write a length in mm as inches to the nearest mark of a ruler: ``8⅜``, ``8 3/16``, ``0``.

    Marks are sixteenths, and thirty-seconds below half an inch. Eighths and more are one character,
    which every font of the sheets has, but where it is to be ``typed``: ``8 3/8``.
    """
    if not math.isfinite(mm):
        raise NumberError(f"{mm} is not a number that can be printed")
    sign = "-" if mm < 0 else ""
    parts = 32 if abs(mm) < _SMALL else 16
    whole, rest = divmod(rounding(abs(mm) / MM_PER_INCH * parts), parts)
    part = str(Fraction(rest, parts)) if rest else ""
    if part in EIGHTHS and not typed:
        return f"{sign}{whole or ''}{EIGHTHS[part]}"
    words = " ".join(word for word in (str(whole) if whole else "", part) if word)
    return f"{sign}{words}" if words else "0"


def in_unit(mm: float, unit: str) -> str:
    """Write a length in mm in one unit, in, cm or mm: ``8¼ in``, ``21 cm``, ``210 mm``."""
    if unit == "in":
        return f"{inch_fraction(mm)} in"
    return f"{decimal(mm / 10, 1)} cm" if unit == "cm" else f"{decimal(mm, 0)} mm"


def in_both(mm: float, rounding: Rounding = nearest) -> str:
    """Write a length in mm in both units: ``209.6 mm (8¼ in)``; too small for inches, in mm."""
    inches = inch_fraction(mm, rounding=rounding)
    tenths = mm if rounding is nearest else rounding(10 * mm) / 10
    return f"{decimal(tenths, 1)} mm{f' ({inches} in)' if inches != '0' else ''}"


def in_trade(mm: float) -> str:
    """Write a thickness or a width as it is sold, to an eighth of an inch: ``12 mm (½ in)``.

    What is not near an eighth, as some that is thinner than 6 mm, is written like any length.
    """
    eighths = nearest(mm / _SOLD) * _SOLD
    if abs(eighths - mm) > mm / 10:
        return in_both(mm)
    return f"{decimal(mm, 1)} mm ({inch_fraction(eighths)} in)"


def at_most(mm: float) -> str:
    """Write the most that a length may be, in both units: each figure as it stands is accepted."""
    return in_both(mm, rounding=down) if mm else "0"


def at_least(mm: float) -> str:
    """Write the least that a length may be, in both units: each figure as it stands is accepted."""
    return in_both(mm, rounding=up) if mm else "0"


def money(amount: float) -> str:
    """Write an amount of money, which has two decimals whatever they are."""
    return f"{amount:.2f}"


def hours(number: float) -> str:
    """Write so many hours, to the minute: ``15 h 20 min``, ``2 h``, ``45 min``."""
    whole, minutes = divmod(round(number * 60), 60)
    said = [f"{whole} h"] * bool(whole) + [f"{minutes} min"] * bool(minutes or not whole)
    return " ".join(said)


def waiting(number: float) -> str:
    """Write how many hours something waits, from two days on as days: ``28 days``, ``8 h``."""
    days, rest = divmod(number, 24)
    return hours(number) if rest or days < 2 else counted(int(days), "day")


def metres(number: float) -> str:
    """Write so many metres to buy, and the next quarter of a yard: ``1.14 m (1¼ yd)``."""
    hundredths, quarters = up(number * 100), up(number * 4 / METRES_PER_YARD)
    return f"{decimal(hundredths / 100, 2)} m ({_quarters(quarters)} yd)"


def about_metres(number: float) -> str:
    """Write a long length to a tenth of a metre: ``4.9 m (5¼ yd)``; a short one ``0.3 m (12 in)``.

    At least a tenth is written.
    """
    tenths = max(1, nearest(number * 10))
    inches = nearest(number * 1000 / MM_PER_INCH)
    quarters = nearest(number * 4 / METRES_PER_YARD)
    said = f"{max(1, inches)} in" if quarters < 4 else f"{_quarters(quarters)} yd"
    return f"{decimal(tenths / 10, 1)} m ({said})"


def _quarters(quarters: int) -> str:
    whole, rest = divmod(quarters, 4)
    return f"{whole or ''}{EIGHTHS.get(f'{Fraction(rest, 4)}', '')}"


def numbered_name(noun: str, number: int, count: int) -> str:
    """Name one of several things by its number, and the only one by its noun alone."""
    return noun if count == 1 else f"{noun} {number}"


def counted(number: int, noun: str) -> str:
    """Write a whole number with its noun, plural unless it is 1: ``1 dowel``, ``5 daisies``."""
    if number == 1:
        return f"{number} {noun}"
    plural = re.sub(r"(?<![aeiou])y$", "ie", noun)
    return f"{number} {plural}s"


def times(number: int) -> str:
    """Write how often something is done: ``once``, ``twice``, ``3 times``."""
    return {1: "once", 2: "twice"}.get(number, f"{number} times")


def capital(text: str) -> str:
    """Write a text with a capital at its start: that of a sentence."""
    return text[:1].upper() + text[1:]


def series(words: Sequence[str]) -> str:
    """Write some words in a row: ``a``, ``a and b``, ``a, b and c``."""
    *others, last = words
    return f"{', '.join(others)} and {last}" if others else last
