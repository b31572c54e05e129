"""What holds of every piece that is the side of a tier laid flat."""

from __future__ import annotations

from templates_gen.drawing.piece import Piece
from templates_gen.errors import PlanWarning
from templates_gen.geometry.path import Path, closed, line
from templates_gen.geometry.warp import bent
from templates_gen.pieces.marks import Edge
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import in_both

WARNED = 0.25
"""A layer that is farther off than this gives a warning, mm."""


def within_side(piece: Piece, layer: Layer, beyond: float) -> Piece:
    """Return a piece that reaches ``beyond`` mm over its side at most.

    Raises AssertionError, a fault of the program, for one that is larger than its side allows: on
    paper two places lie no farther apart than the ways along the side between them.
    """
    side = layer.side
    wider = max(1.0, side.girth_ratio(side.depth))
    most = (side.girth + 2 * beyond) * wider + 2 * side.longest + 2 * beyond
    if max(piece.size.size) > most:
        raise AssertionError(f"{piece.id} is larger than the side of its tier")
    return piece


def strip_edge(top: float, foot: Edge, start: float, end: float) -> Path:
    """Return the edge of a strip in (u, v): from ``start`` to ``end``, from ``top`` to a foot."""
    below = bent(line((end, 0.0), (start, 0.0)), lambda u, _: (u, foot(u)))
    return closed(line((start, top), (end, top)), below)


def unevenness(tier: Solid, layer: Layer) -> tuple[PlanWarning, ...]:
    """Say how far a layer is off that could not be laid square to a side of uneven slope."""
    if layer.off <= WARNED:
        return ()
    text = (
        f"{tier.name}: the slope of the side differs from place to place and its layers close a"
        f" hollow, so the {layer.surface} side is off by up to {in_both(layer.off)}: try the paper"
        " on the cake before cutting."
    )
    return (PlanWarning(tier.key("top_size"), text),)
