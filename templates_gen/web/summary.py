"""The figures of a cake that are always in view, in the unit of the cake."""

from __future__ import annotations

from typing import Any

from templates_gen.plan import Plan
from templates_gen.units import decimal, inch_fraction

OUNCE, POUND = 28.349523125, 453.59237
"""Grams. International avoirdupois pound: 0.45359237 kg exactly (NBS Circular 572 addendum)."""
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
    return {
        "fondant": mass(paste, unit),
        "portions": str(portions) if portions else "",
        "height": length(plan.stack.height, unit),
    }


def mass(grams: float, unit: str) -> str:
    """Write a mass in pounds and ounces where lengths are in inches, else in kilograms."""
    if unit != "in":
        return f"{decimal(grams / 1000, 1)} kg" if grams >= 1000 else f"{decimal(grams, 0)} g"
    pounds, ounces = divmod(round(grams / OUNCE), round(POUND / OUNCE))
    return " ".join([*([f"{pounds} lb"] if pounds else []), *([f"{ounces} oz"] if ounces else [])])


def length(mm: float, unit: str) -> str:
    """Write a length in a unit."""
    if unit == "in":
        return f"{inch_fraction(mm)} in"
    return f"{decimal(mm / 10, 1)} cm" if unit == "cm" else f"{decimal(mm, 0)} mm"
