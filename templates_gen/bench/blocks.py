"""Words and drawings one under another: blocks, each drawn downwards from its left top (0, 0)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from fontTools.misc.transform import Transform

from templates_gen.drawing import lettering
from templates_gen.drawing.piece import Drawing, Label

BODY, SMALL, HEADING, TITLE = 3.2, 2.7, 4.6, 9.0
LEADING = 1.35


@dataclass(frozen=True, slots=True)
class Block:
    """Something drawn downwards from its left top at (0, 0): its height and drawing, mm."""

    height: float
    drawing: Drawing


def text(words: str, width: float, size: float = BODY, *, bold: bool = False) -> Block:
    """Set words in as many lines as they take."""
    lines = lettering.wrapped(words, width, size, bold=bold)
    labels = tuple(
        Label(entry, (0, -(index + 1) * size * LEADING + size * 0.3), size, bold=bold)
        for index, entry in enumerate(lines)
    )
    return Block(len(lines) * size * LEADING + 1.2, Drawing(labels=labels))


def heading(words: str) -> Block:
    """Set a heading."""
    return Block(9.0, Drawing(labels=(Label(words, (0, -6.6), HEADING, bold=True),)))


def stacked(blocks: Sequence[Block]) -> Block:
    """Return blocks one under another as one that is not parted."""
    drawing, y = Drawing(), 0.0
    for block in blocks:
        drawing += block.drawing.transformed(Transform(1, 0, 0, 1, 0, y))
        y -= block.height
    return Block(-y, drawing)
