"""How wide the columns of a table are where not every cell has room in one line."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from itertools import product

from templates_gen.drawing import fonts

SPARE = 0.1
"""Added to the width of a text, so that rounding never breaks it, mm."""
STEP = 2.0
"""Steps in which columns are made narrower, mm."""


def widths(rows: Sequence[Sequence[str]], available: float, size: float) -> list[float]:
    """Return how wide columns are in ``available`` mm, for rows of as many cells, the first bold.

    Each is as wide as its texts where there is room. Where there is not, narrow columns keep what
    they need and the others share what is left; or, if the table is then less tall, they are made
    narrower one by one, always the one that adds the fewest lines to the table for each mm.
    """
    columns = [_Column(cells, size) for cells in zip(*rows, strict=True)]
    shared = _shared([column.widest for column in columns], available)
    if sum(column.narrowest for column in columns) > available:
        return shared
    found = _narrowed(columns, available)
    cuts = any(width < column.narrowest for width, column in zip(shared, columns, strict=True))
    return found if cuts or _lines(columns, found) < _lines(columns, shared) else shared


def _narrowed(columns: Sequence[_Column], available: float) -> list[float]:
    """Return widths of columns as wide as their texts once they are made narrower."""
    found = [column.widest for column in columns]
    while (over := sum(found) - available) > 0:
        steps = range(1, int(over / STEP) + 2)
        number, width = min(
            (
                (number, max(found[number] - step * STEP, column.narrowest))
                for (number, column), step in product(enumerate(columns), steps)
                if found[number] > column.narrowest
            ),
            key=lambda tried: _cost(columns, found, *tried),
        )
        found[number] = width
    return found


class _Column:
    """The cells of a column as widths of their words, and how many lines they take at a width."""

    def __init__(self, cells: Sequence[str], size: float) -> None:
        self.space = fonts.text_width(" ", size)
        self.words = [
            [fonts.text_width(word, size, bold=number == 0) for word in fonts.words(cell)]
            for number, cell in enumerate(cells)
        ]
        self.known: dict[float, list[int]] = {}

    @cached_property
    def widest(self) -> float:
        """The width at which every cell takes one line, mm."""
        return SPARE + max(sum(words) + self.space * max(0, len(words) - 1) for words in self.words)

    @cached_property
    def narrowest(self) -> float:
        """The width of the longest word, mm."""
        return SPARE + max(max(words, default=0.0) for words in self.words)

    def lines(self, width: float) -> list[int]:
        """Return how many lines each cell takes."""
        if width not in self.known:
            self.known[width] = [self._lines(words, width) for words in self.words]
        return self.known[width]

    def _lines(self, words: Sequence[float], width: float) -> int:
        count, taken = 1, -self.space
        for word in words:
            taken += self.space + word
            if taken > width:
                count, taken = count + 1, word
        return count


def _cost(
    columns: Sequence[_Column], found: Sequence[float], number: int, width: float
) -> tuple[float, float]:
    """Return the lines that a narrower column adds to a table for each mm, and less for more mm."""
    saved = found[number] - width
    tried = [*found[:number], width, *found[number + 1 :]]
    return (_lines(columns, tried) - _lines(columns, found)) / saved, -saved


def _lines(columns: Sequence[_Column], found: Sequence[float]) -> int:
    """Return how many lines a table takes with columns of these widths."""
    counts = [column.lines(width) for column, width in zip(columns, found, strict=True)]
    return sum(max(row) for row in zip(*counts, strict=True))


def _shared(wanted: Sequence[float], available: float) -> list[float]:
    """Return widths of which none is more than wanted: what narrow ones leave the others share."""
    given: dict[int, float] = {}
    for count, column in enumerate(sorted(range(len(wanted)), key=wanted.__getitem__)):
        share = (available - sum(given.values())) / (len(wanted) - count)
        given[column] = min(wanted[column], share)
    return [given[column] for column in range(len(wanted))]
