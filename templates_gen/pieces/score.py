"""Score sheet: where the next tier stands on a drum or on a covered top."""

from __future__ import annotations

import math
from collections.abc import Iterable

from fontTools.misc.transform import Transform

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.piece import Anchor, Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import Doubt
from templates_gen.pieces.marks import (
    MARK,
    SMALL,
    centre_cross,
    measure,
    plan_quarters,
    quadrant,
    strokes,
    text_block,
    title_lines,
)
from templates_gen.tiers.place import Place
from templates_gen.tiers.stack import TOUCHING, Seat

NARROW = 5.0
"""Clearance in mm that is worth a second look."""


def build(seat: Seat) -> Iterable[Piece]:
    """Yield the sheet that lies on a drum or top, with the outline of the tier to set on it."""
    if not seat.scored:
        return
    upper, place = seat.upper, seat.place
    title = f"{seat.name}: score sheet"
    yield Piece(
        owner=seat.slug,
        kind="score",
        tier=seat.name,
        title=title,
        surface="drum" if seat.on_drum else "covered",
        copies=1,
        use=_use(seat),
        outline=seat.edge,
        drawing=_drawing(seat, title),
        values={
            "outline_across_mm": upper.covered.foot.across,
            "board_across_mm": upper.board.across,
            "clearance_mm": seat.clearance,
            "right_mm": place.right,
            "back_mm": place.back,
            "turn_deg": place.turn,
        },
        doubts=_doubts(seat),
    )


def _use(seat: Seat) -> str:
    upper = seat.upper.name
    return (
        f"Lay it on the {'drum' if seat.on_drum else 'covered top'}, edges together, and prick the"
        f" outline named “{upper} covered”: tier {upper} stands there."
    )


def _drawing(seat: Seat, title: str) -> Drawing:
    upper, place = seat.upper, seat.place
    covered, board = upper.covered.foot, upper.board
    reach = seat.edge.bounds.width / 2
    block = title_lines(title, f"for {upper.name}: {measure(covered.across)} across", _room(seat))
    outlines = Drawing(
        (Stroke(seat.covered, Role.SCORE), Stroke(seat.board, Role.GUIDE)),
        (
            _along(f"{upper.name} covered", covered, place, -60),
            _along("board", board, place, -80),
            *_placed(text_block(block, quadrant(min(reach, board.across / 2))), place),
        ),
    )
    return outlines + _middle(place, board) + centre_cross(reach) + plan_quarters(reach)


def _room(seat: Seat) -> str:
    """Say how much of the surface is left round the tier, or how far the tier reaches over it."""
    if seat.clearance < -TOUCHING:
        return f"reaches over by up to {measure(-seat.clearance)}"
    if seat.place.distance or seat.outline.radius is None or seat.upper.covered.foot.radius is None:
        return f"least clearance {measure(max(seat.clearance, 0.0))}"
    return f"clearance all round {measure(seat.clearance)}"


def _placed(labels: tuple[Label, ...], place: Place) -> tuple[Label, ...]:
    """Return labels set round (0, 0) beside the middle of the upper tier."""
    move = Transform(1, 0, 0, 1, place.right, place.back)
    return tuple(label.transformed(move) for label in labels)


def _middle(place: Place, board: Outline) -> Drawing:
    """Mark the middle of an upper tier that does not stand in the middle, and its own front."""
    arm, reach = 5.0, board.across / 2
    marked = Drawing()
    if place.distance:
        marked += centre_cross(arm)
        marked += Drawing(labels=(Label("its middle", (1.5, 1.5), SMALL),))
    if place.turn:
        inner = reach - MARK
        marked += Drawing(
            strokes(Role.GUIDE, ((0.0, -reach), (0.0, -inner))),
            (Label("its front", (0.0, -inner + 1.5), SMALL, Anchor.MIDDLE),),
        )
    return marked.transformed(place.transform)


def _along(text: str, outline: Outline, place: Place, degrees: float) -> Label:
    """Set a word inside an outline, along it, at an angle of its middle from the right."""
    s = (degrees - 90) % 360 / 360 * outline.girth
    (x, y), (nx, ny) = outline.at(s), outline.normal(s)
    turn = math.degrees(math.atan2(nx, -ny))
    label = Label(text, (x - SMALL * nx, y - SMALL * ny), SMALL, Anchor.MIDDLE, turn)
    return label.transformed(place.transform)


def _doubts(seat: Seat) -> tuple[Doubt, ...]:
    """Return what is doubtful about how a tier stands."""
    upper, found = seat.upper, []
    if TOUCHING < seat.clearance < NARROW:
        text = f"{upper.name}: only {in_both(seat.clearance)} is left all round it on {seat.name}."
        if seat.place.distance:
            text = f"{upper.name}: only {in_both(seat.clearance)} is left beside it on {seat.name}."
        found.append(Doubt(upper.key("size"), text))
    if seat.clearance < -TOUCHING:
        text = (
            f"{upper.name}: it reaches {in_both(-seat.clearance)} over {seat.name}; nothing holds"
            " up what reaches over."
        )
        found.append(Doubt(upper.key("position", "overhang"), text))
    if upper.board.across > upper.covered.foot.across:
        text = f"{upper.name}: its board is wider than the covered tier and will show."
        found.append(Doubt(upper.key("board"), text))
    if upper.board.across < upper.bare.foot.across / 2:
        text = f"{upper.name}: its board is less than half as wide as the tier."
        found.append(Doubt(upper.key("board"), text))
    return tuple(found)
