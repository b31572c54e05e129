"""Marks and lettering that several kinds of piece share."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing import lettering
from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.path import Box, Point, line
from templates_gen.drawing.piece import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role

TITLE, TEXT, SMALL = 6.0, 3.6, 3.0
"""Em sizes of lettering, mm."""
LEAST_TEXT = 2.4
SCALES = (1.0, 0.9, 0.8, 0.7, 0.6, 0.5, 0.4)
"""What lettering may shrink to where there is little room, down to the least size."""
LEADING = 1.35
MARK = 10.0
"""Length of a mark at an edge, mm."""


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
    """Break a line where it is too wide for the room."""
    size = max(entry.size * scale, min(entry.size, LEAST_TEXT))
    texts = lettering.wrapped(entry.text, width, size, bold=entry.bold)
    return [Line(text, size, entry.bold) for text in texts if text]


def _set(rows: Sequence[Line], box: Box, tall: float) -> tuple[Label, ...]:
    middle, y = box.centre[0], box.centre[1] + tall / 2
    labels = []
    for number, row in enumerate(rows):
        y -= row.size * LEADING
        at = (middle, y + row.size * (LEADING - lettering.CAP_HEIGHT) / 2)
        label = Label(row.text, at, row.size, Anchor.MIDDLE, bold=row.bold)
        labels.append(replace(label, continues=number > 0))
    return tuple(labels)


def measure(mm: float) -> str:
    """Write a length in both units for paper, so that no line breaks within it."""
    return in_both(mm).replace(" ", "\u00a0")


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


def quarter_marks(girth: float, top: float, foot: float, text_v: float, edge: str = "") -> Drawing:
    """Mark front and quarters on a strip from v = ``top`` to ``foot``, with names at ``text_v``.

    The front is a centre line through the whole strip, the quarters are short marks at both edges.
    ``edge`` follows each name: which edge of the strip goes where.
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
        text = f"{name} {edge}".strip()
        labels.append(Label(text, (u + 1.5, text_v), SMALL, bold=name == "front"))
    return Drawing(tuple(drawn), tuple(labels))


def plan_quarters(radius: float, mark: float = MARK) -> Drawing:
    """Mark front, left, right and back inside the rim of a disc round (0, 0)."""
    size = max(min(SMALL, radius / 12), LEAST_TEXT)
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
        Label("left", (-inner, 1.4), size, Anchor.END),
        Label("right", (inner, 1.4), size),
    )
    return Drawing(strokes(Role.GUIDE, *lines), labels)


def centre_cross(arm: float) -> Drawing:
    """Draw a cross of centre lines at (0, 0)."""
    return Drawing(strokes(Role.CENTRE, ((-arm, 0), (arm, 0)), ((0, -arm), (0, arm))))


def quadrant(radius: float, clear: float = 3.0) -> Box:
    """Return a square in the upper right quarter of a disc, ``clear`` of its lines and rim."""
    return Box(clear, clear, radius * 0.68, radius * 0.68)
