"""What a side is kept clear of: openings cut through it, and what is piped on it.

One place, so that whatever is cut or piped later is heeded by every design at once.
"""

from __future__ import annotations

from templates_gen.drawing.path import Path
from templates_gen.drawing.piece import Drawing, Stroke
from templates_gen.drawing.polygons import cut_away
from templates_gen.pieces.drip_row import drip_outline, drip_row
from templates_gen.pieces.opening import opening_paths
from templates_gen.tiers.solid import Solid


def openings(tier: Solid) -> tuple[Path, ...]:
    """Return the openings in the covered side of a tier, in (u, v)."""
    return opening_paths(tier, tier.covered)


def drips(tier: Solid) -> tuple[Path, ...]:
    """Return the outlines of the drips of a tier, in (u, v)."""
    asked = tier.asked.drips
    if asked is None:
        return ()
    row = drip_row(tier, asked)
    return tuple(
        drip_outline(u, row.width, length)
        for u, length in zip(row.positions, row.lengths, strict=True)
    )


def without(drawing: Drawing, areas: tuple[Path, ...], girth: float) -> Drawing:
    """Return a drawing without what lies in closed areas of a side ``girth`` mm round."""
    if not areas:
        return drawing
    turns = all_round(areas, girth)
    strokes = (Stroke(cut_away(s.path, turns), s.role) for s in drawing.strokes)
    return Drawing(tuple(s for s in strokes if s.path.commands), drawing.labels)


def all_round(areas: tuple[Path, ...], girth: float) -> list[Path]:
    """Return areas of a side, and again where they reach over the join."""
    return [area.moved(turn, 0) for area in areas for turn in (-girth, 0.0, girth)]
