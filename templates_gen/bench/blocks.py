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


COLUMN_GAP = 3.0


def table(rows: Sequence[Sequence[str]], width: float, size: float = SMALL) -> list[Block]:
    """Set rows of cells in columns as wide as they need; a row of a block is not parted.

    Where they need more than there is, the widest columns are broken into lines.
    """
    if not rows:
        return []
    wants = [
        max(lettering.text_width(cell, size) for cell in column)
        for column in zip(*rows, strict=True)
    ]
    widths = _shared(wants, width - COLUMN_GAP * (len(wants) - 1))
    return [_row(row, widths, size) for row in rows]


def _shared(wants: Sequence[float], width: float) -> list[float]:
    """Return what each column gets: what it wants, or an even share of what the others leave."""
    widths = [0.0] * len(wants)
    left, waiting = width, sorted(range(len(wants)), key=lambda index: wants[index])
    while waiting:
        index = waiting.pop(0)
        widths[index] = min(wants[index], left / (len(waiting) + 1))
        left -= widths[index]
    return widths


def _row(row: Sequence[str], widths: Sequence[float], size: float) -> Block:
    labels: list[Label] = []
    x, deepest = 0.0, 1
    for cell, width in zip(row, widths, strict=True):
        lines = lettering.wrapped(cell, width + 0.01, size) if cell else []
        deepest = max(deepest, len(lines))
        labels += [
            Label(entry, (x, -(index + 1) * size * LEADING + size * 0.3), size)
            for index, entry in enumerate(lines)
        ]
        x += width + COLUMN_GAP
    return Block(deepest * size * LEADING + 0.4, Drawing(labels=tuple(labels)))


def stacked(blocks: Sequence[Block]) -> Block:
    """Return blocks one under another as one that is not parted."""
    drawing, y = Drawing(), 0.0
    for block in blocks:
        drawing += block.drawing.transformed(Transform(1, 0, 0, 1, 0, y))
        y -= block.height
    return Block(-y, drawing)
