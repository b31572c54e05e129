"""Outlines of a text: shaped by HarfBuzz, drawn by fontTools.

HarfBuzz sets the text as the face asks: kerning, ligatures, the forms of letters that join. What
reads the outlines is large, and few cakes have letters: import this module where a text is set.
"""

from __future__ import annotations

import logging
import struct
import zlib
from io import BytesIO

import uharfbuzz
from fontTools.misc.transform import Transform
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont, TTLibError

from templates_gen.drawing.attached import Attached
from templates_gen.drawing.fonts import character_name
from templates_gen.drawing.letters import Letter, TextLine
from templates_gen.errors import DAMAGED, CakeError, GeometryError, geometry_at
from templates_gen.geometry.areas.booleans import encloses
from templates_gen.geometry.path_pen import PathPen
from templates_gen.memo import Memo

# warnings of fontTools about a font that can still be read are of no use to a decorator
logging.getLogger("fontTools").addHandler(logging.NullHandler())

_DAMAGED_FONT = (*DAMAGED, struct.error, zlib.error, TTLibError)


def typeset(text: str, face: Attached) -> TextLine:
    """Return a text of the cake file as ``set_text`` sets it.

    Raises CakeError at its key ``text`` or ``font``.
    """
    advice = "use another file, or one of the bundled faces: script, bold"
    with geometry_at(("font",), "a font with outlines", advice):
        missing = missing_characters(text, face)
        if not missing:
            return set_text(text, face)
    listed = ", ".join(map(character_name, missing))
    found = f"{listed}, which the typeface “{face.name}” does not have"
    advice = "write it in other characters, or choose another typeface"
    raise CakeError.at(("text",), found, "characters that the typeface has", advice)


def set_text(text: str, face: Attached) -> TextLine:
    """Return a text set in a face so that its capitals are 1 mm tall.

    Raises GeometryError when the file is no font with outlines, has no height of capitals, or draws
    nothing, or no areas, for the text.
    """
    font = _opened(face)
    scale = 1 / _cap_height(font, face.name)
    damaged = GeometryError(f"{face.name} is damaged: its letters cannot be drawn")
    try:
        line = _set(text, face, font, scale)
    except _DAMAGED_FONT:
        raise damaged from None
    if not all(map(encloses, {letter.name: letter.path for letter in line.inked}.values())):
        raise damaged
    if not line.inked:
        raise GeometryError(f"{face.name} draws nothing for “{text}”")
    return line


def _set(text: str, face: Attached, font: TTFont, scale: float) -> TextLine:
    buffer = uharfbuzz.Buffer()
    buffer.cluster_level = uharfbuzz.BufferClusterLevel.MONOTONE_CHARACTERS
    buffer.add_str(text)
    buffer.guess_segment_properties()
    shaper = uharfbuzz.Font(uharfbuzz.Face(face.content))
    uharfbuzz.shape(shaper, buffer)
    glyphs, order = font.getGlyphSet(), font.getGlyphOrder()
    ends = [info.cluster for info in buffer.glyph_infos]
    letters: list[Letter] = []
    x = 0.0
    for info, spot in zip(buffer.glyph_infos, buffer.glyph_positions, strict=True):
        name = order[info.codepoint]
        move = Transform(scale, 0, 0, scale, spot.x_offset * scale, spot.y_offset * scale)
        pen = PathPen(move, glyphs)
        glyphs[name].draw(pen)
        covers = text[info.cluster : min((e for e in ends if e > info.cluster), default=len(text))]
        letters.append(Letter(name, covers, pen.path, x, spot.x_advance * scale))
        x += spot.x_advance * scale
    return TextLine(tuple(letters), 1.0)


def missing_characters(text: str, face: Attached) -> list[str]:
    """Return the characters of a text that a face has no glyph for, each once, in order.

    Raises GeometryError when the file is not a font with outlines.
    """
    known = _opened(face).getBestCmap() or {}
    return [char for char in dict.fromkeys(text) if ord(char) not in known and not char.isspace()]


_OPENED = Memo(8)
"""The last fonts that were opened: a face is used for many texts."""


def _opened(face: Attached) -> TTFont:
    """Return a font ready to be drawn. Raises GeometryError for what cannot be."""
    return _OPENED.get(face, lambda: _open(face))


def _open(face: Attached) -> TTFont:
    try:
        font = TTFont(BytesIO(face.content), fontNumber=0)
        font.getGlyphSet()
        font.getBestCmap()
    except _DAMAGED_FONT:
        raise GeometryError(f"“{face.name}” is no TrueType or OpenType font") from None
    if not {"glyf", "CFF ", "CFF2"} & set(font.keys()):
        raise GeometryError(f"“{face.name}” has no outlines, only pictures of its letters")
    return font


def _cap_height(font: TTFont, name: str) -> float:
    """Return the height of a capital in units of the font: as it says, or as tall as its H."""
    try:
        said = float(getattr(font["OS/2"], "sCapHeight", 0)) if "OS/2" in font else 0.0
        if said > 0:
            return said
        pen = BoundsPen(font.getGlyphSet())
        font.getGlyphSet()[font.getBestCmap()[ord("H")]].draw(pen)
        tall = float(pen.bounds[3])
    except _DAMAGED_FONT:
        tall = 0.0
    if tall <= 0:
        raise GeometryError(f"{name} does not say how tall its capitals are, and has no H")
    return tall
