"""Scallops: hanging tabs with a straight upper edge, one beside the other."""

from __future__ import annotations

from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.drawing.designs.swags import USUAL_DROP, closed_above, string_values
from templates_gen.geometry.curves import Catenary


def scallops(cell: Cell, *, drop: float | None = None) -> Motif:
    """Return a tab as wide as the repeat whose lower edge hangs ``drop`` mm."""
    sag = min(USUAL_DROP * cell.width, cell.height) if drop is None else drop
    edge = Catenary(cell.width, within("drop", sag, cell.height, "the band of the design"))
    return Motif((closed_above(edge.path()),), values=string_values([edge]))
