"""Boards to saw, each with the hole for a dowel through all tiers, and the ring on the drum."""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Owner, Piece, Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, measure, text_block, title_lines
from templates_gen.errors import CakeError, Problem
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import cutter
from templates_gen.geometry.box import Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.making import rolled
from templates_gen.pieces.marks import axes_across, plan_quarters
from templates_gen.pieces.upright import free_space
from templates_gen.tiers.dowels import Support
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.seat import OF_DRUM, TOUCHING
from templates_gen.tiers.widths import width_words
from templates_gen.units import NO_BREAK, at_least, in_both, in_trade

INTO_DRUM = 2 / 3
"""How deep a dowel through all tiers enters the drum, of its thickness: common practice."""
LOOSE = 0.5
"""How much wider all round than the dowel its hole is, mm: common practice, no source."""
GAP = 2.0
"""What a ring of fondant stays off the tier that stands in it, mm: our choice."""
NARROWEST = 5.0
"""A ring narrower than this tears, mm: common practice, no source."""


def build(stack: DecoratedStack) -> Iterable[Piece]:
    """Yield the boards that have a template, from the drum up."""
    thick = max((seat.support.thickness for seat in stack.seats if seat.support), default=0.0)
    if stack.drum is not None and stack.drum_spec.template:
        yield _board(OF_DRUM, stack.drum, stack.drum_thickness, stack.through, thick)
    for index, tier in enumerate(stack.tiers):
        if tier.spec.board_template and tier.board_thickness:
            at = stack.through_in(index)
            yield _board(tier.owner, tier.board, tier.board_thickness, at, thick)


def _board(
    owner: Owner, board: Outline, thick: float, dowel: Point | None, dowel_thick: float
) -> Piece:
    """Return the template of a board; a drum is marked and not drilled right through."""
    title, is_drum = f"{owner.name}: board", owner == OF_DRUM
    box, edge, drill = board.bounds, board.path(), _drill(is_drum, thick, dowel_thick)
    hole = None if dowel is None else circle(dowel, dowel_thick / 2 + (0 if is_drum else LOOSE))
    support = None if dowel is None else Support(0, (dowel,), 0.0, 0.0, dowel_thick)
    is_polygon = board.across_flats is not None
    both_ways = f"{measure(box.width)} × {measure(box.height)}"
    lines = title_lines(title, width_words(board, measure) if is_polygon else both_ways)
    lines += title_lines(title, drill)[1:] if hole else []
    words = text_block(lines, free_space(board, Pose(), support, dowel_thick))
    cut = cutter([region(hole)] if hole else [])
    drawn = [*axes_across(edge).strokes, *plan_quarters(board).strokes]
    marks = tuple(Stroke(cut(each.path), each.role) for each in drawn)
    marked = (Stroke(hole, Role.SCORE),) if hole and is_drum else ()
    in_middle = dowel is None or math.hypot(*dowel) < TOUCHING
    radii: dict[str, Value] = {"radii_mm": (board.radius,)} if board.radius and in_middle else {}
    return Piece(
        owner=owner,
        kind="board",
        title=title,
        surface="board",
        use=f"Draw round it on board {in_trade(thick)} thick, mark the front, saw just outside the"
        f" line and sand down to it{f'; {drill}' if hole else ''}.",
        outline=edge,
        openings=(hole,) if hole and not is_drum else (),
        drawing=Drawing((*marks, *marked), (*words, *plan_quarters(board).labels)),
        values={"across_mm": board.across, "thickness_mm": thick, **radii},
    )


def _drill(is_drum: bool, thick: float, dowel_thick: float) -> str:
    """Say what is drilled for a dowel through all tiers."""
    if is_drum:
        wide = in_trade(dowel_thick).replace(" ", NO_BREAK)  # as the dowel is sold
        return f"drill {wide} wide, {measure(thick * INTO_DRUM)} deep"
    return f"drill {measure(dowel_thick + 2 * LOOSE)} wide"


def ring_opening(stack: DecoratedStack) -> Outline | None:
    """Return the opening of the ring of fondant on the drum, about the middle of the tier in it."""
    spec = stack.drum_spec
    if not stack.tiers or spec.covering != "ring" or spec.fondant is None:
        return None
    return offset(stack.tiers[0].covered.foot, GAP)


def build_ring(stack: DecoratedStack) -> Iterable[Piece]:
    """Yield the ring of fondant that shows round the bottom tier, if the drum has one."""
    drum, inner = stack.drum, ring_opening(stack)
    if drum is None or inner is None:
        return
    seat = stack.seats[0]
    opening = seat.place.of(inner)
    if seat.clearance - GAP < NARROWEST:
        raise CakeError([_too_narrow(seat.clearance - GAP)])
    radii: dict[str, Value] = {}
    if seat.place.distance < 1e-6 and inner.radius and drum.radius:
        radii["radii_mm"] = (drum.radius, inner.radius)
    spec = stack.drum_spec
    thick = spec.fondant.mm if spec.fondant else 0.0
    made_of = rolled(spec.colour, "fondant (sugar paste)", thick)
    area = region(drum.path()).area - region(opening).area
    wide = seat.clearance
    front = Label("front", (3.0, drum.bounds.y0 + wide / 2 - SMALL / 2), SMALL, bold=True)
    yield Piece(
        owner=OF_DRUM,
        kind="drum-ring",
        title="drum: ring of fondant",
        surface="drum",
        use=f"Cut it from {made_of}, this face up; lay it edge to edge on the drum,"
        f" front to the front: its opening is {in_both(GAP)} larger all round than the bottom tier,"
        " which stands on the bare board.",
        outline=drum.path(),
        openings=(opening,),
        drawing=Drawing(labels=(front,) if wide > 2.5 * SMALL else ()),
        values={"across_mm": drum.across, "ring_area_mm2": area, **radii},
    )


def _too_narrow(wide: float) -> Problem:
    return Problem(
        ("drum", "covering"),
        f"a ring {in_both(max(wide, 0.0))} wide at its narrowest",
        f"a ring {at_least(NARROWEST)} wide or more",
        'use a larger drum, or write covering = "whole"',
    )
