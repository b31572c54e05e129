"""The places of a cascade on a ledge, apart from the guide of the tier that stands there.

Without them the guide is its own mirror image or two circles. They take no more paper than the
part of the ledge where they lie, which is laid between the tier and the edge.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.booleans import (
    Area,
    clipped_and_moved,
    difference,
    edge_of,
    region,
)
from templates_gen.geometry.areas.lines import within
from templates_gen.geometry.areas.placement import contains
from templates_gen.geometry.box import Box, union_box
from templates_gen.guides.decorated import Ledge
from templates_gen.pieces import placement_guide
from templates_gen.pieces.making import PRINT_UP
from templates_gen.pieces.marks import plan_quarters
from templates_gen.pieces.table import made
from templates_gen.plan import Plan
from templates_gen.printing.named import named

MARGIN = 8.0
"""Paper beyond the pieces of a cascade, mm."""
WORTH = 0.5
"""The part takes no more than this of the box of the ledge, or the whole guide is printed."""


def cascade_apart(piece: Piece, plan: Plan) -> tuple[Piece, Piece] | None:
    """Return a placement guide without the places of a cascade, and the part that has them."""
    ledge = next((each for each in plan.stack.ledges if each.seat.owner == piece.owner), None)
    if piece.kind != "placement-guide" or ledge is None or ledge.seat.separator:
        return None
    part = _part(piece, ledge)
    if part is None:
        return None
    (plain,) = made(partial(placement_guide.build, ledge.seat, replace(ledge, runs=())))
    return replace(plain, warnings=piece.warnings), part


def _part(piece: Piece, ledge: Ledge) -> Piece | None:
    """Return the part of a ledge on which a cascade lies, as far as its nearest quarter mark."""
    seat, places = ledge.seat, placement_guide.cascade_places(ledge)
    if not places.strokes:
        return None
    box = places.bounds.expanded(MARGIN)
    quarters = plan_quarters(seat.outline).transformed(seat.lies.transform)
    mark, name = min(
        zip(quarters.strokes, quarters.labels, strict=True),
        key=lambda each: math.dist(each[0].path.bounds.centre, box.centre),
    )
    box = union_box([box, mark.path.bounds.expanded(MARGIN), name.box])
    paper = _paper(ledge, box)
    whole = seat.edge.bounds
    if paper is None or box.width * box.height > WORTH * whole.width * whole.height:
        return None
    if not all(contains(paper, each.path.bounds.centre) for each in places.strokes):
        return None  # on two parts of the ledge
    strokes = (Stroke(within(each.path, paper), each.role) for each in (*places.strokes, mark))
    drawing = Drawing(tuple(each for each in strokes if each.path.commands), (*places.labels, name))
    title, at = f"{seat.name}: cascade guide", name.text
    surface = "drum" if seat.on_drum else "covered top"
    part = replace(
        piece,
        title=title,
        part="cascade",
        use=f"Once “{seat.upper.name}” stands, lay it on the {surface}, {PRINT_UP}, between"
        f" “{seat.upper.name}” and the edge, its mark at the {at}, and prick the places of the"
        f" cascade: {placement_guide.cascade_words(ledge)}.",
        outline=edge_of(paper),
        drawing=drawing + named(title, paper, drawing),
        values={},
        warnings=(),
    )
    return words_apart(part.finished())


def _paper(ledge: Ledge, box: Box) -> Area | None:
    """Return what of a box lies on the ledge, beside the tier: the largest part of it."""
    ring = difference(region(ledge.seat.edge), [region(ledge.seat.stands)])
    found = None if ring is None else clipped_and_moved(ring, box, Transform())
    return max(getattr(found, "geoms", [found]), key=lambda each: each.area) if found else None
