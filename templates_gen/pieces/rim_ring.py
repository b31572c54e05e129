"""Rim ring: paper laid on the top with a mark at the rim for each drip, instead of a collar."""

from __future__ import annotations

import math

from templates_gen.drawing.numbers import decimal
from templates_gen.drawing.path import Point, line
from templates_gen.drawing.piece import Anchor, Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.pieces.drip_row import DripRow, drip_row
from templates_gen.pieces.marks import SMALL, TEXT
from templates_gen.tiers.outline import Outline
from templates_gen.tiers.solid import Solid

WIDTH = 26.0
"""Width of the ring, mm."""
TICK = 8.0
"""Length of the mark of a drip, mm."""


def build(tier: Solid) -> Piece | None:
    """Return the rim ring of a tier whose drips ask for one, or None."""
    drips = tier.asked.drips
    if drips is None or drips.marks == "collar":
        return None
    row = drip_row(tier, drips)
    rim = tier.covered.outline
    inner = rim.grown(-min(WIDTH, rim.across / 4))
    edges = Drawing((Stroke(rim.path(), Role.CUT), Stroke(inner.path(), Role.CUT)))
    title = f"{tier.name}: rim ring"
    return Piece(
        id=f"{tier.slug}/rim-ring",
        tier=tier.name,
        title=title,
        surface="covered",
        copies=1,
        use="Lay it on the covered top; pipe a drip at each mark, as many mm long as it says.",
        outline=rim.path() + inner.path(),
        drawing=edges + _ticks(row, rim) + _words(title, inner),
        values=row.values,
    ).framed()


def _ticks(row: DripRow, rim: Outline) -> Drawing:
    """Mark each drip at the rim and write its length beside the mark."""
    drawn: list[Stroke] = []
    labels: list[Label] = []
    size = min(SMALL, row.spacing / 3)
    for u, length in zip(row.positions, row.lengths, strict=True):
        drawn.append(Stroke(line(rim.at(u), _inwards(rim, u, TICK)), Role.GUIDE))
        x, y = _inwards(rim, u, TICK + 1)
        across = math.degrees(math.atan2(y, x))
        turn, anchor = (across, Anchor.END) if abs(across) <= 90 else (across + 180, Anchor.START)
        labels.append(Label(decimal(length, 0), (x, y), size, anchor, turn))
    return Drawing(tuple(drawn), tuple(labels))


def _inwards(rim: Outline, u: float, by: float) -> Point:
    """Return the point ``by`` mm inside the rim at u."""
    return rim.grown(-by).at(u * rim.grown(-by).girth / rim.girth)


def _words(title: str, inner: Outline) -> Drawing:
    """Name the ring at its left, and mark its front."""
    hole = inner.across / 2
    front = Label("front", (0, -hole - SMALL - 0.5), SMALL, Anchor.MIDDLE, bold=True)
    named = Label(title, (-hole - 2, 0), TEXT, Anchor.MIDDLE, turn=90, bold=True)
    return Drawing((), (named, front))
