"""What lets the windows of a split piece be put together: register marks, match lines, a grid.

Everything here is in the frame of the piece, and drawn over each window that shows it.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from templates_gen.drawing.path import Box, Point, circle, line
from templates_gen.drawing.piece import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.polygons import Area, spans_on
from templates_gen.drawing.roles import Role
from templates_gen.sheets.split import Cell, Lattice, letters

GRID = 50.0
"""Distance of the grid lines of a split piece, mm (the field size of ISO 5457)."""
RING, ARM = 2.0, 3.6
"""Radius of a register mark's circle and length of its cross's arms, mm."""
FROM_END = 9.0
"""How far a mark stands from the end of the match line inside the piece, mm."""
SHORTEST_JOIN = 4.0
"""A shorter stretch of the piece along a match line carries no marks, mm."""
CODE_SIZE, GRID_SIZE = 3.0, 2.0


@dataclass(frozen=True, slots=True)
class Join:
    """Where two neighbouring windows meet: the match line, and the two marks on it."""

    first: Cell
    second: Cell
    start: Point
    end: Point
    marks: tuple[Point, Point]


def joins(lattice: Lattice) -> list[Join]:
    """Return where the windows of a split piece meet."""
    if lattice.area is None:
        return []
    cells = {(cell.row, cell.column): cell for cell in lattice.cells}
    found: list[Join] = []
    for (row, column), cell in cells.items():
        right, below = cells.get((row, column + 1)), cells.get((row + 1, column))
        if right is not None:
            found += _join(lattice.area, lattice, cell, right)
        if below is not None:
            found += _join(lattice.area, lattice, cell, below)
    return found


def _join(area: Area, lattice: Lattice, first: Cell, second: Cell) -> Iterator[Join]:
    """Yield the join of two neighbours along their common edge, if the piece is wide enough."""
    one, other = lattice.tile(first), lattice.tile(second)
    start = max(one.x0, other.x0), max(one.y0, other.y0)
    end = min(one.x1, other.x1), min(one.y1, other.y1)
    spans = spans_on(area, start, end)
    if not spans:
        return
    low, high = spans[0][0], spans[-1][1]
    length = math.dist(low, high)
    if length < SHORTEST_JOIN:
        return
    share = min(FROM_END, length / 4) / length
    marks = (_between(low, high, share), _between(low, high, 1 - share))
    yield Join(first, second, low, high, marks)


def _between(start: Point, end: Point, share: float) -> Point:
    return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])


def join_drawing(join: Join, cell: Cell) -> Drawing:
    """Draw match line and marks as ``cell`` shows them, and its neighbour's code beyond them."""
    drawn = [Stroke(line(join.start, join.end), Role.MATCH)]
    for x, y in join.marks:
        drawn += [
            Stroke(circle((x, y), RING), Role.NOTE),
            Stroke(line((x - ARM, y), (x + ARM, y)), Role.NOTE),
            Stroke(line((x, y - ARM), (x, y + ARM)), Role.NOTE),
        ]
    return Drawing(tuple(drawn), (_code(join, cell),))


def _code(join: Join, cell: Cell) -> Label:
    """Write the neighbour's code along the match line, on the neighbour's side."""
    is_first = cell is join.first
    text = (join.second if is_first else join.first).code
    x, y = _between(*join.marks, 0.5)
    upright = join.start[0] == join.end[0]
    # the first window has its neighbour to the right or below
    if upright:
        beyond = 1.0 + CODE_SIZE * 0.66 if is_first else -1.0
        return Label(text, (x + beyond, y), CODE_SIZE, Anchor.MIDDLE, turn=90, bold=True)
    beyond = -1.0 - CODE_SIZE * 0.66 if is_first else 1.0
    return Label(text, (x, y + beyond), CODE_SIZE, Anchor.MIDDLE, bold=True)


def grid_drawing(box: Box, piece: Box, words: Sequence[Box]) -> Drawing:
    """Draw the lettered grid of a piece's frame as a window shows it.

    Lines a number each from the left and a letter each from the top: the same for the whole piece,
    so the same crossing bears the same name on neighbouring sheets. A name stands at the end of
    its line, or further along it where ``words`` are in the way.
    """
    drawn: list[Stroke] = []
    labels: list[Label] = []
    rows = math.ceil(piece.y1 / GRID) - 1
    for number in range(1, math.ceil(piece.x1 / GRID)):
        x = number * GRID
        if box.x0 + 1 < x < box.x1 - 1:
            drawn.append(Stroke(line((x, box.y0), (x, box.y1)), Role.GRID))
            places = [(x + 0.6, box.y1 - down) for down in _steps(2.6, box.height)]
            labels += _named(str(number), places, box, words)
    for number in range(1, rows + 1):
        y = number * GRID
        if box.y0 + 1 < y < box.y1 - 1:
            drawn.append(Stroke(line((box.x0, y), (box.x1, y)), Role.GRID))
            places = [(box.x0 + along, y + 0.6) for along in _steps(0.8, box.width)]
            labels += _named(letters(rows - number), places, box, words)
    return Drawing(tuple(drawn), tuple(labels))


def _steps(first: float, length: float) -> list[float]:
    """Return distances to try along a line."""
    return [first + step * 2.5 for step in range(int(max(length - first, 0) / 2.5))]


def _named(text: str, places: Sequence[Point], box: Box, words: Sequence[Box]) -> list[Label]:
    """Return the name of a line at the first place inside the window and clear of words."""
    for place in places:
        label = Label(text, place, GRID_SIZE)
        taken = label.box
        if box.holds(taken) and not any(taken.common(word) for word in words):
            return [label]
    return []
