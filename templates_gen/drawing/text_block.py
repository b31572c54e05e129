"""Lines of text set in a box."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Label
from templates_gen.geometry.box import Box
from templates_gen.units import in_both

TITLE, TEXT, SMALL = 6.0, 3.6, 3.0
"""Em sizes of words, mm."""

LEAST_TEXT = 2.85
"""A little over 8 points: what is smaller is hard to read at arm's length."""

SCALES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)
"""What words may shrink to where there is little room, down to the least size."""

LEADING = 1.35


@dataclass(frozen=True, slots=True)
class Line:
    """A line of text before it has a place."""

    text: str
    size: float = TEXT
    bold: bool = False


def text_block(lines: Sequence[Line], box: Box) -> tuple[Label, ...]:
    """Set lines in the middle of ``box``, wrapped and smaller where they need it.

    Lines that have no room are left out, the last first.
    """
    for count in range(len(lines), 0, -1):
        for scale in SCALES:
            rows = [row for entry in lines[:count] for row in _rows(entry, scale, box.width)]
            tall = sum(row.size for row in rows) * LEADING
            if tall <= box.height and not any(row.text.endswith("…") for row in rows):
                return _set(rows, box, tall)
    return ()


def _rows(entry: Line, scale: float, width: float) -> list[Line]:
    """Break a line where it is too wide for its box."""
    size = max(entry.size * scale, min(entry.size, LEAST_TEXT))
    texts = fonts.wrapped(entry.text, width, size, bold=entry.bold)
    return [Line(text, size, entry.bold) for text in texts if text]


def _set(rows: Sequence[Line], box: Box, tall: float) -> tuple[Label, ...]:
    middle, y = box.centre[0], box.centre[1] + tall / 2
    labels = []
    for number, row in enumerate(rows):
        y -= row.size * LEADING
        at = (middle, y + row.size * (LEADING - fonts.CAP_HEIGHT) / 2)
        label = Label(row.text, at, row.size, Anchor.MIDDLE, bold=row.bold)
        labels.append(replace(label, continues=number > 0))
    return tuple(labels)


def measure(mm: float) -> str:
    """Write a length in both units for paper, so that no line breaks within it."""
    return in_both(mm, "nowhere")


def title_lines(title: str, *others: str) -> list[Line]:
    """Return a title in bold and lines under it."""
    return [Line(title, TITLE, bold=True), *(Line(text) for text in others)]
