"""Outlines of a text to prick, pipe or cut: shaped by HarfBuzz, drawn by fontTools.

HarfBuzz sets the text as the face asks: kerning, ligatures, the forms of letters that join.
"""

from __future__ import annotations

import logging
import math
import struct
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO

import uharfbuzz
from fontTools.misc.transform import Transform
from fontTools.pens.boundsPen import BoundsPen
from fontTools.ttLib import TTFont, TTLibError

from templates_gen.errors import DAMAGED, GeometryError
from templates_gen.geometry.areas.booleans import encloses, merged
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path
from templates_gen.geometry.path_pen import PathPen
from templates_gen.memo import Memo

# what fontTools grumbles about in a font that can be read after all is not for a decorator
logging.getLogger("fontTools").addHandler(logging.NullHandler())

Baseline = Callable[[float], tuple[Point, float]]
"""The point of a baseline at a distance from its middle, mm, and its direction there, radians."""


_DAMAGED_FONT = (*DAMAGED, struct.error, zlib.error, TTLibError)
STEEPEST = 1 / math.pi
"""Rise over length of half a circle, the steepest arch of a text."""


@dataclass(frozen=True, slots=True)
class Face:
    """A typeface: what it is called, and the content of its file."""

    name: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter as it is set, mm: its outline from its own origin, its place x and its advance.

    ``name`` tells letters of one form alike; ``text`` is what it stands for.
    """

    name: str
    text: str
    path: Path
    x: float
    advance: float


@dataclass(frozen=True, slots=True)
class TextLine:
    """A text set on a level line from (0, 0), mm, y up."""

    letters: tuple[Letter, ...]
    cap_height: float

    @property
    def inked(self) -> tuple[Letter, ...]:
        """The letters without the spaces between them."""
        return tuple(letter for letter in self.letters if letter.path.commands)

    @property
    def box(self) -> Box:
        """The box round all that is inked."""
        return union_box(letter.path.bounds.moved(letter.x, 0) for letter in self.inked)

    def scaled(self, factor: float) -> TextLine:
        """Return the text ``factor`` times as large."""
        grow = Transform(factor, 0, 0, factor, 0, 0)
        return TextLine(
            tuple(
                Letter(
                    letter.name,
                    letter.text,
                    letter.path.transformed(grow),
                    letter.x * factor,
                    letter.advance * factor,
                )
                for letter in self.letters
            ),
            self.cap_height * factor,
        )

    def along(self, baseline: Baseline) -> tuple[Path, ...]:
        """Return the outlines with the middle of the text in the middle of a baseline.

        Each letter stands upright on the baseline at its own middle; letters that overlap become
        one outline.
        """
        middle = self.box.centre[0]
        placed = []
        for letter in self.inked:
            half = letter.advance / 2
            (x, y), heading = baseline(letter.x + half - middle)
            stand = Transform().translate(x, y).rotate(heading).translate(-half, 0)
            placed.append(letter.path.transformed(stand))
        return merged(placed)


def level(along: float) -> tuple[Point, float]:
    """Return the place of a level baseline through (0, 0)."""
    return (along, 0.0), 0.0


def arched(length: float, rise: float) -> Baseline:
    """Return an arc whose middle is at (0, 0), ``rise`` mm above the ends of a ``length`` on it.

    A negative rise makes a hollow. Raises GeometryError where the length cannot rise so much.
    """
    share = abs(rise) / length
    if share > STEEPEST:
        raise GeometryError("the arch is too steep")
    # half the angle t of the arc: rise / length = (1 - cos t) / 2t, rising up to STEEPEST
    low, high = 0.0, math.pi / 2
    while (half := (low + high) / 2) not in (low, high):
        low, high = (half, high) if (1 - math.cos(half)) / (2 * half) < share else (low, half)
    radius = math.copysign(length / 2 / half, rise)

    def place(along: float) -> tuple[Point, float]:
        angle = along / radius
        return (radius * math.sin(angle), radius * (math.cos(angle) - 1)), -angle

    return place


def set_text(text: str, face: Face) -> TextLine:
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


def _set(text: str, face: Face, font: TTFont, scale: float) -> TextLine:
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


def missing_characters(text: str, face: Face) -> list[str]:
    """Return the characters of a text that a face has no glyph for, each once, in order.

    Raises GeometryError when the file is no font with outlines.
    """
    known = _opened(face).getBestCmap() or {}
    return [char for char in dict.fromkeys(text) if ord(char) not in known and not char.isspace()]


_OPENED = Memo(8)
"""The last fonts that were opened: a face is used for many texts."""


def _opened(face: Face) -> TTFont:
    """Return a font ready to be drawn. Raises GeometryError for what cannot be."""
    return _OPENED.get(face, lambda: _open(face))


def _open(face: Face) -> TTFont:
    try:
        font = TTFont(BytesIO(face.content), fontNumber=0)
        font.getGlyphSet()
        font.getBestCmap()
    except _DAMAGED_FONT:
        raise GeometryError(f"{face.name} is no TrueType or OpenType font") from None
    if not {"glyf", "CFF ", "CFF2"} & set(font.keys()):
        raise GeometryError(f"{face.name} has no outlines, only pictures of its letters")
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
