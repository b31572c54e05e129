"""The table of kinds of piece, and the stage that makes every piece of a cake."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass, replace
from functools import partial
from typing import TypeVar

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.piece import Piece
from templates_gen.errors import Key, all_problems, geometry_at
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.pieces import (
    board_guide,
    boards,
    carving,
    cascade,
    circle_guide,
    collar,
    disc,
    drape,
    edge_papers,
    flowers,
    gore,
    letter_cakes,
    lining,
    panel,
    placement_guide,
    portions,
    run_out,
    scraper,
    stencil,
    top_edge_guide,
    topper,
    transfer,
    wrap,
)
from templates_gen.pieces import cutting_sheets as scatter
from templates_gen.pieces import lettering as lettered
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.solid import ADVICE, ALLOWED, Solid
from templates_gen.tiers.stack_problems import stack_problems

Build = partial[Iterable[Piece]]
"""What makes the pieces of one kind for one subject: a function and that subject."""
Subject = TypeVar("Subject")


def _each(
    subjects: Callable[[DecoratedStack], Iterable[Subject]],
    build: Callable[[Subject], Iterable[Piece]],
) -> Callable[[DecoratedStack], list[Build]]:
    """Return what a kind of piece has to build for a cake: something for each subject."""
    return lambda stack: [partial(build, subject) for subject in subjects(stack)]


def _tiers(stack: DecoratedStack) -> tuple[DecoratedTier, ...]:
    return stack.tiers


def _sides(stack: DecoratedStack) -> list[DecoratedTier]:
    return [tier for tier in stack.tiers if tier.lies_flat]


def _solids(stack: DecoratedStack) -> list[Solid]:
    """Return the tiers for pieces that are the same whatever is on these."""
    return [tier.solid for tier in stack.tiers]


def _flat_solids(stack: DecoratedStack) -> list[Solid]:
    return [tier.solid for tier in _sides(stack)]


KINDS: dict[str, Callable[[DecoratedStack], list[Build]]] = {
    "carving-guide": lambda stack: [
        partial(carving.build, tier, stack.estimates) for tier in _solids(stack)
    ],
    "wrap": _each(_sides, wrap.build),
    "disc": _each(_flat_solids, disc.build),
    "lining": _each(_flat_solids, lining.build),
    "gore": _each(_solids, gore.build),
    "cap": _each(_solids, gore.build_cap),
    "rolling-out-circle": _each(_tiers, drape.build),
    "panel": _each(_sides, panel.build),
    "marking-band": _each(_sides, collar.build_inner),
    "collar": _each(_sides, collar.build),
    "design-strip": _each(_sides, collar.build_strips),
    "edge-paper": _each(_sides, edge_papers.build),
    "lettering": _each(_tiers, lettered.build),
    "stencil": _each(_tiers, stencil.build),
    "piping-sheet": _each(_tiers, transfer.build),
    "run-out": _each(run_out.rims, run_out.build),
    "scraper": _each(_sides, scraper.build),
    "scatter": _each(_sides, scatter.build),
    "top-edge-guide": _each(_sides, top_edge_guide.build),
    "placement-guide": lambda stack: [
        partial(placement_guide.build, ledge.seat, ledge) for ledge in stack.ledges
    ],
    "board-guide": _each(lambda stack: stack.seats, board_guide.build),
    "inner-board": lambda stack: [
        partial(board_guide.build_inner, tier, stack.through_in(index))
        for index, tier in enumerate(_solids(stack))
    ],
    "board": _each(lambda stack: (stack,), boards.build),
    "drum-ring": _each(lambda stack: (stack,), boards.build_ring),
    "cascade": _each(lambda stack: (stack,), cascade.build),
    "letter-cake": _each(lambda stack: stack.letter_cakes, letter_cakes.build),
    "topper": _each(topper.standing, topper.build),
    "topper-sheet": _each(lambda stack: (stack,), transfer.build_toppers),
    "petals": _each(flowers.flowers, flowers.build_petals),
    "leaves": _each(flowers.flowers, flowers.build_leaves),
    "portions": lambda stack: [
        partial(portions.build, tier, stack.portions) for tier in _solids(stack)
    ],
    "circle-guide": _each(circle_guide.guides, circle_guide.build),
}
"""What there is to build of each kind. In a pack the kinds of a tier follow each other so."""


@dataclass(frozen=True, slots=True)
class Group:
    """The pieces of one kind for one subject, and by value what they were made from."""

    made_from: Hashable
    pieces: tuple[Piece, ...]


def build_groups(stack: DecoratedStack, memo: Memo = NOTHING_KEPT) -> tuple[Group, ...]:
    """Return every piece of a cake, kind by kind; those that the memo has are not made again.

    Raises CakeError with every problem of every piece.
    """
    groups: list[Group] = []
    with all_problems() as problems:
        problems.found.extend(stack_problems(stack))
        for build in (build for builds in KINDS.values() for build in builds(stack)):
            key = (build.func, build.args)
            with problems.at():
                groups.append(Group(key, memo.get(key, partial(made, build, memo))))
    return tuple(groups)


def _sized(piece: Piece, subject: object) -> Piece:
    """Return a piece with the size of its tier as the cake file has it."""
    solid = subject.lower if isinstance(subject, Seat) else subject
    if not isinstance(solid, Solid) or piece.tier != solid.name:
        return piece
    spec = solid.spec
    sizes = (spec.size, spec.short) if spec.short is not None else (spec.size,)
    return replace(piece, tier_size=" × ".join(each.tidy for each in sizes))


def made(build: Build, memo: Memo = NOTHING_KEPT) -> tuple[Piece, ...]:
    """Return the pieces of one kind for one subject, each with a sound edge. Raises CakeError."""
    with geometry_at(_key(build.args[0]), ALLOWED, ADVICE):
        found = (_sized(piece, build.args[0]) for piece in build())
        return tuple(_finished(piece, memo) for piece in found)


def _finished(piece: Piece, memo: Memo) -> Piece:
    """Return a piece with no line on another and no word on a line: once for equal drawings."""
    made_from = (_finished, piece.outline, piece.openings, piece.drawing)
    return piece.drawn_as(memo.get(made_from, partial(_drawn, piece)))


def _drawn(piece: Piece) -> Piece:
    found = piece.finished()
    _ = found.area  # refuses an edge that crosses itself
    return words_apart(found)


def _key(subject: object) -> Key:
    """Return the key of the tier that a subject belongs to; that of the whole cake for others."""
    tier = subject.upper if isinstance(subject, Seat) else subject
    return tier.key() if isinstance(tier, Solid) else ()


def in_order(stack: DecoratedStack, groups: Iterable[Group]) -> tuple[Piece, ...]:
    """Return pieces in the order of a pack: the drum's, then each tier's."""
    names = {name: index for index, name in enumerate(["drum", *(t.name for t in stack.tiers)])}
    pieces = [piece for group in groups for piece in group.pieces]
    return tuple(sorted(pieces, key=lambda piece: names.get(piece.tier, len(names))))
