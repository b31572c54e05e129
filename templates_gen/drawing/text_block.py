"""Lines of text: broken to a width, measured, set one under another; for a piece, in a box."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Label
from templates_gen.geometry.box import Box, Point
from templates_gen.units import NO_BREAK, in_both

TITLE, TEXT, SMALL = 6.0, 3.6, 3.0
"""Em sizes of words, mm."""

LEAST_TEXT = 2.85
"""A little over 8 points: what is smaller is hard to read at arm's length."""

SCALES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)
"""What words may shrink to where there is little room, down to the least size."""

LEADING = 1.2
"""Line height over em size in captions and on pages of words, where paper is scarce."""

LOOSE = 1.35
"""Line height over em size where words stand alone among drawn lines: on pieces and maps."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of text before it has a place; one that ``wraps`` goes on with the line before it."""

    text: str
    size: float = TEXT
    bold: bool = False
    wraps: bool = False

    @property
    def width(self) -> float:
        """Set width of the text, mm."""
        return fonts.text_width(self.text, self.size, bold=self.bold)


def broken(lines: Iterable[Line], width: float) -> list[Line]:
    """Return lines broken where they are wider than ``width`` mm; see ``are_cut``."""
    return [
        replace(line, text=row, wraps=line.wraps or number > 0)
        for line in lines
        for number, row in enumerate(fonts.wrapped(line.text, width, line.size, bold=line.bold))
        if row
    ]


def are_cut(lines: Iterable[Line | Label]) -> bool:
    """Tell whether a word was too wide for its lines, so that it ends with an ellipsis."""
    return any(line.text.endswith("…") for line in lines)


def height(lines: Iterable[Line], leading: float = LEADING) -> float:
    """Return how tall lines are one under another, mm."""
    return sum(line.size for line in lines) * leading


def inked_height(lines: Sequence[Line], leading: float = LEADING) -> float:
    """Return the height from the capitals of the first line to the descenders of the last, mm."""
    first, last = lines[0], lines[-1]
    accents = first.size * (fonts.rise(first.text, bold=first.bold) - fonts.CAP_HEIGHT)
    inner = height(lines, leading) - _gap(first, leading) - _gap(last, leading)
    return inner + accents + last.size * fonts.DESCENT


def set_lines(
    lines: Iterable[Line],
    at: Point = (0.0, 0.0),
    anchor: Anchor = Anchor.START,
    leading: float = LEADING,
) -> tuple[Label, ...]:
    """Set lines one under another from ``at`` down, the capitals of each in mid-line."""
    x, y = at
    labels: list[Label] = []
    for number, line in enumerate(lines):
        y -= line.size * leading
        base = (x, y + _gap(line, leading))
        labels.append(
            Label(
                line.text,
                base,
                line.size,
                anchor,
                bold=line.bold,
                continues=number > 0,
                wraps=line.wraps,
            )
        )
    return tuple(labels)


def _gap(line: Line, leading: float) -> float:
    """Return what is left above the capitals of a line, and below its baseline, mm."""
    return line.size * (leading - fonts.CAP_HEIGHT) / 2


def text_block(lines: Sequence[Line], box: Box) -> tuple[Label, ...]:
    """Set lines in the middle of ``box``, wrapped and smaller where they need it.

    Lines that have no room are left out, the last first.
    """
    for count in range(len(lines), 0, -1):
        for scale in SCALES:
            rows = broken((_scaled(line, scale) for line in lines[:count]), box.width)
            tall = height(rows, LOOSE)
            if tall <= box.height and not are_cut(rows):
                x, y = box.centre
                return set_lines(rows, (x, y + tall / 2), Anchor.MIDDLE, LOOSE)
    return ()


def _scaled(line: Line, scale: float) -> Line:
    """Return a line smaller, but no smaller than can be read."""
    return replace(line, size=max(line.size * scale, min(line.size, LEAST_TEXT)))


def measure(mm: float) -> str:
    """Write a length in both units for paper, so that no line breaks within it."""
    return in_both(mm).replace(" ", NO_BREAK)


def title_lines(title: str, *others: str) -> list[Line]:
    """Return a title in bold and lines under it."""
    return [Line(title, TITLE, bold=True), *(Line(text) for text in others)]
