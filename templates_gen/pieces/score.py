"""Score sheet: where the next tier stands on a drum or on a covered top."""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.piece import Anchor, Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import Doubt
from templates_gen.pieces.marks import (
    SMALL,
    axes_across,
    inwards,
    measure,
    plan_quarters,
    quadrant,
    text_block,
    title_lines,
)
from templates_gen.tiers.stack import DRUM, Seat

NARROW = 5.0
"""Clearance in mm that is worth a second look."""


def build(seat: Seat) -> Iterable[Piece]:
    """Yield the sheet that lies on a drum or top, with the outline of the tier to set on it."""
    if not seat.scored:
        return
    upper, on_drum = seat.upper, seat.slug == DRUM
    covered, board = upper.covered.foot, upper.board
    title = f"{seat.name}: score sheet"
    yield Piece(
        owner=seat.slug,
        kind="score",
        tier=seat.name,
        title=title,
        surface="drum" if on_drum else "covered",
        copies=1,
        use=f"Lay it on the {'drum' if on_drum else 'covered top'}, edges together, and prick the"
        f" outline named “{upper.name} covered”: tier {upper.name} stands there.",
        outline=seat.outline.path(),
        drawing=_drawing(seat, title),
        values={
            "outline_across_mm": covered.across,
            "board_across_mm": board.across,
            "clearance_mm": seat.clearance,
        },
        doubts=_doubts(seat),
    )


def _drawing(seat: Seat, title: str) -> Drawing:
    upper = seat.upper
    covered, board = upper.covered.foot, upper.board
    block = title_lines(
        title,
        f"for {upper.name}: {measure(covered.across)} across",
        f"clearance all round {measure(seat.clearance)}",
    )
    outlines = Drawing(
        (Stroke(covered.path(), Role.SCORE), Stroke(board.path(), Role.GUIDE)),
        (
            _along(f"{upper.name} covered", covered, 7 / 12),
            _along("board", board, 19 / 36),
            *text_block(block, quadrant(min(seat.outline, board, key=lambda each: each.across))),
        ),
    )
    return outlines + axes_across(seat.outline) + plan_quarters(seat.outline)


def _along(text: str, outline: Outline, share: float) -> Label:
    """Set a word inside an outline, along it, at a share of its girth from the back."""
    s = share * outline.girth
    turn = math.degrees(outline.heading_at(s)) % 360
    return Label(text, inwards(outline, s, SMALL), SMALL, Anchor.MIDDLE, turn)


def _doubts(seat: Seat) -> tuple[Doubt, ...]:
    """Return what is doubtful about how a tier stands."""
    upper, found = seat.upper, []
    if 0 < seat.clearance < NARROW:
        text = f"{upper.name}: only {in_both(seat.clearance)} is left all round it on {seat.name}."
        found.append(Doubt(upper.key("size"), text))
    if upper.board.across > upper.covered.foot.across:
        text = f"{upper.name}: its board is wider than the covered tier and will show."
        found.append(Doubt(upper.key("board"), text))
    if upper.board.across < upper.bare.foot.across / 2:
        text = f"{upper.name}: its board is less than half as wide as the tier."
        found.append(Doubt(upper.key("board"), text))
    return tuple(found)
