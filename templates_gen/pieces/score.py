"""Score sheet: where the next tier stands on a drum or on a covered top."""

from __future__ import annotations

import math

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.path import circle
from templates_gen.drawing.piece import Anchor, Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.pieces.marks import (
    SMALL,
    centre_cross,
    plan_quarters,
    quadrant,
    text_block,
    title_lines,
)
from templates_gen.tiers.stack import DRUM, Seat


def build(seat: Seat) -> Piece:
    """Return the sheet that lies on a drum or top, with the outline of the tier to set on it."""
    upper = seat.upper
    covered = upper.covered.outline
    board = upper.asked.board_mm
    title = f"{seat.name}: score sheet"
    reach = seat.outline.across / 2
    block = title_lines(
        title,
        f"for tier {upper.name}: score {in_both(covered.across)}",
        f"clearance all round {in_both(seat.clearance)}",
    )
    drawing = (
        Drawing(
            (
                Stroke(seat.outline.path(), Role.CUT),
                Stroke(covered.path(), Role.SCORE),
                Stroke(circle((0, 0), board / 2), Role.GUIDE),
            ),
            text_block(block, quadrant(min(reach, board / 2))) + _names(covered.across, board),
        )
        + centre_cross(reach)
        + plan_quarters(reach)
    )
    return Piece(
        id=f"{seat.slug}/score",
        tier=seat.name,
        title=title,
        surface="drum" if seat.slug == DRUM else "covered",
        copies=1,
        use=f"Lay it on the {'drum' if seat.slug == DRUM else 'covered top'}, edges together, and"
        " prick the dashed line.",
        outline=seat.outline.path(),
        drawing=drawing,
        values={
            "outline_across_mm": covered.across,
            "board_across_mm": board,
            "clearance_mm": seat.clearance,
        },
    ).framed()


def _names(covered: float, board: float) -> tuple[Label, ...]:
    """Name the two outlines along their inner side, low on the right."""
    return tuple(
        _along(name, across / 2 - SMALL, angle)
        for name, across, angle in (("covered tier", covered, -60), ("board", board, -75))
    )


def _along(text: str, radius: float, degrees: float) -> Label:
    """Set a word along a circle round (0, 0)."""
    angle = math.radians(degrees)
    at = (radius * math.cos(angle), radius * math.sin(angle))
    return Label(text, at, SMALL, Anchor.MIDDLE, degrees + 90)
