"""The caption of a window: what it shows and, where the piece starts, what to do with it."""

from __future__ import annotations

from collections.abc import Iterator

from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEAST_TEXT, TEXT, Line
from templates_gen.geometry.box import Box

NAME = 5.0
"""Em size of the name of a piece, its part and how many to cut, mm: over 14 points."""
LEADING, AIR = 1.2, 0.35
"""Line height over em size, and what is left beside the lines, mm."""
MOST_LINES = 5
"""So many lines, besides the name, say what to do."""
LEAST_STRIP = NAME * (fonts.CAP_HEIGHT + fonts.DESCENT) + 2 * AIR
"""Room beside a window for a name, mm."""

Caption = tuple[Line, ...]


def strip_width(caption: Caption) -> float:
    """Return the room that a caption takes beside a window, mm."""
    if not caption:
        return LEAST_STRIP
    rest = sum(line.size * LEADING for line in caption[1:])
    return caption[0].size * (fonts.CAP_HEIGHT + fonts.DESCENT) + rest + 2 * AIR


def full(piece: Piece, part: str, room: float) -> Caption:
    """Return the caption with what to do, wrapped to ``room`` mm; none if it takes too much."""
    head = short(piece, part, room)
    lines = fonts.wrapped(piece.use, room, TEXT)
    crowded = len(lines) > MOST_LINES or any(line.endswith("…") for line in lines)
    if crowded or not head:
        return ()
    return (*head, *(Line(line, TEXT) for line in lines if line))


def short(piece: Piece, part: str, room: float) -> Caption:
    """Return the name in one line of ``room`` mm: as much as fits, on a sliver nothing."""
    for text, size in _names(piece, part):
        if fonts.text_width(text, size, bold=True) <= room:
            return (Line(text, size, bold=True),)
    return ()


def _names(piece: Piece, part: str) -> Iterator[tuple[str, float]]:
    """Yield what a window can be called, the fullest first: rather smaller than without name."""
    cut = f"cut {piece.copies}"
    own = piece.title.rpartition(": ")[2]
    for size in (NAME, TEXT, LEAST_TEXT):
        for name in (piece.title, own):
            yield " · ".join(filter(None, (name, part, cut))), size
    for text in (" · ".join(filter(None, (*own.split()[-1:], part or cut))), part or cut):
        for size in (NAME, TEXT, LEAST_TEXT):
            yield text, size


def caption_drawing(caption: Caption, box: Box, *, upright: bool) -> Drawing:
    """Write a caption above a window, or along its left when ``upright``."""
    corner = (box.x0, box.y0) if upright else (box.x0, box.y1)
    there = Transform().translate(*corner)
    turned = Transform(0, 1, -1, 0, 0, 0) if upright else Transform()
    labels: list[Label] = []
    top = strip_width(caption) - AIR
    for index, line in enumerate(caption):
        # the first line takes its own height, each further one its line height
        top -= line.size * (LEADING if index else fonts.CAP_HEIGHT + fonts.DESCENT)
        at = (0, top + fonts.DESCENT * line.size)
        label = Label(line.text, at, line.size, bold=line.bold, continues=index > 0)
        labels.append(label.transformed(there.transform(turned)))
    return Drawing(labels=tuple(labels))
