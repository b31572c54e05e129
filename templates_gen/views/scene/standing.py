"""Toppers where they stand: in rows across the top tier, facing the front."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.cakefile.cutting import Topper
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.pieces.topper import TAB, outlines
from templates_gen.units import in_both
from templates_gen.views.colours import colour_of
from templates_gen.views.scene.bodies import part_of
from templates_gen.views.scene.parts import Look, Shape, Standing
from templates_gen.views.scene.stand import Stand, stand

FINE = 0.2
MOST = 12
"""Toppers of one kind that are shown."""
BETWEEN = 8.0
"""Room between two toppers of a row, mm."""
BETWEEN_ROWS = 20.0
FREE = 14.0
"""How much of a stick is seen under a topper, mm: common practice, no source."""


def standing(stack: DecoratedStack) -> Iterator[Standing]:
    """Yield the toppers of a cake: each kind a row across the top tier, the tallest behind."""
    kinds = [_Kind(index, spec, tuple(outlines(spec))) for index, spec in enumerate(stack.toppers)]
    if not kinds:
        return
    kinds.sort(key=lambda kind: -kind.box.height)
    top = stand(stack)
    apart = min(BETWEEN_ROWS, top.box.height / (len(kinds) + 1))
    for row, kind in enumerate(kinds):
        back = ((len(kinds) - 1) / 2 - row) * apart
        count = min(kind.spec.count, MOST)
        pitch = kind.box.width + BETWEEN
        for number in range(count):
            yield _standing(top, kind, ((number - (count - 1) / 2) * pitch, back))


@dataclass(frozen=True, slots=True)
class _Kind:
    """A topper by its index in the cake file, and its outlines."""

    index: int
    spec: Topper
    paths: tuple[Path, ...]

    @property
    def box(self) -> Box:
        """The box round all of it."""
        return union_box(path.bounds for path in self.paths)


def _standing(top: Stand, kind: _Kind, on: Point) -> Standing:
    """Return one topper at a place of the top."""
    spec, box = kind.spec, kind.box
    # a tab stands in the cake, a stick is seen
    low = box.y0 + TAB[1] if spec.stick == "tab" else box.y0 - FREE
    moved = [path.moved(-box.centre[0], -low) for path in kind.paths]
    sticks: tuple[Point, ...] = ()
    if spec.stick != "tab":
        sticks = tuple((path.bounds.centre[0], FREE + path.bounds.height / 3) for path in moved)
    look = Look(
        part_of(("topper", kind.index)),
        "Topper" if spec.text is None else f"Topper “{spec.text}”",
        f"{spec.shape}, {in_both(spec.height.mm)} tall",
        colour_of(spec.colour, "ffffff"),
    )
    return Standing(look, top.at(on), tuple(map(_shape, moved)), spec.thickness.mm, sticks)


def _shape(path: Path) -> Shape:
    """Return the contours of a path."""
    return tuple(tuple(points[:-1]) for points, closed in sampled(path, FINE) if closed)
