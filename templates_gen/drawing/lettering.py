"""Lettering in the bundled face: how wide a text is, which characters the face lacks.

Sizes are em sizes in mm. Text is set left to right without kerning, as the PDF writer sets it.
"""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from functools import cache, lru_cache
from itertools import accumulate
from pathlib import Path

from fontTools.ttLib import TTFont

from templates_gen.errors import GlyphError
from templates_gen.resources import folder

FAMILY = "Source Sans 3"
REGULAR = "SourceSans3-Regular"
BOLD = "SourceSans3-Bold"
CAP_HEIGHT = 0.66
"""Height of a capital over the em size, from the OS/2 table of the face (a test compares)."""
DESCENT = 0.23
"""Depth of a descender below the baseline over the em size."""


def font_file(face: str) -> Path:
    """Return the file of a bundled face."""
    return folder("fonts") / f"{face}.ttf"


@cache
def _font(face: str) -> TTFont:
    return TTFont(font_file(face), lazy=True)


@cache
def _advances(face: str) -> dict[int, float]:
    """Return the advance width over the em size by code point."""
    font = _font(face)
    em = font["head"].unitsPerEm
    widths = font["hmtx"].metrics
    return {code: widths[name][0] / em for code, name in font.getBestCmap().items()}


def missing_glyphs(text: str, face: str = REGULAR) -> list[str]:
    """Return the characters of ``text`` that the face cannot print, each once, in order."""
    known = _advances(face)
    return [char for char in dict.fromkeys(text) if ord(char) not in known]


def character_name(char: str) -> str:
    """Name a character for a message: ``“क” (U+0915 DEVANAGARI LETTER KA)``."""
    name = unicodedata.name(char, "no name")
    shown = f"“{char}” " if char.isprintable() else ""
    return f"{shown}(U+{ord(char):04X} {name})"


@lru_cache(maxsize=4096)
def _ems(text: str, face: str) -> float:
    """Return the width of ``text`` over the em size; most texts of a pack are asked for often."""
    known = _advances(face)
    try:
        return sum(map(known.__getitem__, map(ord, text)))
    except KeyError:
        lacking = ", ".join(character_name(char) for char in missing_glyphs(text))
        raise GlyphError(f"the bundled font has no {lacking}, needed for {text!r}") from None


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of ``text`` in mm at an em size in mm.

    Raises GlyphError when a character is not in the face.
    """
    return size * _ems(text, BOLD if bold else REGULAR)


def fitted(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return ``text``, cut short with an ellipsis where it is wider than ``width`` mm."""
    if text_width(text, size, bold=bold) <= width:
        return text
    known = _advances(BOLD if bold else REGULAR)
    ends = list(accumulate(known[ord(char)] for char in text))
    return text[: bisect_right(ends, width / size - known[ord("…")])].rstrip() + "…"


def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> list[str]:
    """Break ``text`` into lines no wider than ``width`` mm; a no-break space holds its words."""
    lines = [""]
    for word in text.split(" "):
        longer = f"{lines[-1]} {word}".strip(" ")
        if lines[-1] and text_width(longer, size, bold=bold) > width:
            lines.append(word)
        else:
            lines[-1] = longer
    return [fitted(line, width, size, bold=bold) for line in lines]
