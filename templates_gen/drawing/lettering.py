"""Lettering in the bundled face: how wide a text is, which characters it lacks, its outlines.

Sizes are em sizes in mm. Text is set left to right without kerning, as the PDF writer sets it.
"""

from __future__ import annotations

import unicodedata
from functools import cache
from pathlib import Path as FilePath
from typing import Any

from fontTools.misc.transform import Transform
from fontTools.pens.basePen import BasePen
from fontTools.pens.transformPen import TransformPen
from fontTools.ttLib import TTFont

from templates_gen.drawing.path import Command, Path, Point
from templates_gen.errors import GlyphError
from templates_gen.resources import folder

REGULAR = "SourceSans3-Regular"
BOLD = "SourceSans3-Bold"
CAP_HEIGHT = 0.66
"""Height of a capital over the em size, from the OS/2 table of the face (a test compares)."""
DESCENT = 0.23
"""Depth of a descender below the baseline over the em size."""


def font_file(face: str) -> FilePath:
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


def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """Return the width of ``text`` in mm at an em size in mm.

    Raises GlyphError when a character is not in the face.
    """
    known = _advances(BOLD if bold else REGULAR)
    try:
        return size * sum(known[ord(char)] for char in text)
    except KeyError:
        lacking = ", ".join(character_name(char) for char in missing_glyphs(text))
        raise GlyphError(f"the bundled font has no {lacking}, needed for {text!r}") from None


def fitted(text: str, width: float, size: float, *, bold: bool = False) -> str:
    """Return ``text``, cut short with an ellipsis where it is wider than ``width`` mm."""
    if text_width(text, size, bold=bold) <= width:
        return text
    for length in range(len(text) - 1, 0, -1):
        short = text[:length].rstrip() + "…"
        if text_width(short, size, bold=bold) <= width:
            return short
    return "…"


class _OutlinePen(BasePen):  # type: ignore[misc]  # the base class is untyped
    """Collect outlines as lines and cubics; BasePen raises quadratics to cubics."""

    def __init__(self, glyphs: Any) -> None:  # noqa: ANN401 (an untyped glyph set)
        super().__init__(glyphs)
        self.commands: list[Command] = []

    def _moveTo(self, pt: Point) -> None:  # noqa: N802
        self.commands.append(("moveTo", (pt,)))

    def _lineTo(self, pt: Point) -> None:  # noqa: N802
        self.commands.append(("lineTo", (pt,)))

    def _curveToOne(self, pt1: Point, pt2: Point, pt3: Point) -> None:  # noqa: N802
        self.commands.append(("curveTo", (pt1, pt2, pt3)))

    def _closePath(self) -> None:  # noqa: N802
        self.commands.append(("closePath", ()))

    def _endPath(self) -> None:  # noqa: N802
        self.commands.append(("endPath", ()))


@cache
def _glyph(face: str, code: int) -> Path:
    """Return the outline of one character at an em size of 1."""
    font = _font(face)
    scale = 1 / font["head"].unitsPerEm
    glyphs = font.getGlyphSet()
    pen = _OutlinePen(glyphs)
    glyphs[font.getBestCmap()[code]].draw(TransformPen(pen, Transform(scale, 0, 0, scale, 0, 0)))
    return Path(tuple(pen.commands))


def outlines(text: str, size: float, *, bold: bool = False) -> Path:
    """Return the outlines of ``text`` from (0, 0) on the baseline, em size in mm.

    Raises GlyphError when a character is not in the face.
    """
    text_width(text, size, bold=bold)
    face = BOLD if bold else REGULAR
    advances = _advances(face)
    commands: list[Command] = []
    x = 0.0
    for code in map(ord, text):
        commands += _glyph(face, code).transformed(Transform(size, 0, 0, size, x, 0)).commands
        x += advances[code] * size
    return Path(tuple(commands))
