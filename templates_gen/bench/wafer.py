"""The sheets of wafer paper that petals and small pieces are cut from."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator

from templates_gen.bench.rolled import Box, Rolled
from templates_gen.cakefile.cut_from import SHEET, WAFER
from templates_gen.cakefile.estimates import Estimates

_SLACK = 1e-6


def sheets(found: Iterable[Rolled], estimates: Estimates) -> Iterator[tuple[str, int]]:
    """Yield each colour of wafer paper, and how many sheets of it are cut up, waste among them."""
    by_colour: dict[str, list[Box]] = defaultdict(list)
    more, gap = 1 + estimates.waste / 100, estimates.cut_gap.mm
    for each in found:
        if each.kind == WAFER:
            by_colour[each.colour] += [
                (wide, high, math.ceil(count * more - _SLACK)) for wide, high, count in each.boxes
            ]
    room = SHEET[0] + gap, SHEET[1] + gap
    for colour, boxes in by_colour.items():
        yield colour, min(_in_rows(boxes, room), _in_rows(boxes, room[::-1]))


def _in_rows(boxes: Iterable[Box], room: tuple[float, float]) -> int:
    """Return how many sheets boxes take side by side in rows, the tallest first."""
    number, right, down = 0, math.inf, math.inf
    for wide, high, count in sorted(boxes, key=lambda box: -box[1]):
        for _ in range(count):
            if right + wide > room[0] + _SLACK:
                right, down = 0.0, down + high
                if down > room[1] + _SLACK:
                    number, down = number + 1, high
            right += wide
    return number
