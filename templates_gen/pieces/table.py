"""The table of kinds of piece, and the stage that makes every piece of a cake."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from typing import TypeVar

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError, Key, Problem, geometry_at
from templates_gen.pieces import circle_guide as swing_strip
from templates_gen.pieces import (
    collar,
    disc,
    drape,
    gore,
    lining,
    panel,
    portions,
    rim_ring,
    topper,
    wrap,
)
from templates_gen.pieces import cutting_sheets as scatter
from templates_gen.pieces import lettering as lettered
from templates_gen.pieces import placement_guide as score
from templates_gen.tiers.solid import ADVICE, ALLOWED, Solid
from templates_gen.tiers.stack import Seat, Stack, faults

Build = partial[Iterable[Piece]]
"""What makes the pieces of one kind for one subject: a function and that subject."""
Subject = TypeVar("Subject")


def _each(
    subjects: Callable[[Stack], Iterable[Subject]], build: Callable[[Subject], Iterable[Piece]]
) -> Callable[[Stack], list[Build]]:
    """Return what a kind of piece has to build for a cake: something for each subject."""
    return lambda stack: [partial(build, subject) for subject in subjects(stack)]


def _for_tiers(build: Callable[..., Iterable[Piece]]) -> Callable[[Stack], list[Build]]:
    return _each(lambda stack: stack.tiers, build)


def _for_sides(build: Callable[..., Iterable[Piece]]) -> Callable[[Stack], list[Build]]:
    return _each(lambda stack: [tier for tier in stack.tiers if tier.ball is None], build)


KINDS: dict[str, Callable[[Stack], list[Build]]] = {
    "wrap": _for_sides(wrap.build),
    "disc": _for_sides(disc.build),
    "lining": _for_sides(lining.build),
    "gore": _for_tiers(gore.build),
    "cap": _for_tiers(gore.build_cap),
    "drape": _for_tiers(drape.build),
    "panel": _for_sides(panel.build),
    "inner-collar": _for_sides(collar.build_inner),
    "collar": _for_sides(collar.build),
    "design-strip": _for_sides(collar.build_strips),
    "lettering": _for_tiers(lettered.build),
    "scatter": _for_sides(scatter.build),
    "rim-ring": _for_sides(rim_ring.build),
    "score": _each(lambda stack: stack.seats, score.build),
    "topper": _each(lambda stack: (stack,), topper.build),
    "portions": lambda stack: [partial(portions.build, t, stack.portions) for t in stack.tiers],
    "swing-strip": _each(lambda stack: (stack,), swing_strip.build),
}
"""What there is to build of each kind. In a pack the kinds of a tier follow each other so."""


def made(build: Build) -> tuple[Piece, ...]:
    """Return the pieces of one kind for one subject, each with a sound edge. Raises CakeError."""
    with geometry_at(_key(build.args[0]), ALLOWED, ADVICE):
        pieces = tuple(words_apart(piece.finished()) for piece in build())
        for piece in pieces:
            _ = piece.area  # refuses an edge that crosses itself
        return pieces


def _key(subject: object) -> Key:
    """Return the key of the tier that a subject belongs to; that of the whole cake for others."""
    tier = subject.upper if isinstance(subject, Seat) else subject
    return tier.key() if isinstance(tier, Solid) else ()


def build_pieces(
    stack: Stack, make: Callable[[Build], tuple[Piece, ...]] = made
) -> tuple[Piece, ...]:
    """Return every piece of a cake: the drum's, each tier's from the bottom up, the pack's.

    A face that asks again and again may ``make`` only what is not at hand.
    Raises CakeError with every problem of every piece.
    """
    pieces: list[Piece] = []
    problems: list[Problem] = faults(stack)
    for build in (build for builds in KINDS.values() for build in builds(stack)):
        try:
            pieces += make(build)
        except CakeError as error:
            problems += error.problems
    if problems:
        # two pieces may find the same problem
        raise CakeError(dict.fromkeys(problems))
    places = {name: place for place, name in enumerate(["drum", *(t.name for t in stack.tiers)])}
    return tuple(sorted(pieces, key=lambda piece: places.get(piece.tier, len(places))))
