"""Arrows to the straight edge of a narrow strip, along which a ruler holds two windows straight.

The register marks of such a strip are so near to each other that it could be taped at an angle.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, product

from templates_gen.drawing.apart import OFF_LINES, free_labels
from templates_gen.drawing.drawing import Anchor, Label
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, polyline

BASELINE = 60.0
"""Marks nearer to each other than this let two windows be taped at an angle, mm."""
REACH, KEPT = 40.0, 8.0
"""From the join to the arrow on either side, and from there to the next join at the least, mm."""
ARROW = 3.2
"""Height of an arrow, mm."""
TO_ARROW = "triangle to triangle"
"""What a piece that explains its arrows says of them."""
SAYS = (
    f"lay a ruler from {TO_ARROW}",
    f"ruler from {TO_ARROW}",
    f"ruler: {TO_ARROW}",
    "ruler here",
    "ruler",
)
"""What stands beside an arrow, at full length and shorter."""
BESIDE = tuple(ARROW / 3 + 0.8 + farther for farther in (0.0, 4.0, 8.0))
"""From the middle of an arrow to the words beside it, mm: farther where a drip is in the way."""
NUDGES = (0.0, -2.5, 2.5, -5.0, 5.0)
"""By how much farther or nearer an arrow may stand, to be off a tick at the edge, mm."""
OFF_TICK = ARROW / 3 + 1.0
"""From the middle of an arrow to a tick at the least, mm."""
_LEVEL = 1e-6


def arrow_tips(
    one: Box, other: Box, at: Point, lines: Sequence[tuple[Point, Point]]
) -> tuple[Point, ...]:
    """Return a point on either side of the end of a match line, on the straight edge through it.

    The lower or left one comes first. They are BASELINE apart or more; none where the edge or one
    of the two tiles is too short for that.
    """
    along = 0 if one.y0 == other.y0 else 1
    here = at[along]
    spans = [span for span in _edges(at, along, lines) if span[0] < here < span[1]]
    if not spans:
        return ()
    sides = [(tile.x0, tile.x1) if along == 0 else (tile.y0, tile.y1) for tile in (one, other)]
    most_before = here - KEPT - max(spans[0][0], min(low for low, _ in sides))
    most_after = min(spans[0][1], max(high for _, high in sides)) - KEPT - here
    before, after = min(REACH, most_before), min(REACH, most_after)
    before = min(max(before, BASELINE - after), most_before)
    after = min(max(after, BASELINE - before), most_after)
    if min(before, after) <= 0 or before + after < BASELINE - _LEVEL:
        return ()
    ticks = tuple(_ticks(at, along, lines))
    ways = (
        (here - before - left, here + after + right)
        for left, right in sorted(product(NUDGES, repeat=2), key=lambda each: sum(map(abs, each)))
        if 0 < before + left <= most_before
        and 0 < after + right <= most_after
        and before + left + after + right >= BASELINE - _LEVEL
    )
    ends = min(ways, key=lambda ends: _on_ticks(ends, ticks))
    return tuple((end, at[1]) if along == 0 else (at[0], end) for end in ends)


def _edges(
    at: Point, along: int, lines: Sequence[tuple[Point, Point]]
) -> Iterator[tuple[float, float]]:
    """Yield from where to where straight lines run along an axis through a point's level."""
    level = at[1 - along]
    for a, b in lines:
        if abs(a[1 - along] - level) < _LEVEL and abs(b[1 - along] - level) < _LEVEL:
            yield min(a[along], b[along]), max(a[along], b[along])


def _ticks(at: Point, along: int, lines: Sequence[tuple[Point, Point]]) -> Iterator[float]:
    """Yield where lines across an axis begin at a point's level."""
    level = at[1 - along]
    for a, b in lines:
        high = [abs(each[1 - along] - level) for each in (a, b)]
        if abs(a[along] - b[along]) < _LEVEL and min(high) < _LEVEL < max(high):
            yield a[along]


def _on_ticks(ends: Sequence[float], ticks: Sequence[float]) -> int:
    """Return how many arrows at these places stand on a tick."""
    return sum(any(abs(end - tick) < OFF_TICK for tick in ticks) for end in ends)


def arrow(tip: Point, *, upright: bool) -> Path:
    """Return an arrow in the piece that points up to its upper edge, or right to its right one."""
    (x, y), wide = tip, ARROW / 3
    if upright:
        return polyline([(x - wide, y - ARROW), (x, y), (x + wide, y - ARROW)], closed=True)
    return polyline([(x - ARROW, y - wide), (x, y), (x - ARROW, y + wide)], closed=True)


def arrow_words(tip: Point, box: Box, taken: Taken, *, upright: bool) -> tuple[Label, ...]:
    """Return words beside an arrow: as many as have room in a window, clear of what is taken."""
    x, y = tip
    sides = [each for at in BESIDE for each in ((at, Anchor.START), (-at, Anchor.END))]
    labels = [
        Label(text, (x + aside, y - ARROW), LEAST_TEXT, anchor)
        if upright
        else Label(text, (x - OFF_LINES, y + aside), LEAST_TEXT, anchor, turn=90)
        for text in SAYS
        for aside, anchor in sides
    ]
    inside = [label for label in labels if box.contains(label.box)]
    return tuple(islice(free_labels(inside, taken), 1))
