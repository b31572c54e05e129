"""The lettered grid of a split piece, by which neighbouring sheets are matched."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from templates_gen.drawing import fonts
from templates_gen.drawing.apart import free_labels
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.areas.lines import along_axes
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, Point, Span, gaps
from templates_gen.geometry.path import line, straights
from templates_gen.sheets.lattice import Lattice, letters

GRID = 50.0
"""Distance of the grid lines of a split piece, mm (the field size of ISO 5457)."""
SIZE = LEAST_TEXT
"""Em size of the names of grid lines, mm."""
AIR = 0.6
"""Between words and the grid lines that stop for them, mm."""
FROM_EDGE = 1.6
"""From the edge of a window to the name of a line across, mm: a thick line may lie along it."""
CLEARANCE = 1.2
"""From the name of a grid line to any other word, mm: side by side they would read as one."""
LONG, BESIDE = 4.0, 3.0
"""A grid line so near to a line of the piece of such a length could be taken for it, mm."""
LEAN, SHORT, ON = 0.03, 0.4, 0.2
"""A curve lies on a grid line where it leans so little (mm per mm), for so long and so near, mm."""
_LEVEL = 1e-6


@dataclass(frozen=True, slots=True)
class Grid:
    """The lettered grid of a split piece: names and places of its lines, upright and across."""

    upright: tuple[tuple[str, float], ...]
    across: tuple[tuple[str, float], ...]


def grid_of(lattice: Lattice) -> Grid:
    """Return the grid of a split piece: the same for all its windows.

    Lines have a number each from the left and a letter each from the top, so the same crossing
    bears the same name on neighbouring sheets. One that would run beside a long line of the piece
    or beside a match line is left out, and one on which a curve of the piece lies where it turns.
    A strip without crossings has none: its numbers could be taken for those of ticks and names.
    """
    size = lattice.piece.size
    if min(size.x1, size.y1) <= GRID:
        return Grid((), ())
    xs, ys = _long_lines(lattice.piece)
    xs.update(lattice.lines_x)
    ys.update(lattice.lines_y)
    paths = [stroke.path for stroke in lattice.piece.drawing.strokes]
    turns_x, turns_y = along_axes(paths, LEAN, SHORT)
    rows = math.ceil(size.y1 / GRID) - 1
    upright = ((str(number), number * GRID) for number in range(1, math.ceil(size.x1 / GRID)))
    across = ((letters(rows - number), number * GRID) for number in range(1, rows + 1))
    return Grid(
        tuple((name, x) for name, x in upright if _is_clear(x, xs, turns_x)),
        tuple((name, y) for name, y in across if _is_clear(y, ys, turns_y)),
    )


def _is_clear(place: float, long: Iterable[float], turns: Iterable[float]) -> bool:
    """Tell whether a grid line is clear of long lines beside it and of curves that turn on it."""
    return all(abs(place - each) >= BESIDE for each in long) and all(
        abs(place - each) >= ON for each in turns
    )


def _long_lines(piece: Piece) -> tuple[set[float], set[float]]:
    """Return x of the long upright lines of a piece and y of those that run across."""
    xs: set[float] = set()
    ys: set[float] = set()
    for stroke in piece.drawing.strokes:
        for (x0, y0), (x1, y1) in straights(stroke.path):
            if abs(x1 - x0) < _LEVEL and abs(y1 - y0) > LONG:
                xs.add(x0)
            elif abs(y1 - y0) < _LEVEL and abs(x1 - x0) > LONG:
                ys.add(y0)
    return xs, ys


def grid_drawing(box: Box, grid: Grid, words: Sequence[Box], lines: Taken) -> Drawing:
    """Draw a grid as a window shows it, with gaps where ``words`` and names of crossing lines are.

    The name of a line stands at its end, or further along it where words or ``lines`` are in the
    way.
    """
    uprights = [(name, x) for name, x in grid.upright if box.x0 + 1 < x < box.x1 - 1]
    across = [(name, y) for name, y in grid.across if box.y0 + 1 < y < box.y1 - 1]
    around = [each.expanded(CLEARANCE) for each in words]
    taken, upright_names = lines.also(around), list[Label]()
    for name, x in uprights:
        places = ((x + AIR, box.y1 - step) for step in _steps(SIZE + AIR, box.height))
        upright_names += _named(name, places, box, taken)
    named = [*words, *(label.box for label in upright_names)]
    taken, across_names = lines.also([*around, *named]), list[Label]()
    up = AIR + fonts.DESCENT * SIZE
    for name, y in across:
        places = ((box.x0 + step, y + up) for step in _steps(FROM_EDGE, box.width))
        across_names += _named(name, places, box, taken)
    clear = [*words, *(label.box for label in across_names)]
    drawn = [line((x, a), (x, b)) for _, x in uprights for a, b in _shown(box, x, clear, along=1)]
    drawn += [line((a, y), (b, y)) for _, y in across for a, b in _shown(box, y, named, along=0)]
    strokes = tuple(Stroke(path, Role.GRID) for path in drawn)
    return Drawing(strokes, (*upright_names, *across_names))


def _shown(box: Box, place: float, words: Sequence[Box], *, along: int) -> Iterator[Span]:
    """Return the intervals that a line ``along`` x (0) or y (1) shows in a window beside words."""
    around = (each.expanded(AIR) for each in words)
    met = (each for each in around if each[1 - along] < place < each[3 - along])
    return gaps(box[along], box[along + 2], ((each[along], each[along + 2]) for each in met))


def _steps(first: float, length: float) -> Iterator[float]:
    """Yield distances to try along a line."""
    return (first + step * 2.5 for step in range(int(max(length - first, 0) / 2.5)))


def _named(text: str, places: Iterable[Point], box: Box, taken: Taken) -> list[Label]:
    """Return the name of a line at the first place inside the window that is free."""
    labels = (Label(text, place, SIZE) for place in places)
    inside = [label for label in labels if box.contains(label.box)]
    return list(islice(free_labels(inside, taken), 1))
