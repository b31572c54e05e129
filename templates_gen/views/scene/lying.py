"""Letter cakes as they lie on their boards before the drum: walls upright, holes open."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from templates_gen.drawing.colour_words import from_hex
from templates_gen.geometry.areas.thinning import thinned
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.tiers.letter_cakes import BOARD
from templates_gen.views.colours import BOARD as BOARD_COLOUR
from templates_gen.views.letter_boards import LetterBoard, letter_boards
from templates_gen.views.scene.bodies import part_of, shape_of
from templates_gen.views.scene.parts import Look, Lying

FINE = 0.03
"""How far a wall may leave its true place, mm."""


def lying(stack: DecoratedStack) -> Iterator[Lying]:
    """Yield the boards of the letter cakes, then the parts on them."""
    found = list(letter_boards(stack))
    for each in found:
        yield _prism(each, rectangle(each.board), each.table, BOARD.mm, is_board=True)
    for each in found:
        tall = each.cake.made.wall_height
        for path in each.outlines:
            yield _prism(each, path, each.table + BOARD.mm, tall)


def _prism(
    each: LetterBoard, path: Path, low: float, tall: float, *, is_board: bool = False
) -> Lying:
    """Return what stands upright on a plan, at the middle of that."""
    x, y = path.bounds.centre
    colour = from_hex(BOARD_COLOUR) if is_board else each.colour
    look = Look(part_of(("letter_cake", each.cake.index)), each.name, ", ".join(each.sizes), colour)
    few = thinned(path.moved(-x, -y), FINE)
    return Lying(look, (x, y, low, 0.0), (shape_of(few, FINE),), tall)


def reach_of(found: Sequence[Lying], drum: float) -> tuple[float, float]:
    """Return how far to the back the middle of all is, and how far it reaches from there, mm.

    ``drum`` is how far the cake itself reaches about (0, 0).
    """
    boxes = [_box(each) for each in found]
    low = min([-drum, *(box.y0 for box in boxes)])
    high = max([drum, *(box.y1 for box in boxes)])
    middle = (low + high) / 2
    corners = [math.hypot(x, y - middle) for box in boxes for x, y in box.corners]
    return middle, max(drum + abs(middle) if drum else 0.0, *corners)


def _box(each: Lying) -> Box:
    xs, ys = zip(*(point for shape in each.shapes for ring in shape for point in ring), strict=True)
    right, back = each.at[:2]
    return Box(right + min(xs), back + min(ys), right + max(xs), back + max(ys))
