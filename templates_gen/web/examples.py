"""Lengths that the page gives as an example or by default, in the unit of the cake."""

from __future__ import annotations

from templates_gen.cakefile.lengths import parse_length
from templates_gen.terms import inches_first
from templates_gen.units import in_both, in_unit

NEAREST = {"in": 25.4 / 4, "cm": 5.0, "mm": 5.0}
"""To what an example is rounded, mm: lengths that one finds on a ruler at a glance."""
THINNEST = 20.0
"""What is thinner has its mm on any bench, mm: fondant, coating, a board."""
SMALLEST = 1.0
"""What is less is given in mm alone, mm."""


def near(text: str, unit: str) -> str:
    """Return an example of a length as one would write it in a unit; a thickness stays in mm."""
    written = parse_length(text)
    in_mm = written.text.endswith("mm")
    if written.text.endswith(unit) or (in_mm and (unit != "in" or abs(written.mm) < THINNEST)):
        return text
    step = NEAREST[unit] / (2 if unit == "in" and abs(written.mm) < 25.4 else 1)
    return in_unit((round(written.mm / step) or 1) * step, unit)


def in_both_units(text: str, unit: str) -> str:
    """Return what a length is by default, in both units where it is not written in this one."""
    if not text or text.endswith(unit):
        return text
    mm = parse_length(text).mm
    if (unit != "in" and text.endswith(("mm", "cm"))) or mm < SMALLEST:
        return text
    return inches_first(in_both(mm)) if unit == "in" else in_both(mm)
