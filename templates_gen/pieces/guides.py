"""The table of guides: everything that can be marked on the side of a tier. One line each.

The collar lays guides on paper; whatever else shows the side of a tier reads them here too.
"""

from __future__ import annotations

from collections.abc import Callable

from templates_gen.pieces import drip_row, panel_row
from templates_gen.pieces.guide import Guide
from templates_gen.tiers.solid import Solid

GUIDES: dict[str, Callable[[Solid], Guide | None]] = {
    "panels": panel_row.guide,
    "drips": drip_row.guide,
}
"""By its key in the cake file, what makes a guide of a tier; None where the tier has none."""


def all_guides(tier: Solid) -> tuple[Guide, ...]:
    """Return what is on the side of a tier, what is nearer to the eye later.

    Raises CakeError where it cannot be made.
    """
    return tuple(guide for make in GUIDES.values() if (guide := make(tier)) is not None)


def guides(tier: Solid) -> tuple[Guide, ...]:
    """Return the guides for the collars of a tier. Raises CakeError where one cannot be made."""
    return tuple(guide for guide in all_guides(tier) if guide.on_collar)
