"""Words as the outlines of their letters, for programs and machines that lack the face."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from fontTools.misc.transform import Transform
from fontTools.ttLib import TTFont

from templates_gen.drawing.drawing import Label
from templates_gen.drawing.fonts import BOLD, REGULAR, font_file, text_width
from templates_gen.geometry.path import Path, together
from templates_gen.geometry.path_pen import PathPen


def word_outlines(labels: Iterable[Label]) -> list[Path]:
    """Return the outlines of each label, in mm where it stands; to be filled, not cut."""
    return [_outline(label) for label in labels]


def _outline(label: Label) -> Path:
    letters, x = [], 0.0
    for char in label.text:
        letter, em = _letter(char, label.bold)
        letters.append(letter.transformed(label.frame.translate(x, 0).scale(label.size / em)))
        x += text_width(char, label.size, bold=label.bold)
    return together(letters)


@cache
def _letter(char: str, bold: bool) -> tuple[Path, int]:
    """Return the outline of a character in font units, and how many go to an em."""
    font = _font(BOLD if bold else REGULAR)
    glyphs = font.getGlyphSet()
    pen = PathPen(Transform(), glyphs)
    glyphs[font.getBestCmap()[ord(char)]].draw(pen)
    return pen.path, font["head"].unitsPerEm


@cache
def _font(face: str) -> TTFont:
    return TTFont(font_file(face), lazy=True)
