"""The table of shapes to cut from rolled paste: one function and one line each.

Each gives one closed outline, upright, y up, ``size`` mm at its longer side, the middle of its box
at (0, 0).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

from fontTools.misc.transform import Transform

from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.box import Point, between
from templates_gen.geometry.path import Command, Path, both_halves

OVAL = 0.72
"""The short side of an oval over its long one."""
INNER = 0.5
"""The hollows of a star over its points, from the middle: fat enough to cut and to keep."""
BLUNT = 0.12
"""How much of its edges a point of a star is rounded over."""
PETALS = 5


def round_(size: float) -> Path:
    """Return a circle."""
    return circle((0.0, 0.0), size / 2)


def oval(size: float) -> Path:
    """Return an upright oval."""
    return _fitted(SHAPES["oval"](size, size * OVAL).path(), size, turn=math.pi / 2)


def hexagon(size: float) -> Path:
    """Return a hexagon that stands on a flat side."""
    return _fitted(SHAPES["polygon"](size, 6).path(), size)


def heart(size: float) -> Path:
    """Return a heart with its point down."""
    return _fitted(SHAPES["heart"](size).path(), size)


def star(size: float, points: int = 5) -> Path:
    """Return a star with one of its points up, the tips blunted so that they do not break."""

    def corner(index: int) -> Point:
        reach = 1.0 if index % 2 == 0 else INNER
        angle = math.pi / 2 + index * math.pi / points
        return reach * math.cos(angle), reach * math.sin(angle)

    commands: list[Command] = []
    for index in range(0, 2 * points, 2):
        before, tip, after = (corner(index + step) for step in (-1, 0, 1))
        start, end = between(tip, before, BLUNT), between(tip, after, BLUNT)
        handles = between(start, tip, 2 / 3), between(end, tip, 2 / 3)
        commands += [("lineTo", (start,)), ("curveTo", (*handles, end)), ("lineTo", (after,))]
    return _fitted(Path((("moveTo", commands[0][1]), *commands[1:], ("closePath", ()))), size)


def blossom(size: float) -> Path:
    """Return a blossom of round petals, one of them up."""
    return _fitted(SHAPES["petal"](size, PETALS).path(), size, turn=math.pi)


def leaf(size: float) -> Path:
    """Return a leaf with its tip up."""
    return _fitted(both_halves([(0.0, -1.0), (0.75, -0.6), (0.6, 0.35), (0.0, 1.0)]), size)


def butterfly(size: float) -> Path:
    """Return a butterfly with spread wings, seen from above."""
    right = [
        (0.0, 0.3),
        *((0.2, 0.55), (0.6, 0.9), (0.88, 0.82)),
        *((1.12, 0.75), (0.95, 0.3), (0.5, 0.06)),
        *((0.85, -0.2), (0.8, -0.55), (0.55, -0.66)),
        *((0.35, -0.75), (0.15, -0.6), (0.0, -0.42)),
    ]
    return _fitted(both_halves(right), size)


def _fitted(path: Path, size: float, turn: float = 0.0) -> Path:
    """Return a path turned, scaled and moved to the size and the middle of its box."""
    return path.transformed(Transform().rotate(turn)).centred(size)


CUTOUTS: Mapping[str, Callable[[float], Path]] = {
    "circle": round_,
    "oval": oval,
    "hexagon": hexagon,
    "heart": heart,
    "star": star,
    "blossom": blossom,
    "leaf": leaf,
    "butterfly": butterfly,
}
"""By the word the cake file has for it."""
