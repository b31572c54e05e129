"""Rectangles laid on sheets: the largest free places are kept, and the tightest is taken.

Each sheet keeps the list of its largest free rectangles, which may overlap. An item goes where it
leaves the smallest margin on its tighter side, turned or not; free rectangles it cuts are split.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.geometry.box import Box

LOOK_BACK = 24
"""How many of the last sheets may still take an item, so that the work grows with the items."""
_SLACK = 1e-6


@dataclass(frozen=True, slots=True)
class Spot:
    """Where an item lies: sheet, lower left corner, and whether it is turned a quarter."""

    sheet: int
    x: float
    y: float
    turned: bool


def pack_sheets(
    sizes: Sequence[tuple[float, float]], order: Sequence[int], width: float, height: float
) -> list[Spot]:
    """Lay items of (width, height) on as few sheets as this order gives; spots by item.

    Every item fits a sheet of ``width`` by ``height``, turned or not.
    """
    sheets: list[list[Box]] = []
    spots: dict[int, Spot] = {}
    for item in order:
        best: tuple[float, float, int, Box, bool] | None = None
        for number in range(max(0, len(sheets) - LOOK_BACK), len(sheets)):
            found = _tightest(sheets[number], *sizes[item])
            if found is not None and (best is None or found[:2] < best[:2]):
                best = (found[0], found[1], number, found[2], found[3])
        if best is None:
            sheets.append([Box(0, 0, width, height)])
            found = _tightest(sheets[-1], *sizes[item])
            if found is None:
                raise AssertionError("an item larger than a sheet was to be nested")
            best = (found[0], found[1], len(sheets) - 1, found[2], found[3])
        _, _, number, free, turned = best
        w, h = reversed(sizes[item]) if turned else sizes[item]
        taken = Box(free.x0, free.y1 - h, free.x0 + w, free.y1)
        sheets[number] = _subtracted(sheets[number], taken)
        spots[item] = Spot(number, taken.x0, taken.y0, turned)
    return [spots[item] for item in range(len(sizes))]


def _tightest(
    free: Sequence[Box], width: float, height: float
) -> tuple[float, float, Box, bool] | None:
    """Return margin on the tighter and the other side, the free rectangle, and whether to turn."""
    best: tuple[float, float, Box, bool] | None = None
    for box in free:
        for turned, w, h in ((False, width, height), (True, height, width)):
            across, along = box.x1 - box.x0 - w, box.y1 - box.y0 - h
            if across < -_SLACK or along < -_SLACK:
                continue
            margins = (min(across, along), max(across, along))
            if best is None or margins < best[:2]:
                best = (*margins, box, turned)
    return best


def _subtracted(free: Sequence[Box], taken: Box) -> list[Box]:
    """Return the largest free rectangles that remain when ``taken`` is filled."""
    parts: list[Box] = []
    for box in free:
        if (
            taken.x0 >= box.x1 - _SLACK
            or taken.x1 <= box.x0 + _SLACK
            or taken.y0 >= box.y1 - _SLACK
            or taken.y1 <= box.y0 + _SLACK
        ):
            parts.append(box)
            continue
        parts += [
            part
            for part in (
                Box(box.x0, box.y0, taken.x0, box.y1),
                Box(taken.x1, box.y0, box.x1, box.y1),
                Box(box.x0, box.y0, box.x1, taken.y0),
                Box(box.x0, taken.y1, box.x1, box.y1),
            )
            if part.x1 - part.x0 > 1 and part.y1 - part.y0 > 1
        ]
    return [
        box
        for index, box in enumerate(parts)
        if not any(
            other.contains(box) and (index > earlier or other != box)
            for earlier, other in enumerate(parts)
            if index != earlier
        )
    ]
