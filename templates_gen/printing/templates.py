"""The templates of a plan: what is printed of each of its pieces, by the first way that serves."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from dataclasses import replace

from templates_gen.cakefile.kinds import KINDS, Amount
from templates_gen.drawing.once import lines_once
from templates_gen.drawing.piece import Piece
from templates_gen.guides.flowers import Flowers
from templates_gen.pieces import flowers, letter_cakes
from templates_gen.plan import Plan
from templates_gen.printing.by_numbers import (
    NO_SHEET,
    circle_guide_gives,
    own_mould,
    quarters_alone,
    same_edge,
)
from templates_gen.printing.cascade_apart import cascade_apart
from templates_gen.printing.lettering_apart import lettering_apart
from templates_gen.printing.marking import marked_by_parts
from templates_gen.printing.on_fold import on_fold
from templates_gen.printing.portions_on_fold import portions_on_fold
from templates_gen.printing.strip_in_four import strip_in_four

Way = Callable[[Piece, Plan], Piece | tuple[Piece, ...] | None]
"""A way to print less of a piece than the whole; None for a piece that it does not serve."""
AS_IT_LIES = ("stencil", "piping-sheet", "topper-sheet", "run-out", "scatter", "cascade")


def as_it_lies(piece: Piece, plan: Plan) -> Piece | None:
    """Return a stencil, a sheet to pipe over or of shapes to cut: none is used through a fold."""
    return piece if piece.kind in AS_IT_LIES else None


def one_of_each(piece: Piece, plan: Plan) -> tuple[Piece, ...] | None:
    """Return each part of a flower once, to cut round again and again, in place of them all."""
    if piece.kind not in flowers.KINDS:
        return None
    number, _, sheet = piece.part.partition("-")
    index = int(number) - 1
    if sheet not in ("", "1"):
        return (replace(piece, printed=False, instead="each part is printed once"),)
    made = flowers.once(Flowers(index, plan.stack.flowers[index]), piece.kind)
    return tuple(each.finished() for each in made)


MEASURED = {
    "letter-top": "the template of the letter",
    "letter-wall": NO_SHEET,
    "cake-sheet": "the templates of the letters",
    "letter-board": NO_SHEET,
}
"""Kinds of piece of letter cakes that are cut by measure, and what serves instead of a sheet."""


def by_measure(piece: Piece, plan: Plan) -> Piece | None:
    """Return a piece of a letter cake without a sheet, where its sizes will do."""
    instead = MEASURED.get(piece.kind)
    if instead is None:
        return None
    use = letter_cakes.without_paper(piece.use)
    return replace(piece, printed=False, instead=instead, use=use)


def _cascade_apart(piece: Piece, plan: Plan) -> tuple[Piece, ...] | None:
    """Return a placement guide as if it had no cascade, and the part where that lies."""
    found = cascade_apart(piece, plan)
    if found is None:
        return None
    plain, part = found
    others = (way for way in WAYS if way is not _cascade_apart)
    return (*(_first(others, plain, plan) or (plain,)), part)


WAYS: tuple[Way, ...] = (
    by_measure,
    as_it_lies,
    one_of_each,
    _cascade_apart,
    lettering_apart,
    circle_guide_gives,
    same_edge,
    own_mould,
    quarters_alone,
    marked_by_parts,
    lambda piece, plan: strip_in_four(piece),
    portions_on_fold,
    lambda piece, plan: on_fold(piece),
)
"""In the order in which they are tried."""


def templates(plan: Plan) -> tuple[Piece, ...]:
    """Return what is printed of the pieces of a plan, in their order."""
    return tuple(template for found in by_piece(plan).values() for template in found)


def chosen(
    templates: Iterable[Piece], tiers: Collection[str], kinds: Collection[str]
) -> tuple[Piece, ...]:
    """Return the templates on paper of these tiers and kinds; none named stands for all."""
    return tuple(
        piece
        for piece in templates
        if piece.printed
        and (not tiers or piece.tier in tiers)
        and (not kinds or piece.kind in kinds)
    )


def by_piece(plan: Plan) -> dict[str, tuple[Piece, ...]]:
    """Return what is printed of each piece of a plan, by its id."""
    tiers = {tier.name: tier.spec.print for tier in plan.stack.tiers}
    return {
        piece.id: tuple(
            _in_terms(template, plan)
            for template in _printed(piece, plan, _amount(piece, plan, tiers.get(piece.tier)))
        )
        for piece in plan.pieces
    }


def _in_terms(template: Piece, plan: Plan) -> Piece:
    """Return a template with all its words in the terms of the cake."""
    return template if plan.terms.is_plain else template.reworded(plan.terms.text)


def _amount(piece: Piece, plan: Plan, tier: Amount | None) -> Amount:
    """Return how much is printed of a piece: of a tier without sheets nothing, else by its kind."""
    if tier == "none":
        return "none"
    kind: Amount | None = getattr(plan.templates, KINDS[piece.kind])
    return kind or tier or plan.print


def _printed(piece: Piece, plan: Plan, amount: Amount) -> tuple[Piece, ...]:
    if amount == "none":
        return (replace(piece, printed=False, instead="not printed"),)
    if amount == "whole" or not piece.printed:
        return (piece,)
    return _first(WAYS, piece, plan) or (piece,)


def _first(ways: Iterable[Way], piece: Piece, plan: Plan) -> tuple[Piece, ...] | None:
    """Return what the first of some ways that serves prints of a piece."""
    found = (_once(way(piece, plan)) for way in ways)
    return next((made for made in found if made is not None), None)


def few(piece: Piece, plan: Plan) -> tuple[Piece, ...]:
    """Return what is printed of one piece without the others of its cake, on few sheets."""
    found = (_once(way(piece, plan)) for way in WAYS)
    some = next((made for made in found if made and all(p.printed for p in made)), (piece,))
    return tuple(_in_terms(template, plan) for template in some)


def _once(found: Piece | tuple[Piece, ...] | None) -> tuple[Piece, ...] | None:
    """Return what a way gives as templates of which no line lies on another."""
    if found is None:
        return None
    some = (found,) if isinstance(found, Piece) else found
    once = ((piece, lines_once(piece.drawing.strokes)) for piece in some)
    return tuple(
        replace(piece, drawing=replace(piece.drawing, strokes=strokes)) for piece, strokes in once
    )
