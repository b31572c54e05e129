"""What shows how the windows of a split piece go together: register marks and match lines.

Everything here is in the frame of the piece, and drawn over each window that shows it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from templates_gen.drawing import fonts
from templates_gen.drawing.apart import free_labels
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, Point, Span, between, gaps
from templates_gen.geometry.path import Path, line, straights, together
from templates_gen.sheets.lattice import Cell, Lattice
from templates_gen.sheets.ruler import ARROW, BASELINE, TO_ARROW, arrow, arrow_tips, arrow_words
from templates_gen.sheets.spans import BESIDE, LONG, runs_along, span

RING, ARM = 2.0, 3.6
"""Radius of a register mark's circle and length of its cross's arms, mm."""
FROM_END, STEP = 9.0, 3.0
"""How far a mark stands from the end of the match line inside the piece, and how far apart other
places for it are, mm: at the most a third of the line from its end."""
MARK_ROOM = 4.0
"""A mark so far from any line is clear of it, mm: its arms are shorter."""
SHORTEST_JOIN = 4.0
"""Where windows meet both ways a shorter part along a match line carries no marks, mm."""
NAME = 3.0
"""Em size of names along match lines, mm."""
PLACES = 3.0
"""Places for words along a match line are tried so far apart, mm."""
TRIM, STICK = "trim this grey off", "stick this grey under"
"""What is done with the overlap of the first of two windows, and with that of the second."""
CLEAR_OF_LINE = 0.8
"""Between a match line and the words along it, mm."""
ON = 0.2
"""A line so near to a match line lies on it, mm."""
_LEVEL = 1e-6


@dataclass(frozen=True, slots=True)
class Join:
    """Where two neighbouring windows meet: the match line, and two marks on it.

    Where these are near to each other there are ``tips`` of two arrows, to lay a ruler along. It
    stops ``beside`` parallel lines that could be taken for it, intervals given as shares of it.
    """

    first: Cell
    second: Cell
    start: Point
    end: Point
    marks: tuple[Point, Point]
    tips: tuple[Point, ...] = ()
    beside: tuple[Span, ...] = ()

    @property
    def is_upright(self) -> bool:
        """Whether the match line is upright, and the windows beside each other."""
        return self.start[0] == self.end[0]

    @property
    def arrows(self) -> tuple[Path, ...]:
        """The arrows, the one to the left or below first."""
        return tuple(arrow(tip, upright=self.is_upright) for tip in self.tips)


def joins(lattice: Lattice, drawn: Taken | None = None) -> list[Join]:
    """Return where the windows of a split piece meet, with marks clear of what is ``drawn`` on it.

    If nothing else is given, that is its own lines.
    """
    if lattice.area is None:
        return []
    strokes = lattice.piece.drawing.strokes
    drawn = drawn or Taken(each.path for each in strokes)
    cells = {(cell.row, cell.column): cell for cell in lattice.cells}
    lines = [each for stroke in strokes for each in straights(stroke.path)]
    found: list[Join] = []
    for (row, column), cell in cells.items():
        right, below = cells.get((row, column + 1)), cells.get((row + 1, column))
        if right is not None:
            found += _join(lattice, cell, right, lines, drawn)
        if below is not None:
            found += _join(lattice, cell, below, lines, drawn)
    return found


def _join(
    lattice: Lattice, first: Cell, second: Cell, lines: Sequence[tuple[Point, Point]], taken: Taken
) -> Iterator[Join]:
    """Yield the join of two neighbours along their common edge, if the piece is wide enough."""
    one, other = lattice.tile(first), lattice.tile(second)
    start = max(one.x0, other.x0), max(one.y0, other.y0)
    end = min(one.x1, other.x1), min(one.y1, other.y1)
    spans = spans_on(lattice.area, start, end) if lattice.area else []
    if not spans:
        return
    low, high = spans[0][0], spans[-1][1]
    # in a strip each window has no other neighbour
    both_ways = lattice.lines_x and lattice.lines_y
    if both_ways and math.dist(low, high) < SHORTEST_JOIN:
        return
    near, far = _clear_mark(low, high, taken), _clear_mark(high, low, taken)
    tips = () if math.dist(near, far) >= BASELINE else arrow_tips(one, other, high, lines)
    yield Join(first, second, low, high, (near, far), tips, tuple(_beside(low, high, lines)))


def _beside(low: Point, high: Point, lines: Sequence[tuple[Point, Point]]) -> Iterator[Span]:
    """Yield the shares of a match line where a long parallel line is too near or any lies on it."""
    along = 1 if low[0] == high[0] else 0
    start, long = low[along], high[along] - low[along]
    for a, b in lines:
        left, right = span(a[1 - along], b[1 - along])
        first, last = sorted((each[along] - start) / long for each in (a, b))
        common = (min(last, 1) - max(first, 0)) * abs(long)
        least, away = (LONG, BESIDE) if common > LONG else (_LEVEL, ON)
        near = left - away < low[1 - along] < right + away
        if near and common > least and runs_along(a, b, axis=along, least=least):
            yield first, last


def _clear_mark(start: Point, end: Point, taken: Taken) -> Point:
    """Return the first place for a mark, from the start of a match line, clear of lines.

    Where none is clear it is the place farthest from any.
    """
    long = math.dist(start, end)
    first = min(FROM_END, long / 4)
    count = 1 + max(int((long / 3 - first) / STEP), 0)
    places = [between(start, end, (first + step * STEP) / long) for step in range(count)]
    clearances = [min(each, MARK_ROOM) for each in taken.clearances(places)]
    return places[clearances.index(max(clearances))]


def join_drawing(join: Join, cell: Cell, lattice: Lattice, taken: Taken) -> Drawing:
    """Draw match line and marks as ``cell`` shows them, with the parts on both sides of the line.

    Where what is ``taken`` leaves no room for these words along the line, they are left out.
    """
    is_first, upright = cell is join.first, join.is_upright
    match = [Stroke(path, Role.MATCH) for path in [_match_line(join)] if path is not None]
    drawn = (*match, *(Stroke(path, Role.NOTE) for path in _marks(join)))
    other = join.second if is_first else join.first
    part, beyond = lattice.part(cell), f"to part {lattice.number(other)}"
    own = (f"{lattice.piece.title} · {part}", part)
    grey = (f"{beyond} · {STICK}", beyond) if not is_first else (f"{beyond} · {TRIM}", beyond)
    return Drawing(
        drawn,
        (
            *_along(join, own, upright != is_first, taken),
            *_along(join, grey, upright == is_first, taken),
        ),
    )


def arrows_on(joins: Iterable[Join], cell: Cell, taken: Taken, use: str) -> Drawing:
    """Draw the arrows of its joins that a window shows: one for two in one place.

    Unless the ``use`` of the piece explains them, words beside them do, clear of what is taken.
    """
    tips: list[Point] = []
    drawn: list[Stroke] = []
    words: list[Label] = []
    for join in joins:
        # the first window has its neighbour to the right or below
        own = slice(1) if join.is_upright == (cell is join.first) else slice(1, None)
        for tip, path in zip(join.tips[own], join.arrows[own], strict=True):
            if all(math.dist(tip, other) > ARROW for other in tips):
                tips.append(tip)
                drawn.append(Stroke(path, Role.NOTE))
                if TO_ARROW not in use:
                    free_of = taken.also([label.box for label in words])
                    words += arrow_words(tip, cell.box, free_of, upright=join.is_upright)
    return Drawing(tuple(drawn), tuple(words))


def overlap_of(join: Join, cell: Cell) -> Box:
    """Return what a window shows beyond a match line, beside the piece's edge on the line."""
    box = cell.box
    if join.is_upright:
        x, ends = join.start[0], (join.start[1], join.end[1])
        sides = (x, box.x1) if cell is join.first else (box.x0, x)
        return Box(sides[0], min(ends), sides[1], max(ends))
    y, ends = join.start[1], (join.start[0], join.end[0])
    sides = (box.y0, y) if cell is join.first else (y, box.y1)
    return Box(min(ends), sides[0], max(ends), sides[1])


