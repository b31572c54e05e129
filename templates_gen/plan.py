"""The plan of a cake: everything that the paper, the bench list and the pictures are made from.

``make_plan`` is the only place that takes a cake as its file has it. Whatever comes after takes the
plan, in which every default is filled in and every tier, mark and piece is worked out, once.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from templates_gen.cakefile.digest import digest
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.model import Cake
from templates_gen.cakefile.papers import Margins
from templates_gen.cakefile.unused_keys import idle
from templates_gen.cakefile.work import Work
from templates_gen.drawing.piece import Piece
from templates_gen.errors import Doubt
from templates_gen.pieces.cautions import cautions
from templates_gen.pieces.table import Build, build_pieces, made
from templates_gen.tiers.stack import Stack, build_stack


@dataclass(frozen=True)
class Plan:
    """A cake that can be made.

    ``digest`` stands for every value of its file; ``paper`` is as a cake file names it; ``unused``
    are warnings of keys without effect.
    """

    digest: str
    title: str
    note: str
    paper: str
    margins: Margins
    stack: Stack
    pieces: tuple[Piece, ...]
    unused: tuple[Doubt, ...]
    cautions: tuple[str, ...]
    estimates: Estimates
    work: Work

    def warnings(self, pieces: Sequence[Piece] | None = None) -> tuple[Doubt, ...]:
        """Return what the decorator may not have meant: keys without effect, then by piece.

        Of all pieces, or of some.
        """
        chosen = self.pieces if pieces is None else pieces
        return (*self.unused, *(warning for piece in chosen for warning in piece.doubts))


def make_plan(cake: Cake, make: Callable[[Build], tuple[Piece, ...]] = made) -> Plan:
    """Return the plan of a cake. Raises CakeError with every problem of one that cannot be made.

    A face that asks again and again may ``make`` only the pieces that are not at hand.
    """
    stack = build_stack(cake)
    pieces = build_pieces(stack, make)
    return Plan(
        digest=digest(cake),
        title=cake.title,
        note=cake.note,
        paper=cake.paper,
        margins=Margins(cake.margin_sides.mm, cake.margin_ends.mm),
        stack=stack,
        pieces=pieces,
        unused=idle(cake),
        cautions=cautions(stack),
        estimates=cake.estimates,
        work=cake.work,
    )
