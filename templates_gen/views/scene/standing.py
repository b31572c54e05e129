"""Toppers where they stand: in rows across the top tier, facing the front."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import partial

from templates_gen.cakefile.cutting import Topper
from templates_gen.geometry.box import Box, union_box
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.pieces.topper import FREE, TAB, outlines, stick
from templates_gen.units import in_both
from templates_gen.views.colours import colour_of
from templates_gen.views.scene.bodies import part_of, shape_of
from templates_gen.views.scene.parts import Look, Standing
from templates_gen.views.scene.stand import stand

FINE = 0.2
MOST = 12
"""Toppers of one kind that are shown."""
BETWEEN = 8.0
"""Room between two toppers of a row, mm."""
BETWEEN_ROWS = 20.0


def standing(stack: DecoratedStack, memo: Memo = NOTHING_KEPT) -> Iterator[Standing]:
    """Yield the toppers of a cake: each kind a row across the top tier, the tallest behind."""
    kinds = [
        memo.get((_kind, index, spec), partial(_kind, index, spec))
        for index, spec in enumerate(stack.toppers)
    ]
    if not kinds:
        return
    kinds.sort(key=lambda kind: -kind.box.height)
    top = stand(stack)
    apart = min(BETWEEN_ROWS, top.box.height / (len(kinds) + 1))
    for row, kind in enumerate(kinds):
        back = ((len(kinds) - 1) / 2 - row) * apart
        count = min(kind.count, MOST)
        pitch = kind.box.width + BETWEEN
        for number in range(count):
            on = (number - (count - 1) / 2) * pitch, back
            yield replace(kind.topper, at=top.at(on))


@dataclass(frozen=True, slots=True)
class _Kind:
    """The toppers of one entry of the cake file: how many, the box round one, and one at (0, 0)."""

    count: int
    box: Box
    topper: Standing


def _kind(index: int, spec: Topper) -> _Kind:
    paths = outlines(spec)
    box = union_box(path.bounds for path in paths)
    # a tab stands in the cake, a stick is seen
    low = box.y0 + TAB[1] if spec.stick == "tab" else box.y0 - FREE
    moved = [path.moved(-box.centre[0], -low) for path in paths]
    ends = () if spec.stick == "tab" else tuple(stick(spec, path)[1] for path in paths)
    sticks = tuple((x - box.centre[0], y - low) for x, y in ends)
    look = Look(
        part_of(("topper", index)),
        "Topper" if spec.text is None else f"Topper “{spec.text}”",
        f"{spec.shape}, {in_both(spec.height.mm)} tall",
        colour_of(spec.colour, "ffffff"),
    )
    shapes, at = tuple(shape_of(path, FINE) for path in moved), (0.0, 0.0, 0.0, 0.0)
    return _Kind(spec.count, box, Standing(look, at, shapes, spec.thickness.mm, sticks))
