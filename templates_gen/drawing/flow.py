"""Text that runs on: sections of blocks, in one column or two, on as many pages as they take.

A block is drawn downwards from its left top at (0, 0). What needs no words of its own, such as a
picture, is a ``Block`` of a height and a drawing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain, groupby
from operator import itemgetter

from templates_gen.drawing.columns import widths
from templates_gen.drawing.drawing import Drawing, Label, joined
from templates_gen.drawing.text_block import (
    LEADING,
    SMALL,
    Line,
    are_cut,
    broken,
    height,
    set_lines,
)
from templates_gen.geometry.box import Box, Point

BODY, HEADING, TITLE = 3.2, 4.6, 9.0
"""Em sizes, mm."""
AFTER_TEXT = 1.2
"""Below a paragraph, mm."""
COLUMN_GAP = 3.0
"""Between the columns of a table, mm."""
ROW_GAP = 0.3
"""Between the rows of a table, mm."""
GUTTER = 6.0
"""Between two columns of text, mm."""
WORTH = 0.85
"""What two columns may take of the height of one, for a section to be set in them."""
LEAST_FILLED = 0.35
"""What the last page should hold of what it could, where there are several."""
STEP = 5.0
"""Steps in which pages are made shorter to fill the last, mm."""


@dataclass(frozen=True, slots=True)
class Block:
    """Something to put on a page: what is drawn, and how high it is in mm.

    With ``leads`` it stays on the page of the block after it, as a heading does. Where a page
    or a column begins with it, its ``head`` is put first: the heading of what runs on. That of
    a section is said ``again`` above it.
    """

    height: float
    drawing: Drawing
    leads: bool = False
    head: Block | None = None
    again: Block | None = None


Section = Callable[[float], Sequence[Block]]
"""Sets a part of a text for a width in mm."""


def stacked(blocks: Sequence[Block]) -> Block:
    """Return blocks one under another as one that is not parted."""
    return Block(_height(blocks), _drawn(_under_each_other(blocks, 0.0, 0.0)))


def text(text: str, width: float, size: float = BODY, *, bold: bool = False) -> Block:
    """Set a paragraph, wrapped to ``width`` mm."""
    lines = broken([Line(text, size, bold)], width)
    return Block(height(lines) + AFTER_TEXT, Drawing(labels=set_lines(lines)))


def heading(text: str) -> Block:
    """Set a heading; where its section runs on it is said again, smaller."""
    large = Drawing(labels=(Label(text, (0, -5.2), HEADING, bold=True),))
    small = Drawing(labels=(Label(f"{text}, continued", (0, -SMALL), SMALL, bold=True),))
    return Block(7.0, large, leads=True, again=Block(SMALL * LEADING + ROW_GAP, small))


def table(rows: Sequence[Sequence[str]], width: float, size: float = SMALL) -> list[Block]:
    """Set rows of as many cells each, the first as headings; cells wrap where they have to.

    Each row is a block, so that a long table runs on over pages, with its headings.
    """
    columns = widths(rows, width - COLUMN_GAP * (len(rows[0]) - 1), size)
    blocks: list[Block] = []
    for number, row in enumerate(rows):
        x, labels, tallest = 0.0, list[Label](), size * LEADING
        for cell, column in zip(row, columns, strict=True):
            lines = broken([Line(cell, size, number == 0)], column)
            labels += set_lines(lines, (x, 0.0))
            tallest = max(tallest, height(lines))
            x += column + COLUMN_GAP
        head = blocks[0] if blocks else None
        drawing = Drawing(labels=tuple(labels))
        # neither the headings nor the last row stand alone
        leads = number in (0, len(rows) - 2)
        blocks.append(Block(tallest + ROW_GAP, drawing, leads, head))
    return blocks


def set_once(section: Section) -> Section:
    """Return a section that keeps its blocks for each width, where it is set again and again."""
    found: dict[float, Sequence[Block]] = {}

    def setting(width: float) -> Sequence[Block]:
        if width not in found:
            found[width] = section(width)
        return found[width]

    return setting


def column_width(width: float) -> float:
    """Return the width of one of two columns on a page of a ``width``, mm."""
    return (width - GUTTER) / 2


def columns_first(sections: Sequence[Section], width: float) -> list[Section]:
    """Return sections for pages of a ``width``, those in two columns first, each kind in order.

    What needs the whole width parts the columns above it from those below, and above each such
    place one of the two ends before the other.
    """
    half = column_width(width)
    kept = [set_once(each) for each in sections]
    return sorted(kept, key=lambda each: -_narrower(each(width), each(half), half)[0])


def flow(sections: Iterable[Section], page: Box) -> list[Drawing]:
    """Set sections one under another on pages with so much room; at least on one.

    A section is set in two columns where that takes less of the page. Where the last page would
    hold little, more is left for it.
    """
    return [_drawn(placed) for placed in _pages(sections, page)]


def page_count(sections: Iterable[Section], page: Box) -> tuple[int, float]:
    """Return on how many pages ``flow`` sets sections, and what share of the last they need."""
    pages, filled = _set(list(_runs(sections, page.width)), page)
    return len(pages), filled / page.height


_Placed = list[tuple[Block, Point]]
"""What stands on a page: blocks, and where the left top of each is."""


def _pages(sections: Iterable[Section], page: Box) -> list[_Placed]:
    """Return what stands on each page."""
    runs = list(_runs(sections, page.width))
    pages, filled = _set(runs, page)
    least = page.height * LEAST_FILLED
    for _ in range(math.ceil(least / STEP)):
        if len(pages) == 1 or filled >= least:
            break
        shorter = page._replace(y0=page.y1 - page.height + STEP)
        tried, filled = _set(runs, shorter)
        if len(tried) > len(pages):
            break
        pages, page = tried, shorter
    return pages


_Groups = list[list[Block]]
"""Blocks, those that stay together in one list."""


def _runs(sections: Iterable[Section], width: float) -> Iterator[tuple[int, _Groups]]:
    """Yield runs of text with the number of columns that they are set in, 1 or 2."""
    half = column_width(width)
    for columns, some in groupby(
        (_narrower(section(width), section(half), half) for section in sections), key=itemgetter(0)
    ):
        yield columns, [group for _, blocks in some for group in _groups(_headed(blocks))]


def _headed(blocks: Sequence[Block]) -> Iterator[Block]:
    """Name the section above what may stand apart from its heading."""
    again = blocks[0].again if blocks else None
    if not again:
        yield from blocks
        return
    yield blocks[0]
    heads = {id(None): again}
    for block in blocks[1:]:
        if block.head and id(block.head) not in heads:
            heads[id(block.head)] = stacked([again, block.head])
        yield replace(block, head=heads[id(block.head)])


def _narrower(
    wide: Sequence[Block], narrow: Sequence[Block], half: float
) -> tuple[int, Sequence[Block]]:
    """Return a section in two columns if that takes less room and all of it fits them."""
    labels = [label for block in narrow for label in block.drawing.labels]
    strokes = [stroke for block in narrow for stroke in block.drawing.strokes]
    if (
        len(narrow) == 1
        or are_cut(labels)
        or any(label.box.x1 > half + 1e-6 for label in labels)
        or any(stroke.path.bounds.x1 > half + 1e-6 for stroke in strokes)
        or _height(narrow) / 2 > WORTH * _height(wide)
    ):
        return 1, wide
    return 2, narrow


def _set(runs: Iterable[tuple[int, _Groups]], page: Box) -> tuple[list[_Placed], float]:
    """Return the pages of a text, and how much of the last is filled, mm."""
    pages, y = [_Placed()], page.y1
    for columns, run in runs:
        rest = run
        while rest:
            available = y - page.y0
            taken = _counts(rest, available, columns)
            if not taken[0]:
                if y < page.y1:
                    pages.append([])
                    y = page.y1
                    continue
                taken = [1]  # taller than a page
            tallest, start = 0.0, 0
            for column, count in enumerate(taken):
                blocks = _column(rest[start : start + count])
                x = page.x0 + column * (page.width + GUTTER) / 2
                pages[-1] += _under_each_other(blocks, x, y)
                tallest, start = max(tallest, _height(blocks)), start + count
            y -= tallest
            rest = rest[start:]
    return pages, page.y1 - y


def _drawn(placed: Iterable[tuple[Block, Point]]) -> Drawing:
    """Draw blocks where they stand."""
    return joined(block.drawing.moved(*at) for block, at in placed)


def _under_each_other(blocks: Iterable[Block], x: float, y: float) -> Iterator[tuple[Block, Point]]:
    """Yield blocks with the left top of each, from (x, y) down."""
    for block in blocks:
        yield block, (x, y)
        y -= block.height


def _counts(groups: _Groups, available: float, columns: int) -> list[int]:
    """Return how many groups stand in each column: as many as have room, and in two alike tall."""
    first = _count(groups, available)
    if columns == 1 or not first:
        return [first]
    second = _count(groups[first:], available)
    if first + second < len(groups):
        return [first, second]

    def tallest(count: int) -> float:
        return max(_height(_column(part)) for part in (groups[:count], groups[count:]))

    best = min(range(len(groups), 0, -1), key=tallest)
    return [best, len(groups) - best]


def _count(groups: _Groups, available: float) -> int:
    """Return how many groups have room under each other."""
    count, taken = 0, 0.0
    for group in groups:
        taken += _height(_column([group]) if not count else group)
        if taken > available:
            break
        count += 1
    return count


def _column(groups: _Groups) -> list[Block]:
    """Return the blocks of a column, which may begin with the headings of a table that runs on."""
    head = [groups[0][0].head] if groups else []
    return [block for block in (*head, *chain.from_iterable(groups)) if block]


def _height(blocks: Iterable[Block]) -> float:
    return sum(block.height for block in blocks)


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
