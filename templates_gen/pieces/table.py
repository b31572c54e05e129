"""The table of kinds of piece, and the stage that makes every piece of a cake."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

from templates_gen.cake.model import Cake
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError
from templates_gen.pieces import collar, disc, drape, panel, rim_ring, score, swing_strip, wrap
from templates_gen.tiers.stack import Stack, build_stack, overhangs


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of piece: what one is made for each of, and what makes it (None: there is none)."""

    subjects: Callable[[Stack], Iterable[Any]]
    build: Callable[[Any], Piece | None]


def _tiers(stack: Stack) -> Iterable[Any]:
    return stack.tiers


def _seats(stack: Stack) -> Iterable[Any]:
    return stack.seats


def _cake(stack: Stack) -> Iterable[Any]:
    return (stack,)


KINDS = {
    "wrap": Kind(_tiers, wrap.build),
    "disc": Kind(_tiers, disc.build),
    "drape": Kind(_tiers, drape.build),
    "panel": Kind(_tiers, panel.build),
    "collar": Kind(_tiers, collar.build),
    "rim-ring": Kind(_tiers, rim_ring.build),
    "score": Kind(_seats, score.build),
    "swing-strip": Kind(_cake, swing_strip.build),
}


def build_pieces(cake: Cake) -> tuple[Piece, ...]:
    """Return every piece of a cake: the drum's, each tier's from the bottom up, the cake's.

    Raises CakeError with every problem of every piece.
    """
    stack = build_stack(cake)
    pieces: list[Piece] = []
    problems = dict.fromkeys(overhangs(stack))
    for kind in KINDS.values():
        for subject in kind.subjects(stack):
            try:
                piece = kind.build(subject)
            except CakeError as error:
                problems.update(dict.fromkeys(error.problems))
            else:
                pieces += [piece] if piece else []
    if problems:
        raise CakeError(problems)
    places = {name: place for place, name in enumerate(["drum", *(t.name for t in stack.tiers)])}
    return tuple(sorted(pieces, key=lambda piece: places.get(piece.tier, len(places))))
