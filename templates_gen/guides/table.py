"""The table of guides: everything that can be marked on the side of a tier. One line each.

The collar lays guides on paper; whatever else shows the side of a tier reads them here too.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from templates_gen.guides import designs as design_row
from templates_gen.guides import drips as drip_row
from templates_gen.guides import lettering as lettered
from templates_gen.guides import panels as panel_row
from templates_gen.guides import scatter as scatter
from templates_gen.guides.guide import Guide
from templates_gen.guides.keep_clear import without
from templates_gen.guides.openings import opening_paths
from templates_gen.tiers.solid import Solid

GUIDES: dict[str, Callable[[Solid], Iterable[Guide]]] = {
    "panels": panel_row.guides,
    "drips": drip_row.guides,
    "design": design_row.guides,
    "lettering": lettered.guides,
    "scatter": scatter.guides,
}
"""By its key in the cake file, what makes the guides of a tier; none where the tier has none."""


def all_guides(tier: Solid) -> tuple[Guide, ...]:
    """Return what is on the side of a tier, what is nearer to the eye later.

    Nothing of it lies in an opening of the side. Raises CakeError where it cannot be made.
    """
    return tuple(_beside_openings(tier, guide) for make in GUIDES.values() for guide in make(tier))


def _beside_openings(tier: Solid, guide: Guide) -> Guide:
    """Return a guide without what falls into an opening."""
    holes = opening_paths(tier, guide.layer)
    return replace(guide, drawing=without(guide.drawing, holes, guide.layer.side.girth))


def guides(tier: Solid) -> tuple[Guide, ...]:
    """Return the guides for the collars of a tier. Raises CakeError where one cannot be made."""
    return tuple(guide for guide in all_guides(tier) if guide.on_collar)
