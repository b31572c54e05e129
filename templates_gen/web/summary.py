"""The figures of a cake that are always in view, as its place writes them."""

from __future__ import annotations

from typing import Any

from templates_gen.bench.amounts import imperial, metric
from templates_gen.plan import Plan
from templates_gen.terms import UK
from templates_gen.units import in_unit

PORTIONS = "portion_count"
"""The figure of a portion guide that counts them."""
USUAL = "wedding"
"""The size of portions where a cake says none."""


def summary(plan: Plan, found: dict[str, Any], unit: str) -> dict[str, str]:
    """Return fondant, portions and height as words; ``found`` is the data of the bench list.

    Portions are those of the cake's own guides for cutting it, else of the usual size.
    """
    paste = sum(each["mass_g"] for each in found["paste"])
    counts = [piece.values.get(PORTIONS) for piece in plan.pieces]
    portions = sum(count for count in counts if isinstance(count, int)) or sum(
        each["portions"][USUAL] for each in found["servings"] if each["edible"]
    )
    height = max(plan.stack.height, *(each.made.wall_height for each in plan.stack.letter_cakes), 0)
    write = metric if plan.terms.place == UK else imperial  # UK tins may be in inches too
    return {
        "fondant": write(paste) if paste else "",
        "portions": str(portions) if portions else "",
        "height": in_unit(height, unit),
    }
