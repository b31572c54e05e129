"""A portion guide on the fold: its cuts, which stop for words, are mirrored as if they did not."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.mirror import Mirror, edges_of
from templates_gen.geometry.path import Edge
from templates_gen.pieces import portions
from templates_gen.plan import Plan
from templates_gen.printing.fold_marks import IN
from templates_gen.printing.on_fold import folds_of, on_fold

PRICK = ", prick along each line through them"
BY_AXIS = {"x": ("← cut", (IN + 1.0, -1.0)), "y": ("↓ cut", (-4.0, IN + 1.0))}
"""What points to a cut along a fold, whose own line hides it, and where from its middle, mm."""


def portions_on_fold(piece: Piece, plan: Plan) -> Piece | None:
    """Return the part of a portion guide on the fold, or None where it is not mirrored."""
    found = unbroken(piece, plan)
    if found is None:
        return None
    whole, cuts = found
    said = tuple(_at_folds(cuts, folds_of(whole)))
    too = ", and along the fold at each arrow" if said else ""
    use = f"{portions.FOR_WHOM}, lay the parchment on it and cut along the holes{too}."
    whole = replace(whole, use=use, drawing=whole.drawing + Drawing(labels=said))
    return on_fold(whole, PRICK, _give_way)


def unbroken(piece: Piece, plan: Plan) -> tuple[Piece, list[Edge]] | None:
    """Return a portion guide with its cuts under its words too, and those; of others None."""
    tier = plan.tier_of(piece)
    given = plan.stack.portions
    if piece.kind != "portions" or tier is None or given is None:
        return None
    cuts = portions.cuts_of(tier, given)
    made = portions.guide(tier, given, cuts, lambda cut, words: cut + Drawing(labels=words))
    box = made.size
    moved = cuts[2].transformed(Transform(1, 0, 0, 1, -box.x0, -box.y0))
    edges = edges_of(stroke.path for stroke in moved.strokes)
    return replace(made.finished(), tier_size=piece.tier_size), edges


def _at_folds(cuts: Sequence[Edge], folds: Iterable[Mirror]) -> Iterator[Label]:
    """Yield words that point to each cut along a fold."""
    for fold in folds:
        text, (dx, dy) = BY_AXIS[fold.axis]
        for start, *_, end in (edge for edge in cuts if fold.contains(edge)):
            middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
            yield Label(text, (middle[0] + dx, middle[1] + dy), LEAST_TEXT)


def _give_way(drawn: Drawing) -> Drawing:
    """Let cuts stop for a text of several lines; a single word is moved off them."""
    texts = blocks(drawn.labels)
    several = tuple(label for lines in texts if len(lines) > 1 for label in lines)
    alone = tuple(label for lines in texts if len(lines) == 1 for label in lines)
    return portions.worded(Drawing(drawn.strokes), several) + Drawing(labels=alone)
