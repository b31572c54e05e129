"""Rectangles laid on sheets: the largest free places are kept, and the tightest is taken.

Each sheet keeps the list of its largest free rectangles, which may overlap. An item goes where it
leaves the smallest margin on its tighter side, turned or not; free rectangles it cuts are split.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.geometry.box import Box

LOOK_BACK = 24
"""How many of the last sheets may still take an item, so that the work grows with the items."""
_SLACK = 1e-6


Size = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an item lies: sheet, lower left corner, and whether it is turned a quarter."""

    sheet: int
    x: float
    y: float
    turned: bool


class Packer:
    """Lays items on sheets of one size; a list of items once, however often it is tried."""

    def __init__(self, width: float, height: float) -> None:
        self.width, self.height = width, height
        self._laid: dict[tuple[tuple[Size, ...], tuple[int, ...]], list[Spot]] = {}

    def laid(self, sizes: Sequence[Size], order: Sequence[int]) -> list[Spot]:
        """Return the spots of items as ``pack_sheets`` does."""
        key = (tuple(sizes), tuple(order))
        if key not in self._laid:
            self._laid[key] = pack_sheets(sizes, order, self.width, self.height)
        return self._laid[key]


def pack_sheets(
    sizes: Sequence[Size], order: Sequence[int], width: float, height: float
) -> list[Spot]:
    """Lay items of (width, height) on as few sheets as this order gives; spots by item.

    Every item fits a sheet of ``width`` by ``height``, turned or not.
    """
    sheets: list[list[Box]] = []
    spots: dict[int, Spot] = {}
    for item in order:
        numbers = range(max(0, len(sheets) - LOOK_BACK), len(sheets))
        tries = ((_tightest(sheets[number], *sizes[item]), number) for number in numbers)
        fits = [(found, number) for found, number in tries if found is not None]
        if not fits:
            sheets.append([Box(0, 0, width, height)])
            found = _tightest(sheets[-1], *sizes[item])
            if found is None:
                raise AssertionError("an item larger than a sheet was to be nested")
            fits = [(found, len(sheets) - 1)]
        (_, _, free, turned), number = min(fits, key=lambda each: each[0][:2])
        w, h = reversed(sizes[item]) if turned else sizes[item]
        taken = Box(free.x0, free.y1 - h, free.x0 + w, free.y1)
        sheets[number] = _subtracted(sheets[number], taken)
        spots[item] = Spot(number, taken.x0, taken.y0, turned)
    return [spots[item] for item in range(len(sizes))]


def _tightest(
    free: Sequence[Box], width: float, height: float
) -> tuple[float, float, Box, bool] | None:
    """Return margin on the tighter and the other side, the free rectangle, and whether to turn."""
    # written out: it is called for every free rectangle for every item of every try
    least, best = (math.inf, math.inf), None
    for box in free:
        x0, y0, x1, y1 = box
        wide, tall = x1 - x0, y1 - y0
        for turned, across, along in (
            (False, wide - width, tall - height),
            (True, wide - height, tall - width),
        ):
            if across >= -_SLACK and along >= -_SLACK:
                margins = (across, along) if across < along else (along, across)
                if margins < least:
                    least, best = margins, (box, turned)
    return None if best is None else (*least, *best)


def _subtracted(free: Sequence[Box], taken: Box) -> list[Box]:
    """Return the largest free rectangles that remain when ``taken`` is filled."""
    parts: list[Box] = []
    cut: set[int] = set()
    for box in free:
        if (
            taken.x0 >= box.x1 - _SLACK
            or taken.x1 <= box.x0 + _SLACK
            or taken.y0 >= box.y1 - _SLACK
            or taken.y1 <= box.y0 + _SLACK
        ):
            parts.append(box)
            continue
        left = [
            part
            for part in (
                Box(box.x0, box.y0, taken.x0, box.y1),
                Box(taken.x1, box.y0, box.x1, box.y1),
                Box(box.x0, box.y0, box.x1, taken.y0),
                Box(box.x0, taken.y1, box.x1, box.y1),
            )
            if part.x1 - part.x0 > 1 and part.y1 - part.y0 > 1
        ]
        cut.update(range(len(parts), len(parts) + len(left)))
        parts += left
    # only what was cut can lie in another: what was whole was among the largest before
    return [
        box
        for index, box in enumerate(parts)
        if index not in cut
        or not any(
            other.contains(box) and (index > earlier or other != box)
            for earlier, other in enumerate(parts)
            if index != earlier
        )
    ]
