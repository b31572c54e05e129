"""Outlines side by side, head to tail, in rows."""

from __future__ import annotations

import shapely
from fontTools.misc.transform import Transform
from shapely.affinity import translate

from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.path import Path
from templates_gen.geometry.roots import halved
from templates_gen.geometry.tolerances import MOVE_FIT


def head_to_tail(path: Path) -> Path:
    """Return an upright outline turned half-way round about the middle of its box."""
    x, y = path.bounds.centre
    return path.transformed(Transform(-1, 0, 0, -1, 2 * x, 2 * y))


def pitch(path: Path, gap: float) -> float:
    """Return how far apart outlines stand of which every other one is turned head to tail, mm.

    Neighbours are at least ``gap`` apart, and so are those that stand the same way up. The outline
    is its own mirror image, left and right.
    """
    wide = path.bounds.width
    one, other = region(path), region(head_to_tail(path))

    def is_near(by: float) -> bool:
        return bool(shapely.distance(one, translate(other, by)) < gap)

    return halved(is_near, (wide + gap) / 2, wide + gap, MOVE_FIT)[1]
