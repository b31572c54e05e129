"""Lettering in the bundled face: how wide a text is, which characters the face lacks.

Sizes are em sizes in mm. Text is set left to right without kerning, as the PDF writer sets it.
"""

from __future__ import annotations

import re
import unicodedata
from bisect import bisect_right
from functools import cache, lru_cache
from itertools import accumulate
from pathlib import Path

import uharfbuzz

from templates_gen.errors import FileError, GlyphError
from templates_gen.resources import folder

FAMILY = "Source Sans 3"
REGULAR = "SourceSans3-Regular"
BOLD = "SourceSans3-Bold"
CAP_HEIGHT = 0.66
"""Height of a capital over the em size, from the OS/2 table of the face (a test compares)."""
DESCENT = 0.23
"""Depth of a descender below the baseline over the em size."""
TALLEST_PLAIN = 0.75
"""Up to here letters such as ``l`` and brackets reach, little over the capitals; accents on
capitals reach higher."""
_UNITS = "mm|cm|m|in|g|kg|oz|lb|mL|tsp|min"
_BREAKS = re.compile(rf"(?<!\d ×) +(?![ ·]|\d+/\d|(?<=\d )×|(?<=[\d¼½¾⅛⅜⅝⅞] )(?:{_UNITS})\b)")
"""Where a line may be broken: not within a number and its unit, nor between a number, the sign that
says so many times, and what it is; nor before a dot that divides."""


def font_file(face: str) -> Path:
    """Return the file of a bundled face."""
    return folder("fonts") / f"{face}.ttf"


class _Face(dict[str, int]):
    """The advance widths of a face by character, in whole font units: any order sums the same.

    A character is looked up when it is first needed; one that the face lacks is a KeyError.
    """

    def __init__(self, name: str) -> None:
        super().__init__()
        path = font_file(name)
        try:
            # opened by its path, the file is memory-mapped: only what is looked up is read
            file = uharfbuzz.Blob.from_file_path(str(path))
        except uharfbuzz.HarfBuzzError:
            raise _damaged(path) from None
        self._font = uharfbuzz.Font(uharfbuzz.Face(file))
        if self.lacks("A"):  # then it lacks every other character too
            raise _damaged(path)
        self.em: int = self._font.face.upem

    def __missing__(self, char: str) -> int:
        glyph = self._font.get_nominal_glyph(ord(char))
        if glyph is None:
            raise KeyError(char)
        advance: int = self._font.get_glyph_h_advance(glyph)
        self[char] = advance
        return advance

    def top(self, char: str) -> float:
        """Return how high the ink of a character reaches over the em size."""
        extents = self._font.get_glyph_extents(self._font.get_nominal_glyph(ord(char)) or 0)
        return float(extents.y_bearing / self.em) if extents else 0.0

    def lacks(self, char: str) -> bool:
        """Tell whether the face cannot print a character."""
        return self._font.get_nominal_glyph(ord(char)) is None


def _damaged(path: Path) -> FileError:
    return FileError(f"{path}, a part of templates-gen, is damaged: install templates-gen again")


_face = cache(_Face)


def missing_glyphs(text: str, face: str = REGULAR) -> list[str]:
    """Return the characters of ``text`` that the face cannot print, each once, in order."""
    return [char for char in dict.fromkeys(text) if _face(face).lacks(char)]


def character_name(char: str) -> str:
    """Name a character for a message: ``“क” (U+0915 DEVANAGARI LETTER KA)``."""
    name = unicodedata.name(char, "no name")
    quoted = f"“{char}” " if char.isprintable() else ""
    return f"{quoted}(U+{ord(char):04X} {name})"


@lru_cache(maxsize=4096)
def _units(text: str, face: str) -> int:
    """Return the width of ``text`` in font units; most words of a pack are measured often."""
    try:
        return sum(map(_face(face).__getitem__, text))
    except KeyError:
        missing = ", ".join(character_name(char) for char in missing_glyphs(text, face))
        raise GlyphError(f"the bundled font has no {missing}, needed for {text!r}") from None


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of ``text`` in mm at an em size in mm.

    Raises GlyphError when a character is not in the face.
    """
    face = BOLD if bold else REGULAR
    return size * _units(text, face) / _face(face).em


def rise(text: str, *, bold: bool) -> float:
    """Return the height of ``text`` over the em size: of capitals, and of accents on them."""
    return CAP_HEIGHT if text.isascii() else _rise(text, BOLD if bold else REGULAR)


@lru_cache(maxsize=4096)
def _rise(text: str, face: str) -> float:
    tops = (top for top in map(_face(face).top, set(text)) if top > TALLEST_PLAIN)
    return max(tops, default=CAP_HEIGHT)


def fitted(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return ``text``, cut short with an ellipsis where it is wider than ``width`` mm."""
    if text_width(text, size, bold=bold) <= width:
        return text
    known = _face(BOLD if bold else REGULAR)
    ends = list(accumulate(known[char] for char in text))
    return text[: bisect_right(ends, width / size * known.em - known["…"])].rstrip() + "…"


def words(text: str) -> list[str]:
    """Return what of ``text`` stays on one line: a no-break space holds its words.

    So does that in a number with a fraction or a unit, or before what there are so many of, and
    that before a dot that divides.
    """
    return [word for word in _BREAKS.split(text) if word]


def wrapped(text: str, width: float, size: float, *, bold: bool = False) -> list[str]:
    """Break ``text`` between its ``words`` into lines no wider than ``width`` mm."""
    face = BOLD if bold else REGULAR
    em, space = _face(face).em, _units(" ", face)
    lines, taken = [""], 0
    for word in words(text):
        own = _units(word, face)
        if lines[-1] and size * (taken + space + own) / em > width:
            lines.append(word)
            taken = own
        else:
            taken += own + (space if lines[-1] else 0)
            lines[-1] += f" {word}" if lines[-1] else word
    return [fitted(line, width, size, bold=bold) for line in lines]
