"""Lengths as people write them: ``8 in``, ``8 1/2"``, ``20,5 cm``, ``5 mm``."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction

from templates_gen.errors import TemplatesGenError

UNITS = {"in": Fraction(254, 10), "cm": Fraction(10), "mm": Fraction(1)}
"""Millimetres to each unit. 1 in = 2.54 cm exactly (W3C CSS Values and Units Level 3)."""

_SPELLINGS = {
    "in": ("in", "in.", "inch", "inches", '"', "”", "“", "″", "''"),
    "cm": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
    "mm": ("mm", "millimetre", "millimetres", "millimeter", "millimeters"),
}
UNIT_OF = {spelling: unit for unit, spellings in _SPELLINGS.items() for spelling in spellings}
"""The unit of every way to write one."""

ALLOWED = "a number and a unit (in, cm or mm), such as 8 in, 8 1/2 in, 20,5 cm or 5 mm"
_UNIT_ADVICE = (
    'write the unit, such as "{0} {1}", or say once at the top what bare numbers mean: unit = "{1}"'
)
_LONGEST_TEXT = 40

_NUMBER = re.compile(
    r"(?P<sign>[-+−]?)\s*"
    r"(?:(?:(?P<whole>\d+)(?:\s+|\s*-\s*))?(?P<over>\d+)/(?P<under>\d+)"
    r"|(?P<decimal>\d+(?:[.,]\d*)?|[.,]\d+))"
    r"\s*(?P<unit>[^\d\s.,].*)?",
    re.ASCII,
)
FRACTIONS = "".join(
    char
    for char in map(chr, range(0x00BC, 0x218A))
    if unicodedata.decomposition(char).startswith("<fraction>")
)
"""Every character that is a fraction."""
BARE = rf"[-+−\d\s.,/{FRACTIONS}]+"
"""What a length without a unit is made of, as a pattern for Python and for the page's script."""
CROSS = re.compile(r"\s*(?:[x×*]|(?<![^\W\d_])by)(?![^\W\d_])\s*", re.IGNORECASE)
"""What stands between two lengths, as people write it; the x of a hexagon does not."""
_THOUSANDS = re.compile(r"[1-9]\d{0,2},\d{3}")


class LengthError(TemplatesGenError):
    """A text that is not a length: what was found, what is allowed, what to do if that is known.

    ``bare`` is the number where it lacks its unit alone.
    """

    def __init__(
        self, found: str, allowed: str = ALLOWED, advice: str = "", *, bare: str = ""
    ) -> None:
        self.found = found
        self.allowed = allowed
        self.advice = advice
        self.bare = bare
        super().__init__(f"{found}; allowed: {allowed}")


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm and its text with a unit; a message shows the text that was written."""

    mm: float
    text: str
    written: str = field(default="", compare=False, repr=False)
    """What was written, where that had no unit."""

    def __str__(self) -> str:
        return self.written or self.text

    @property
    def found(self) -> str:
        """What a message says was found, with the unit that it was read in."""
        return f"“{self.written}”, read as {self.text}" if self.written else f"“{self.text}”"

    @property
    def tidy(self) -> str:
        """The text in the usual spelling: ``8 1/2 in`` for ``8½"``."""
        written = " ".join(_plain(self.text).split())
        match = _NUMBER.fullmatch(written)
        if match is None or not match["unit"]:
            return written
        return f"{written[: match.start('unit')].strip()} {UNIT_OF[match['unit'].strip().lower()]}"


def length_of(mm: float) -> Length:
    """Return a length written in mm, which reads back as the same number."""
    return Length(float(mm), f"{Decimal(repr(mm)):f} mm")


def parse_length(text: str, unit: str | None = None) -> Length:
    """Read a length. ``unit`` is what a bare number means; without it a bare number is an error.

    A lone 0 needs no unit. Raises LengthError.
    """
    written = text.strip()
    if not written:
        raise LengthError("no length")
    match = _NUMBER.fullmatch(_plain(written)) if len(written) <= _LONGEST_TEXT else None
    if match is None:
        raise LengthError(f"“{written[:_LONGEST_TEXT]}” is not a length")
    number = _value(match, written)
    name = (match["unit"] or "").strip().lower()
    if not name and number == 0:
        return Length(0.0, written)
    if not name and unit is None:
        raise LengthError(f"“{written}” has no unit", bare=written)
    known = UNIT_OF.get(name or unit or "")
    if CROSS.match(name):
        raise LengthError(f"“{written}” is more than one length")
    if known is None:
        raise LengthError(f"“{written}” has the unknown unit “{name}”")
    mm = float(number * UNITS[known])
    return Length(mm, written) if name else Length(mm, f"{written} {unit}", written)


def unit_advice(bare: str, like: str) -> str:
    """Say how a number gets its unit: the one in which it is nearest to a length, ``like``."""
    usual = parse_length(like).mm

    def far(unit: str) -> float:
        return abs(math.log(max(abs(parse_length(bare, unit).mm), 1e-9) / usual))

    return _UNIT_ADVICE.format(bare, min(UNITS, key=far))


def mostly_inches(texts: Iterable[str], unit: str | None = None) -> bool:
    """Tell whether most of some lengths are in inches; bare numbers are in the ``unit``."""
    found = [_is_inches(text, unit) for text in texts]
    return sum(found) * 2 > len(found)


def _is_inches(text: str, unit: str | None) -> bool:
    try:
        return parse_length(text, unit).tidy.endswith("in")
    except LengthError:
        return False


def parse_two(text: str, unit: str | None = None) -> tuple[Length, Length]:
    """Read two lengths with a cross between them: ``210 mm x 297 mm``, ``8.5 by 11 in``.

    A unit that is given once, after the second, serves both. Raises LengthError.
    """
    parts = CROSS.split(text)
    if len(parts) != 2:
        raise LengthError(f"“{text}” is not two lengths", "two lengths, such as 210 mm x 297 mm")
    first, second = parts
    given = "".join(char for char in second if char.isalpha() or char in '"”″').strip()
    return parse_length(first, given or unit), parse_length(second, given or unit)


def _plain(text: str) -> str:
    """Spell characters such as ½ as `` 1/2``."""
    if text.isascii():
        return text.strip()
    return "".join(
        " " + unicodedata.normalize("NFKC", char).replace("⁄", "/")
        if unicodedata.decomposition(char).startswith("<fraction>")
        else char
        for char in text
    ).strip()


def _value(match: re.Match[str], written: str) -> Fraction:
    sign = -1 if match["sign"] in ("-", "−") else 1
    if match["decimal"]:
        if _THOUSANDS.fullmatch(match["decimal"]):
            raise LengthError(
                f"“{written}”: the comma can mean a decimal or thousands",
                "a decimal point where three figures follow, such as 1.250 or 1250",
            )
        return sign * Fraction(match["decimal"].replace(",", ".").rstrip("."))
    if int(match["under"]) == 0:
        raise LengthError(f"“{written}” divides by zero")
    return sign * (
        Fraction(match["whole"] or 0) + Fraction(int(match["over"]), int(match["under"]))
    )
