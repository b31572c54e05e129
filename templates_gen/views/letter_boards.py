"""Where letter cakes are shown: on their boards in front of the drum, one before the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import CakeOfLetters, DecoratedStack
from templates_gen.tiers.letter_cakes import off

BETWEEN = 40.0
"""Room between the drum and a board, and between two boards, mm."""


@dataclass(frozen=True, slots=True)
class Shown:
    """A letter cake as it is shown: its board and the outlines of its covered parts, in plan."""

    cake: CakeOfLetters
    board: Box
    outlines: tuple[Path, ...]


def shown(stack: DecoratedStack) -> Iterator[Shown]:
    """Yield the letter cakes of a cake where they are shown, x to the right and y to the back."""
    front = stack.drum.bounds.y0 - BETWEEN
    for cake in stack.letter_cakes:
        made, spec = cake.made, cake.spec
        wide, deep = made.board
        left, low = -wide / 2, front - deep
        outside = spec.coating.mm + spec.fondant.mm
        outlines = tuple(
            off(part.outline, outside).moved(left + part.x, low + part.y) for part in made.parts
        )
        yield Shown(cake, Box(left, low, left + wide, front), outlines)
        front = low - BETWEEN
