"""Where a box has room on an area, clear of lines and of other boxes."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import numpy.typing as npt

from templates_gen.geometry.areas.booleans import Area, covers
from templates_gen.geometry.areas.segments import Segments
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path

CELL = 2.0
"""The side of a cell, mm: places are tried so far apart."""
TRIED = 40
"""How many places clear of all lines are tried for lying inside the area, the nearest first."""


@dataclass(frozen=True, eq=False)
class FreeBoxes:
    """An area in cells from its lower left, of which each is ``taken`` by a line or a box, or not.

    What is taken is found to within a quarter of a cell.
    """

    area: Area
    taken: npt.NDArray[np.int32]

    @classmethod
    def between(cls, lines: Iterable[Path], area: Area) -> FreeBoxes:
        """Return what lines leave of an area."""
        x0, y0, x1, y1 = area.bounds
        across, up = math.ceil((x1 - x0) / CELL) + 1, math.ceil((y1 - y0) / CELL) + 1
        free = cls(area, np.zeros((across, up), dtype=np.int32))
        at = free._cell(_along(Segments.of(lines).ends))
        free.taken[at[:, 0], at[:, 1]] = 1
        return free

    def without(self, boxes: Iterable[Box]) -> FreeBoxes:
        """Return what boxes leave free."""
        taken = self.taken.copy()
        for box in boxes:
            (x0, y0), (x1, y1) = self._cell(np.reshape(box, (2, 2))).tolist()
            taken[x0 : x1 + 1, y0 : y1 + 1] = 1
        return FreeBoxes(self.area, taken)

    @cached_property
    def _sums(self) -> npt.NDArray[np.int64]:
        """How many cells are taken to the left of and below each corner: a summed-area table."""
        sums: npt.NDArray[np.int64] = np.pad(
            self.taken.cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0))
        )
        return sums

    def nearest(self, width: float, height: float, to: Point, within: Box) -> Box | None:
        """Return the free box of a size ``within`` another whose middle is nearest to a point."""
        size = np.array([width, height])
        a, b = (np.ceil(size / CELL).astype(np.intp) + 1).tolist()
        sums = self._sums
        if a >= len(sums) or b >= len(sums[0]):
            return None
        count = sums[a:, b:] - sums[:-a, b:] - sums[a:, :-b] + sums[:-a, :-b]
        # of as many cells as it may touch the box lies in the middle
        start = self.area.bounds[:2] + (np.array([a, b]) * CELL - size) / 2
        free = np.argwhere(count == 0) * CELL + start
        free = free[((free >= within[:2]) & (free + size <= within[2:])).all(axis=1)]
        away = np.hypot(*(free + size / 2 - to).T)
        nearest = free[np.argsort(away, kind="stable")[:TRIED]].tolist()
        boxes = (Box(x, y, x + width, y + height) for x, y in nearest)
        return next((box for box in boxes if covers(self.area, box)), None)

    def _cell(self, points: npt.NDArray[np.float64]) -> npt.NDArray[np.intp]:
        """Return the cell of each point; the nearest of one that lies outside."""
        cells = np.floor((points - self.area.bounds[:2]) / CELL).astype(np.intp)
        return np.clip(cells, 0, np.subtract(self.taken.shape, 1))


def _along(segments: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Return points along straight lines, n by 2 by 2, half a cell apart or less."""
    starts, steps = segments[:, 0], segments[:, 1] - segments[:, 0]
    counts = np.ceil(np.hypot(*steps.T) / (CELL / 2)).astype(np.intp) + 1
    which = np.repeat(np.arange(len(segments)), counts)
    number = np.arange(len(which)) - np.repeat(np.cumsum(counts) - counts, counts)
    share = number / np.maximum(counts[which] - 1, 1)
    found: npt.NDArray[np.float64] = starts[which] + steps[which] * share[:, None]
    return found
