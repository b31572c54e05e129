"""Amounts as a kitchen measures them: grams to 5 or 10, spoons to a quarter, never nothing."""

from __future__ import annotations

import math

from templates_gen.units import GRAMS_PER_POUND, decimal

POUND = 16
"""Ounces to a pound."""
OUNCE = GRAMS_PER_POUND / POUND
"""Grams to an ounce on a scale."""
TEASPOON = 5.0
"""mL: 21 CFR 101.9(b)(5)(viii)."""
FINE, COARSE = 5.0, 10.0
"""Grams that small and large amounts are rounded up to: common practice, no source."""
COARSE_FROM = 200.0
KILOGRAM = 1000.0
MM3_PER_ML = 1000.0
QUARTERS = {0: "", 1: "¼", 2: "½", 3: "¾"}


def kitchen_grams(mass: float) -> float:
    """Return grams rounded up to what a kitchen weighs: to 5, from 200 g on to 10."""
    step = FINE if mass < COARSE_FROM else COARSE
    return max(step, math.ceil(mass / step - 1e-9) * step)


def left_over(mass: float) -> float:
    """Return grams rounded down to what a kitchen weighs, as it cannot be counted on to be more."""
    step = FINE if mass < COARSE_FROM else COARSE
    return math.floor(mass / step + 1e-9) * step


def to_weigh(mass: float) -> str:
    """Write an amount to weigh out, rounded up: ``1.23 kg (2 lb 11 oz)``, ``45 g (1½ oz)``."""
    return grams(kitchen_grams(mass))


def grams(mass: float) -> str:
    """Write a mass in grams or kilograms and in ounces or pounds."""
    return f"{metric(mass)} ({imperial(mass)})"


def metric(mass: float) -> str:
    """Write a mass in grams, from a kilogram on in kilograms."""
    return f"{decimal(mass, 0)} g" if mass < KILOGRAM else f"{decimal(mass / KILOGRAM, 2)} kg"


def imperial(mass: float) -> str:
    """Write a mass in ounces, from a pound on in pounds and ounces."""
    return _ounces(mass / OUNCE)


def carried(mass: float) -> str:
    """Write a weight that is carried, to a tenth of a kilogram and an ounce."""
    tenth = max(0.1, math.ceil(mass / 100 - 1e-9) / 10)
    return f"{decimal(tenth, 1)} kg ({_ounces(tenth * KILOGRAM / OUNCE)})"


def _ounces(ounces: float) -> str:
    """Write ounces to a quarter, from a pound on whole ones."""
    if ounces >= POUND - 0.125:
        pounds, rest = divmod(round(ounces), POUND)
        return f"{pounds} lb {rest} oz" if rest else f"{pounds} lb"
    quarters = round(ounces * 4)
    return f"{_quarters(quarters)} oz" if quarters else "under ¼ oz"


def spoons(millilitres: float) -> str:
    """Write a volume in teaspoons of 5 mL, up to the next quarter: ``1¼ tsp``."""
    quarters = max(1, math.ceil(millilitres / TEASPOON * 4 - 1e-9))
    return f"{_quarters(quarters)} tsp"


def _quarters(quarters: int) -> str:
    whole, rest = divmod(quarters, 4)
    return f"{whole or ''}{QUARTERS[rest]}" or "0"


def millilitres(volume: float) -> str:
    """Write a volume, up to the next 5 mL."""
    return f"{decimal(max(1.0, math.ceil(volume / 5 - 1e-9)) * 5, 0)} mL"


def dust(mass: float) -> str:
    """Write a mass of dust, up to the next half gram."""
    return f"{decimal(max(1.0, math.ceil(mass * 2 - 1e-9)) / 2, 1)} g"
