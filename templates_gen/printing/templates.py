"""The templates of a plan: what is printed of each of its pieces, by the first way that serves."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from templates_gen.drawing.piece import Piece
from templates_gen.plan import Plan
from templates_gen.printing.by_numbers import circle_guide_gives, own_mould, quarters_alone
from templates_gen.printing.on_fold import on_fold
from templates_gen.printing.strip_in_four import strip_in_four
from templates_gen.printing.tape import tape

Way = Callable[[Piece, Plan], Piece | None]
"""A way to print less of a piece than the whole; None for a piece that it does not serve."""


def _in_four(piece: Piece, plan: Plan) -> Piece | None:
    return strip_in_four(piece)


def _folded(piece: Piece, plan: Plan) -> Piece | None:
    return on_fold(piece)


WAYS: tuple[Way, ...] = (circle_guide_gives, own_mould, quarters_alone, tape, _in_four, _folded)
"""In the order in which they are tried."""


def templates(plan: Plan) -> tuple[Piece, ...]:
    """Return what is printed of the pieces of a plan, in their order."""
    modes = {tier.name: tier.spec.print or plan.print for tier in plan.stack.tiers}
    return tuple(_template(piece, plan, modes.get(piece.tier, plan.print)) for piece in plan.pieces)


def _template(piece: Piece, plan: Plan, mode: str) -> Piece:
    if mode == "none":
        return replace(piece, printed=False, instead="not printed")
    if mode == "whole" or not piece.printed:
        return piece
    found = (way(piece, plan) for way in WAYS)
    return next((template for template in found if template is not None), piece)
