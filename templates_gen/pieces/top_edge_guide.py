"""Top-edge drip guide: paper laid on the top with a mark at the rim for each drip."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, TEXT
from templates_gen.errors import geometry_at
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.placement import deepest
from templates_gen.geometry.box import Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import line
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.drips import DripRow
from templates_gen.pieces.making import PRINT_UP
from templates_gen.pieces.marks import inwards
from templates_gen.terms import unit_of

WIDTH, SHARE = 34.0, 0.6
"""Width of the ring, mm, which holds a length in both units beside the mark of a drip; on a small
or narrow tier it is this share of how far off its edge is."""
TICK = 8.0
"""Length of the mark of a drip, mm."""


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the top-edge guide of a tier whose drips have one."""
    drips, row = tier.spec.drips, tier.drip_row
    if row is None or drips is None or drips.guide == "collar":
        return
    rim = tier.covered.rim
    key = tier.key("drips", "guide")
    allowed, advice = "a top wide enough everywhere for a ring", 'write guide = "collar"'
    with geometry_at(key, allowed, advice):
        _, reach = deepest(region(rim.path()))
        width = min(WIDTH, SHARE * reach)
        inner = offset(rim, -width)
    words = _lengths(row, width, inches=tier.inches)
    title = f"{tier.name}: top-edge drip guide"
    yield Piece(
        owner=tier.owner,
        kind="top-edge-guide",
        title=title,
        surface="covered",
        use=f"Lay it on the covered top, {PRINT_UP}, front to the front;"
        f" {_to_pipe(row, words, inches=tier.inches)}.",
        outline=rim.path() + inner.path(),
        drawing=_ticks(row, rim, width, words) + _words(title, inner, width),
        values=row.values,
    )


def _to_pipe(row: DripRow, words: Sequence[str], *, inches: bool) -> str:
    """Say what to pipe at the marks."""
    if row.is_even:
        return f"pipe a drip {row.words[0]} long at each mark"
    unit = "" if words == row.words else f" in {unit_of(inches=inches)}"
    return f"pipe a drip at each mark, to the length{unit} beside it"


def _ticks(row: DripRow, rim: Outline, width: float, words: Sequence[str]) -> Drawing:
    """Mark each drip at the rim, with its length where they differ and there is room."""
    drawn: list[Stroke] = []
    labels: list[Label] = []
    tick = _tick(width)
    for u, length in zip(row.positions, words, strict=True):
        drawn.append(Stroke(line(rim.at(u), inwards(rim, u, tick)), Role.GUIDE))
        at, (x, y) = inwards(rim, u, tick + 1), rim.normal(u)
        label = _radial(length, at, math.degrees(math.atan2(y, x)), _size(row))
        if _has_room(label, width):
            labels.append(label)
    return Drawing(tuple(drawn), () if row.is_even else tuple(labels))


def _lengths(row: DripRow, width: float, *, inches: bool) -> tuple[str, ...]:
    """Write the lengths of drips in both units, or where the ring is too narrow as numbers."""
    labels = (_radial(text, (0.0, 0.0), 0.0, _size(row)) for text in row.words)
    has_room = all(_has_room(label, width) for label in labels)
    return row.words if has_room else row.numbers(inches=inches)


def _tick(width: float) -> float:
    return min(TICK, width / 3)


def _size(row: DripRow) -> float:
    return max(min(SMALL, row.spacing / 3), LEAST_TEXT)


def _has_room(label: Label, width: float) -> bool:
    return _tick(width) + label.width + 2 < width


def _radial(text: str, at: Point, across: float, size: float) -> Label:
    """Set a number square to the rim, which faces ``across``, upright enough to be read."""
    if abs(across) <= 90:
        return Label(text, at, size, Anchor.END, across)
    return Label(text, at, size, Anchor.START, across + 180)


def _words(title: str, inner: Outline, width: float) -> Drawing:
    """Name the ring at its left, and mark its front."""
    x, y = inner.at(inner.girth / 2)
    front = Label("front", (x, y - SMALL - 0.5), SMALL, Anchor.MIDDLE, bold=True)
    size = max(LEAST_TEXT, min(TEXT, width / 5))
    x, y = inner.at(inner.girth / 4)
    named = Label(title, (x - 2, y), size, Anchor.MIDDLE, turn=90, bold=True)
    return Drawing((), (named, front))
