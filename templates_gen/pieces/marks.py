"""Marks and lettering that several kinds of piece share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing import lettering
from templates_gen.drawing.path import Box, Point, line
from templates_gen.drawing.piece import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role

TITLE, TEXT, SMALL = 6.0, 3.6, 2.8
"""Em sizes of lettering, mm."""
LEAST_TEXT = 2.0
LEADING = 1.35
MARK = 10.0
"""Length of a mark at an edge, mm."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of text before it has a place."""

    text: str
    size: float = TEXT
    bold: bool = False

    def width(self, scale: float = 1.0) -> float:
        """Return the set width in mm with the size multiplied by ``scale``."""
        return lettering.text_width(self.text, self.size * scale, bold=self.bold)


def text_block(lines: Sequence[Line], box: Box) -> tuple[Label, ...]:
    """Set lines in the middle of ``box``, smaller where they are too wide.

    Lines that have no room are left out, the last first; what is still too wide is cut short.
    """
    lines = [entry for entry in lines if entry.text]
    if not lines:
        return ()
    least = LEAST_TEXT / min(entry.size for entry in lines)
    scale = min(1.0, *(box.width / max(entry.width(), 1e-9) for entry in lines))
    scale = max(scale, min(least, 1.0))
    height = sum(entry.size for entry in lines) * scale * LEADING
    if height > box.height or box.width < 4 * LEAST_TEXT:
        return text_block(lines[:-1], box)
    middle, top = box.centre
    y = top + height / 2
    labels = []
    for entry in lines:
        size = entry.size * scale
        y -= size * LEADING
        text = lettering.fitted(entry.text, box.width, size, bold=entry.bold)
        at = (middle, y + size * (LEADING - lettering.CAP_HEIGHT) / 2)
        labels.append(Label(text, at, size, Anchor.MIDDLE, bold=entry.bold, block=lines[0].text))
    return tuple(labels)


def title_lines(title: str, *others: str) -> list[Line]:
    """Return a title in bold and lines under it."""
    return [Line(title, TITLE, bold=True), *(Line(text) for text in others)]


def on_side(labels: Iterable[Label]) -> tuple[Label, ...]:
    """Return labels set with y up as labels of a side, whose v runs down."""
    return tuple(replace(label, at=(label.at[0], -label.at[1])) for label in labels)


def strokes(role: Role, *lines: tuple[Point, Point]) -> tuple[Stroke, ...]:
    """Return straight strokes of one role."""
    return tuple(Stroke(line(start, end), role) for start, end in lines)


QUARTERS = ((0.25, "left"), (0.5, "front"), (0.75, "right"))
"""Shares of the girth from the back join, and what stands there as seen from the front."""


def quarter_marks(girth: float, top: float, foot: float, text_v: float) -> Drawing:
    """Mark front and quarters on a strip from v = ``top`` to ``foot``, with names at ``text_v``.

    The front is a centre line through the whole strip, the quarters are short marks at both edges.
    """
    mark = min(MARK, (foot - top) / 3)
    drawn: list[Stroke] = []
    labels: list[Label] = []
    for share, name in QUARTERS:
        u = share * girth
        if name == "front":
            drawn += strokes(Role.CENTRE, ((u, top), (u, foot)))
        else:
            drawn += strokes(Role.GUIDE, ((u, top), (u, top + mark)), ((u, foot - mark), (u, foot)))
        labels.append(Label(name, (u + 1.2, text_v), SMALL, bold=name == "front"))
    return Drawing(tuple(drawn), tuple(labels))


def plan_quarters(radius: float, mark: float = MARK) -> Drawing:
    """Mark front, left, right and back inside the rim of a disc round (0, 0)."""
    size = min(SMALL, radius / 12)
    inner = radius - min(mark, radius / 4)
    lines = (
        ((0.0, -radius), (0.0, -inner)),
        ((-radius, 0.0), (-inner, 0.0)),
        ((radius, 0.0), (inner, 0.0)),
        ((0.0, radius), (0.0, inner)),
    )
    labels = (
        Label("front", (4, -inner - size), size, bold=True),
        Label("back", (4, inner + size * 0.4), size),
        Label("left", (-inner, 0.8), size, Anchor.END),
        Label("right", (inner, 0.8), size),
    )
    return Drawing(strokes(Role.GUIDE, *lines), labels)


def centre_cross(arm: float) -> Drawing:
    """Draw a cross of centre lines at (0, 0)."""
    return Drawing(strokes(Role.CENTRE, ((-arm, 0), (arm, 0)), ((0, -arm), (0, arm))))


def quadrant(radius: float, clear: float = 3.0) -> Box:
    """Return the largest square in the upper right quarter of a disc, ``clear`` of lines."""
    return Box(clear, clear, radius * 0.68, radius * 0.68)