def _stops(join: Join) -> list[Span]:
    """Return the intervals of a match line beside the crosses of its marks, as shares of it.

    They stop beside parallel lines. There are none where it is too short for both crosses.
    """
    long = math.dist(join.start, join.end)
    first, second = sorted(math.dist(join.start, mark) / long for mark in join.marks)
    arm = ARM / long
    intervals = [(0.0, first - arm), (first + arm, second - arm), (second + arm, 1.0)]
    left = (part for interval in intervals for part in gaps(*interval, join.beside))
    return [(low, high) for low, high in left if high - low > _LEVEL]


def _match_line(join: Join) -> Path | None:
    """Return a match line, which stops for the crosses of its marks; none where none is left."""
    intervals = _stops(join) or ([] if join.beside else [(0.0, 1.0)])
    ends = ((between(join.start, join.end, at) for at in interval) for interval in intervals)
    paths = [line(*each) for each in ends]
    return together(paths) if paths else None


def _marks(join: Join) -> Iterator[Path]:
    """Draw the register marks: a circle and a cross each, of which one arm may be the line."""
    upright, alone = join.is_upright, bool(join.beside or _stops(join))
    for x, y in join.marks:
        yield circle((x, y), RING)
        if upright or alone:
            yield line((x - ARM, y), (x + ARM, y))
        if not upright or alone:
            yield line((x, y - ARM), (x, y + ARM))


def _along(join: Join, texts: Iterable[str], after: bool, taken: Taken) -> list[Label]:
    """Write along a match line, ``after`` it: above one that runs across, right of an upright.

    The first of the texts that has room between the marks, as near to their middle as it can be.
    """
    near, far = join.marks
    long = math.dist(near, far)
    for text in texts:
        half = fonts.text_width(text, NAME, bold=True) / 2 + ARM + 0.5
        if 2 * half > long:
            continue
        count = int((long - 2 * half) / PLACES) + 1
        shares = [(half + step * PLACES) / long for step in range(count)]
        shares.sort(key=lambda share: abs(share - 0.5))
        labels = [_written(join, text, between(near, far, share), after) for share in shares]
        found = list(islice(free_labels(labels, taken), 1))
        if found:
            return found
    return []


def _written(join: Join, text: str, at: Point, after: bool) -> Label:
    (x, y), away = at, CLEAR_OF_LINE + fonts.DESCENT * NAME
    back = CLEAR_OF_LINE + fonts.CAP_HEIGHT * NAME
    if join.is_upright:
        # the top of upright words is at their left
        at = (x + back, y) if after else (x - away, y)
        return Label(text, at, NAME, Anchor.MIDDLE, turn=90, bold=True)
    return Label(text, (x, y + away if after else y - back), NAME, Anchor.MIDDLE, bold=True)
