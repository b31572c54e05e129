"""The caption of a window: what it shows and, where the piece starts, what to do with it."""

from __future__ import annotations

from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box

SIZE, LANE, LINE = 3.0, 5.0, 4.0
"""Em size, room beside a window for one line, and for each further line, mm."""
MOST_LINES = 5


def full(piece: Piece, named: str, room: float) -> tuple[str, ...]:
    """Return the caption with what to do, wrapped to ``room`` mm; none if it takes too much."""
    lines = lettering.wrapped(f"{named} · cut {piece.copies} · {piece.use}", room, SIZE)
    crowded = len(lines) > MOST_LINES or any(line.endswith("…") for line in lines)
    return () if crowded else tuple(lines)


def short(piece: Piece, named: str, code: str, room: float) -> tuple[str, ...]:
    """Return the caption in one line of ``room`` mm: as much as fits, on a sliver nothing."""
    texts = (f"{named} · cut {piece.copies}", named, code, "")
    return (next(text for text in texts if lettering.text_width(text, SIZE) <= room),)


def caption_drawing(caption: tuple[str, ...], box: Box, *, upright: bool) -> Drawing:
    """Write a caption above a window, or along its left when ``upright``."""
    raised = (LANE - SIZE) / 2 + 0.4
    corner = (box.x0, box.y0) if upright else (box.x0, box.y1)
    there = Transform().translate(*corner)
    turned = Transform(0, 1, -1, 0, 0, 0) if upright else Transform()
    labels = []
    for index, text in enumerate(filter(None, caption)):
        up = raised + (len(caption) - 1 - index) * LINE
        label = Label(text, (0, up), SIZE, continues=index > 0)
        labels.append(label.transformed(there.transform(turned)))
    return Drawing(labels=tuple(labels))
