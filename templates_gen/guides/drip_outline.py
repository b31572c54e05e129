"""The outline of a drip: our choice of a spreading root, a run and a rounded foot."""

from __future__ import annotations

import math

from templates_gen.geometry.arcs import arc_cubics
from templates_gen.geometry.path import Path, backwards

FLARE = 0.25
"""How far the root of a drip spreads on each side, over its width."""
FOOT = 0.575
"""Radius of the rounded foot over the width of the run: a little wider than the run."""
ROOT = (0.4, 0.3)
"""How far down the root reaches: over the width of the run, and over the length at the most.

The look of a drip is our choice: so are the numbers below.
"""
NECK = 2.2
"""How far above the tip the run begins to widen, over the radius of the foot."""
ROUND_ROOT = 0.55
"""Length of a control line at the rim over the spread: nearly that of a circle, 0.552."""
STEEP_ROOT = 0.45
"""Where the lower control point of the root stands, over its depth."""
ROOT_WIDTH = 1 + 2 * FLARE


def drip_outline(u: float, width: float, length: float) -> Path:
    """Return the outline of a drip at the rim place u: spreading root, run, rounded foot.

    In side coordinates, v down from the rim at 0 to the foot at ``length``.
    """
    half, flare, foot = width / 2, FLARE * width, FOOT * width
    root = min(ROOT[0] * width, ROOT[1] * length)
    neck = max(length - NECK * foot, root)
    middle = length - foot
    left = _descent(u, -1, half, flare, foot, (root, neck, middle)).commands[:-1]
    right = backwards(_descent(u, 1, half, flare, foot, (root, neck, middle))).commands[1:-1]
    below = arc_cubics((u, middle), foot, math.pi, -math.pi)
    return Path((*left, *below, *right, ("closePath", ())))


def _descent(
    u: float, way: int, half: float, flare: float, foot: float, heights: tuple[float, float, float]
) -> Path:
    """Return one flank of a drip from the rim down to the widest place of its foot."""
    root, neck, middle = heights
    run, wide = u + way * half, u + way * foot
    turn = ROUND_ROOT * flare
    bend = (neck + middle) / 2
    return Path(
        (
            ("moveTo", ((run + way * flare, 0.0),)),
            ("curveTo", ((run + way * (flare - turn), 0.0), (run, root * STEEP_ROOT), (run, root))),
            ("lineTo", ((run, neck),)),
            ("curveTo", ((run, bend), (wide, bend), (wide, middle))),
            ("endPath", ()),
        )
    )
