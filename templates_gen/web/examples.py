"""Lengths that the page gives as an example, in the unit of the cake."""

from __future__ import annotations

from templates_gen.cakefile.lengths import parse_length
from templates_gen.units import in_unit

NEAREST = {"in": 25.4 / 4, "cm": 5.0, "mm": 5.0}
"""To what an example is rounded, mm: lengths that one finds on a ruler at a glance."""


def near(text: str, unit: str) -> str:
    """Return an example of a length, written in in or cm, as one would write it in a unit.

    One in mm stays: it is a thickness or alike, which has its mm on any bench.
    """
    written = parse_length(text)
    if written.text.endswith(("mm", unit)):
        return text
    return in_unit(max(1, round(written.mm / NEAREST[unit])) * NEAREST[unit], unit)
