"""The plan of a cake: everything that the paper, the bench list and the pictures are made from.

``make_plan`` is the only place that takes a cake as its file has it. Whatever comes after takes the
plan, in which every default is filled in and every tier, mark and piece is worked out, once.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import partial
from typing import Literal

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.digest import digest
from templates_gen.cakefile.doubtful import doubtful
from templates_gen.cakefile.kinds import Templates
from templates_gen.cakefile.papers import Margins
from templates_gen.cakefile.prices import Prices
from templates_gen.cakefile.unused_keys import unused_keys
from templates_gen.cakefile.work import Work
from templates_gen.drawing.piece import Piece
from templates_gen.errors import PlanWarning
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier, build_stack
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.pieces.cascade import without_pieces
from templates_gen.pieces.cautions import cautions
from templates_gen.pieces.table import Group, build_groups, in_order
from templates_gen.terms import CURRENCIES, Terms


@dataclass(frozen=True)
class Plan:
    """A cake that can be made.

    ``digest`` stands for every value of its file; ``paper``, ``printer``, ``print`` and
    ``templates`` are as a cake file names them; ``guests`` is how many it is for, where its file
    says so; ``groups`` are the pieces as they were made, ``pieces`` in the order of a pack;
    ``doubts`` are warnings of keys without effect, of values
    that are seldom meant and of what has no room for a piece; ``terms`` are the words that people
    read. In a pack ``by_tier`` each tier starts on a new sheet.
    """

    digest: str
    title: str
    note: str
    paper: str
    margins: Margins
    printer: str | None
    print: Literal["few", "whole"]
    templates: Templates
    guests: int | None
    stack: DecoratedStack
    groups: tuple[Group, ...]
    pieces: tuple[Piece, ...]
    doubts: tuple[PlanWarning, ...]
    cautions: tuple[str, ...]
    work: Work
    prices: Prices
    currency: str
    terms: Terms
    by_tier: bool = False

    def each_tier_apart(self) -> Plan:
        """Return the plan of a pack in which each tier starts on a new sheet: another version."""
        return replace(self, by_tier=True, digest=f"{self.digest} by tier")

    def tier_of(self, piece: Piece) -> DecoratedTier | None:
        """Return the tier that a piece is for, if it is for one."""
        return next((tier for tier in self.stack.tiers if tier.name == piece.tier), None)

    def warnings(self, pieces: Sequence[Piece] | None = None) -> tuple[PlanWarning, ...]:
        """Return what the decorator may not have meant: what the file alone shows, then by piece.

        Of all pieces, or of some.
        """
        chosen = self.pieces if pieces is None else pieces
        return (*self.doubts, *(warning for piece in chosen for warning in piece.warnings))


def make_plan(cake: Cake, memo: Memo = NOTHING_KEPT) -> Plan:
    """Return the plan of a cake. Raises CakeError with every problem of one that cannot be made.

    A face that asks again and again keeps a ``memo``, so that only what has changed is made.
    """
    terms = Terms(cake.words, _own_words(cake), cake.in_inches)
    with terms.problems():
        stack = build_stack(cake, memo)
        of_pieces = replace(terms, kept=cake.names)  # no piece has the title or note
        groups = _in_terms(build_groups(stack, memo), of_pieces, memo)
    odd = (replace(each, text=terms.text(each.text)) for each in doubtful(cake))
    return Plan(
        digest=digest(cake),
        title=cake.title,
        note=cake.note,
        paper=cake.paper,
        margins=Margins(cake.margin_sides.mm, cake.margin_ends.mm),
        printer=cake.printer,
        print=cake.print,
        templates=cake.templates,
        guests=cake.guests,
        stack=stack,
        groups=groups,
        pieces=in_order(stack, groups),
        doubts=(*unused_keys(cake), *odd, *without_pieces(stack)),
        cautions=tuple(map(terms.text, cautions(stack))),
        work=cake.work,
        prices=cake.prices,
        currency=cake.prices.currency or CURRENCIES[cake.words],
        terms=terms,
    )


def _own_words(cake: Cake) -> tuple[str, ...]:
    """Return the texts of a cake that are the decorator's own and stand among other words."""
    return tuple(dict.fromkeys((cake.title, cake.note, *cake.names)))


def _in_terms(groups: tuple[Group, ...], terms: Terms, memo: Memo) -> tuple[Group, ...]:
    """Return groups with the words of their pieces in other terms."""
    if terms.is_plain:
        return groups
    return tuple(
        memo.get(("terms", terms, group.made_from), partial(_reworded, group, terms))
        for group in groups
    )


def _reworded(group: Group, terms: Terms) -> Group:
    pieces = tuple(each.reworded(terms.text) for each in group.pieces)
    return Group((terms, group.made_from), pieces)
