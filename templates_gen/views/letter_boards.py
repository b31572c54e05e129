"""Where letter cakes are shown: on their boards in front of the drum, one before the other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.drawing.colour_words import from_hex
from templates_gen.drawing.drawing import Colour, Drawing, Fill, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.booleans import shadow
from templates_gen.geometry.areas.lines import cutter
from templates_gen.geometry.areas.silhouettes import is_hidden
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path, line, rectangle
from templates_gen.guides.decorated import CakeOfLetters, DecoratedStack
from templates_gen.tiers.letter_cakes import BOARD, Part, off
from templates_gen.units import in_both
from templates_gen.views.colours import BOARD as BOARD_COLOUR
from templates_gen.views.colours import BUTTERCREAM, colour_of
from templates_gen.views.view import FINE, IN_FRONT

BETWEEN = 40.0
"""Room between the drum and a board, and between two boards, mm."""
CORNER = 2.0
"""A corner nearer to the side of its part than this is that side, mm."""


@dataclass(frozen=True, slots=True)
class LetterBoard:
    """A letter cake as it is shown: its board and the outlines of its covered parts, in plan.

    ``table`` is how high what its board stands on is above the drum's upper face, mm.
    """

    cake: CakeOfLetters
    board: Box
    outlines: tuple[Path, ...]
    table: float

    @property
    def name(self) -> str:
        """What it is called and what it says."""
        return f"{name_of(self.cake.index + 1)}: {self.cake.spec.text or 'shape'}"

    @property
    def sizes(self) -> tuple[str, str]:
        """How deep the cake is and how large its board, in words."""
        board = " × ".join(map(in_both, self.cake.made.board))
        return f"{in_both(self.cake.made.wall_height)} deep", f"board {board}"

    @property
    def colour(self) -> Colour:
        """The colour of its covering."""
        return colour_of(self.cake.spec.colour, BUTTERCREAM)


def letter_boards(stack: DecoratedStack) -> Iterator[LetterBoard]:
    """Yield the letter cakes of a cake where they are shown, x to the right and y to the back.

    Those that stand before no tiers are about (0, 0).
    """
    boards = [cake.made.board for cake in stack.letter_cakes]
    if stack.drum is None:
        deep = sum(deep for _, deep in boards) + BETWEEN * (len(boards) - 1)
        front, table = deep / 2, -BOARD.mm
    else:
        front, table = stack.drum.bounds.y0 - BETWEEN, -stack.drum_thickness
    for cake, (wide, deep) in zip(stack.letter_cakes, boards, strict=True):
        made, spec = cake.made, cake.spec
        left, low = -wide / 2, front - deep
        outside = spec.coating.mm + spec.fondant.mm
        outlines = tuple(
            off(part.outline, outside).moved(left + part.x, low + part.y) for part in made.parts
        )
        yield LetterBoard(cake, Box(left, low, left + wide, front), outlines, table)
        front = low - BETWEEN


def from_front(found: LetterBoard) -> Drawing:
    """Return a letter cake on its board as it looks from the front, the board's foot at 0."""
    low, high = BOARD.mm, BOARD.mm + found.cake.made.wall_height
    board = rectangle(Box(found.board.x0, 0.0, found.board.x1, low))
    parts = zip(found.cake.made.parts, found.outlines, strict=True)
    nearest_last = sorted(parts, key=lambda each: -each[1].bounds.y0)
    walls = [rectangle(Box(p.bounds.x0, low, p.bounds.x1, high)) for _, p in nearest_last]
    strokes = [Stroke(board, Role.GUIDE)]
    for index, (part, _) in enumerate(nearest_last):
        cut = cutter([shadow(each, FINE) for each in walls[index + 1 :]])
        strokes.append(Stroke(cut(walls[index]), Role.GUIDE))
        left = found.board.x0 + part.x
        edges = [line((left + x, low), (left + x, high)) for x in _edges(part)]
        strokes += (Stroke(cut(edge), Role.NOTE) for edge in edges)
    fills = [Fill(board, from_hex(BOARD_COLOUR)), *(Fill(wall, found.colour) for wall in walls)]
    return Drawing(tuple(each for each in strokes if each.path.commands), fills=tuple(fills))


def _edges(part: Part) -> Iterator[float]:
    """Yield the x of each corner of outer walls that is seen from the front, within its sides."""
    area, box = shadow(part.outline, FINE), part.outline.bounds
    for x, y in (corner for wall in part.walls if not wall.counter for corner in wall.corners):
        if box.x0 + CORNER < x < box.x1 - CORNER and not is_hidden(area, (x, y - IN_FRONT)):
            yield x
