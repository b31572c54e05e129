"""Text that runs on: blocks put one under another, on as many pages as they take.

A block is drawn downwards from its left top at (0, 0). What needs no words of its own, such as a
picture, is a ``Block`` of a height and a drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.geometry.box import Box

SMALL, BODY, HEADING, TITLE = 3.0, 3.2, 4.6, 9.0
"""Em sizes, mm."""
LEADING = 1.35
COLUMN_GAP = 4.0
"""Between the columns of a table, mm."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something to put on a page: what is drawn, and how high it is in mm.

    With ``leads`` it stays on the page of the block after it, as a heading does. Where a page
    begins with it, its ``head`` is put first, as the headings of a table that runs on.
    """

    height: float
    drawing: Drawing
    leads: bool = False
    head: Block | None = None


def stacked(blocks: Sequence[Block]) -> Block:
    """Return blocks one under another as one that is not parted."""
    drawing, y = Drawing(), 0.0
    for block in blocks:
        drawing += block.drawing.transformed(Transform(1, 0, 0, 1, 0, y))
        y -= block.height
    return Block(-y, drawing)


def text(text: str, width: float, size: float = BODY, *, bold: bool = False) -> Block:
    """Set a paragraph, wrapped to ``width`` mm."""
    lines = _lines(text, 0.0, width, size, bold=bold)
    return Block(len(lines) * size * LEADING + 1.2, Drawing(labels=tuple(lines)))


def heading(text: str) -> Block:
    """Set a heading."""
    return Block(9.0, Drawing(labels=(Label(text, (0, -6.6), HEADING, bold=True),)), leads=True)


def table(rows: Sequence[Sequence[str]], width: float, size: float = SMALL) -> list[Block]:
    """Set rows of as many cells each, the first as headings; cells wrap where they have to.

    Each row is a block, so that a long table runs on over pages, with its headings.
    """
    columns = _columns(rows, width, size)
    blocks: list[Block] = []
    for number, row in enumerate(rows):
        x, labels, tallest = 0.0, list[Label](), 1
        for cell, column in zip(row, columns, strict=True):
            lines = _lines(cell, x, column, size, bold=number == 0)
            labels += lines
            tallest = max(tallest, len(lines))
            x += column + COLUMN_GAP
        height = tallest * size * LEADING + 0.8
        head = blocks[0] if blocks else None
        blocks.append(Block(height, Drawing(labels=tuple(labels)), number == 0, head))
    return blocks


def flow(blocks: Iterable[Block], page: Box) -> list[Drawing]:
    """Put blocks one under another on pages with so much room; at least on one."""
    pages, y = [Drawing()], page.y1
    for group in _groups(blocks):
        if y - sum(block.height for block in group) < page.y0 and y < page.y1:
            pages.append(Drawing())
            y = page.y1
            group = [group[0].head, *group] if group[0].head else group
        for block in group:
            pages[-1] += block.drawing.transformed(Transform(1, 0, 0, 1, page.x0, y))
            y -= block.height
    return pages


def _groups(blocks: Iterable[Block]) -> Iterator[list[Block]]:
    """Gather blocks that stay together: those that lead, and the one they lead."""
    group: list[Block] = []
    for block in blocks:
        group.append(block)
        if not block.leads:
            yield group
            group = []
    if group:
        yield group


def _lines(text: str, x: float, width: float, size: float, *, bold: bool) -> list[Label]:
    return [
        Label(entry, (x, -(index + 1) * size * LEADING + size * 0.3), size, bold=bold)
        for index, entry in enumerate(lettering.wrapped(text, width, size, bold=bold))
    ]


def _columns(rows: Sequence[Sequence[str]], width: float, size: float) -> list[float]:
    """Return the widths of columns: as wide as their texts, the widest less where room is short."""
    wanted = [
        max(lettering.text_width(cell, size, bold=True) for cell in column) + 0.1
        for column in zip(*rows, strict=True)
    ]
    room = width - COLUMN_GAP * (len(wanted) - 1)
    # what narrow columns do not need goes to the others
    given: dict[int, float] = {}
    for count, column in enumerate(sorted(range(len(wanted)), key=wanted.__getitem__)):
        share = (room - sum(given.values())) / (len(wanted) - count)
        given[column] = min(wanted[column], share)
    return [given[column] for column in range(len(wanted))]
