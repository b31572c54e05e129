"""Toppers where they stand: in a row across the middle of the top, facing the front."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from templates_gen.cakefile.cutting import Topper
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.pieces.topper import TAB, outlines
from templates_gen.units import in_both
from templates_gen.views.colours import colour_of
from templates_gen.views.scene.bodies import part_of
from templates_gen.views.scene.parts import Look, Shape, Standing

FINE = 0.2
MOST = 12
"""Toppers that are shown."""
BETWEEN = 8.0
"""Room between two toppers, mm."""
FREE = 14.0
"""How much of a stick is seen under a topper, mm: common practice, no source."""


def standing(stack: DecoratedStack) -> Iterator[Standing]:
    """Yield each topper of a cake, side by side across the middle of its top tier."""
    copies = [(index, spec) for index, spec in enumerate(stack.toppers) for _ in range(spec.count)]
    paths = {index: outlines(spec) for index, spec in enumerate(stack.toppers)}
    boxes = {index: union_box(path.bounds for path in each) for index, each in paths.items()}
    shown = copies[:MOST]
    wide = sum(boxes[index].width + BETWEEN for index, _ in shown) - BETWEEN
    x = -wide / 2
    for index, spec in shown:
        yield _standing(stack, (index, spec), paths[index], boxes[index], x)
        x += boxes[index].width + BETWEEN


def _standing(
    stack: DecoratedStack,
    topper: tuple[int, Topper],
    paths: Sequence[Path],
    box: Box,
    left: float,
) -> Standing:
    index, spec = topper
    tier, place = stack.tiers[-1], stack.places[-1]
    middle = left + box.width / 2
    right, back = place.at((middle, 0.0))
    at = (right, back, stack.feet[-1] + _height_at(tier, middle), place.turn)
    # a tab stands in the cake, a stick is seen
    low = box.y0 + TAB[1] if spec.stick == "tab" else box.y0 - FREE
    moved = [path.moved(-box.centre[0], -low) for path in paths]
    sticks: tuple[Point, ...] = ()
    if spec.stick != "tab":
        sticks = tuple((path.bounds.centre[0], FREE + path.bounds.height / 3) for path in moved)
    look = Look(
        part_of(("topper", index)),
        "Topper" if spec.text is None else f"Topper “{spec.text}”",
        f"{spec.shape}, {in_both(spec.height.mm)} tall",
        colour_of(spec.colour, "ffffff"),
    )
    return Standing(look, at, tuple(map(_shape, moved)), spec.thickness.mm, sticks)


def _shape(path: Path) -> Shape:
    """Return the contours of a path."""
    return tuple(tuple(points[:-1]) for points, closed in sampled(path, FINE) if closed)


def _height_at(tier: DecoratedTier, x: float) -> float:
    """Return how high the top of a tier is over a place on its axis from left to right, mm."""
    layer = tier.covered
    if layer.ball is not None:
        ball = layer.ball
        return ball.raised + math.sqrt(max(ball.radius**2 - x**2, 0.0))
    return layer.depth - (layer.fall.at((x, 0.0)) if layer.fall else 0.0)
