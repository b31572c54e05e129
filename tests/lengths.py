"""Lengths in both units, as people read them: either unit first."""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

_INCHES = r"-?(?:\d+[ \u00a0]?)?(?:\d+/\d+|[⅛¼⅜½⅝¾⅞]|(?<=\d))"
_BOTH = re.compile(
    rf"(?P<first>{_INCHES})[ \u00a0]in[ \u00a0]\((?P<then>-?[\d.]+)[ \u00a0]mm\)"
    rf"|(?P<mm>-?[\d.]+)[ \u00a0]mm(?:[ \u00a0]\((?P<inches>{_INCHES})[ \u00a0]in\))?"
)


def in_both_units(text: str) -> list[tuple[float, float]]:
    """Return each length of a text in mm and in inches, 0 where these are not given."""
    return [
        (float(found["then"] or found["mm"]), inches(found["first"] or found["inches"] or "0"))
        for found in _BOTH.finditer(text)
    ]


def inches(written: str) -> float:
    """Return a number of inches such as ``-1 3/16`` or ``2⅝``."""
    sign = -1 if written.startswith("-") else 1
    apart = re.sub(r"([⅛¼⅜½⅝¾⅞])", r" \1", written.removeprefix("-"))
    return sign * sum(_number(part) for part in apart.split())


def _number(part: str) -> float:
    return unicodedata.numeric(part) if len(part) == 1 else float(Fraction(part))
