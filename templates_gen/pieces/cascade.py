"""The pieces of a garland or cascade to cut: one outline of each size, and how many of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import PACK, Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT, Line, text_block
from templates_gen.errors import PlanWarning
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.cascade import counted_by_size, letter_of, named_counts
from templates_gen.guides.cascade_line import CascadeLine
from templates_gen.guides.cascade_shapes import Shape
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.making import OUT, cut_from
from templates_gen.units import counted, in_both

ROW = 170.0
"""How wide a row of outlines is at the most, mm."""
BETWEEN = 8.0
WORDS, TITLE = 9.0, 20.0
"""Paper under an outline and at the foot of the sheet, for words, mm."""
FEW = 0.75
"""With less than this of its pieces a cascade is much barer than the file says."""


def build(stack: DecoratedStack) -> Iterable[Piece]:
    """Yield a sheet for each cascade with its pieces to cut."""
    for line in with_pieces(stack):
        yield _sheet(stack, line)


def with_pieces(stack: DecoratedStack) -> Iterator[CascadeLine]:
    """Yield the cascades that have room for a piece: of others there is nothing to make."""
    return (line for line in stack.cascades if any(counts(stack, line)))


def without_pieces(stack: DecoratedStack) -> Iterator[PlanWarning]:
    """Yield the warnings of cascades that have no sheet to carry them."""
    for line in stack.cascades:
        found = counts(stack, line)
        if not any(found):
            yield from _warnings(line, found)


def counts(stack: DecoratedStack, line: CascadeLine) -> tuple[int, ...]:
    """Return how many pieces of each size a cascade has, on all sides and ledges."""
    found = [each.cascades for each in stack.tiers] + [each.cascades for each in stack.ledges]
    return counted_by_size(line.spec, [laid for each in found for laid in each.get(line.index, ())])


def _sheet(stack: DecoratedStack, line: CascadeLine) -> Piece:
    spec, found = line.spec, counts(stack, line)
    shapes = {size: shape for size, shape in enumerate(line.shapes) if found[size]}
    cells = list(_cells(list(shapes.values())))
    right = max(cell.x1 for cell in cells)
    edge = Box(0.0, min(cell.y0 for cell in cells) - TITLE, max(right, 90.0), BETWEEN)
    drawn: list[Stroke] = []
    labels: list[Label] = []
    for (size, shape), cell in zip(shapes.items(), cells, strict=True):
        box = shape.outline.bounds
        x, y = cell.centre[0] - box.centre[0], cell.y1 - box.y1
        drawn.append(Stroke(shape.outline.moved(x, y), Role.CUT))
        words = f"{letter_of(spec, size)}: cut {found[size]}".removeprefix(": ")
        under = Box(cell.x0, cell.y0, cell.x1, cell.y0 + WORDS)
        labels += text_block([Line(words, TEXT, bold=True)], under)
    title = f"cascade {line.index + 1}: {spec.shape}"
    which = "its letter" if len(spec.sizes) > 1 else "it"
    made_of = cut_from(spec, spec.colour)
    space = Box(2.0, edge.y0 + 1, edge.x1 - 2, edge.y0 + TITLE - 1)
    lines = [Line(title, TEXT, bold=True), Line(f"{in_both(line.length)} long as it lies", SMALL)]
    return Piece(
        owner=PACK,
        kind="cascade",
        title=title,
        surface="flat",
        use=(
            f"Cut from {made_of}, {OUT}: {named_counts(spec, found)}. Set each where {which} is"
            " marked on the sides and ledges, once the cake is stacked."
        ),
        outline=rectangle(edge),
        drawing=Drawing(tuple(drawn), (*labels, *text_block(lines, space))),
        values={
            "pieces": sum(found),
            "pieces_by_size": found,
            "sizes_mm": tuple(size.mm for size in spec.sizes),
            "line_length_mm": line.length,
        },
        warnings=tuple(_warnings(line, found)),
        part=str(line.index + 1),
    )


def _cells(shapes: Sequence[Shape]) -> Iterator[Box]:
    """Yield a place for each outline with its words, row by row, each row from the left."""
    x, top, tall = BETWEEN, 0.0, 0.0
    for shape in shapes:
        wide, high = max(shape.outline.bounds.width, 16.0), shape.outline.bounds.height
        if x > BETWEEN and x + wide > ROW:
            x, top, tall = BETWEEN, top - tall - BETWEEN, 0.0
        yield Box(x, top - high - WORDS, x + wide, top)
        x, tall = x + wide + BETWEEN, max(tall, high + WORDS)


def _warnings(line: CascadeLine, found: Sequence[int]) -> Iterator[PlanWarning]:
    """Say that much less than was wanted has room."""
    wanted = sum(line.runs[0].wanted)
    if sum(found) < FEW * wanted:
        room = f"only {sum(found)} of {counted(wanted, 'piece')} have"
        if not any(found):
            room = f"none of {counted(wanted, 'piece')} has"
        text = (
            f"cascade {line.index + 1}: {room} room:"
            " use smaller ones, a wider line or a lower density."
        )
        yield PlanWarning(("cascade", line.index, "density"), text)
