"""The bench list in parts that are looked at, and printed, each by itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from templates_gen.bench.day_plan import days
from templates_gen.bench.report import sections
from templates_gen.bench.section import ASSUMPTIONS, PORTIONS, SHOPPING, TIMES
from templates_gen.terms import Terms
from templates_gen.web.labels import worded

BENCH, SHOP, SERVE = "bench", "shopping", "portions"
ELSEWHERE: Mapping[str, str] = {SHOPPING: SHOP, PORTIONS: SERVE}
"""Sections that have a list of their own, by their titles."""
NOTES = ("notes", "assumptions")
"""What of a section speaks of keys, and so is put into the words of the page."""


def lists(found: dict[str, Any], terms: Terms) -> dict[str, Any]:
    """Return the parts of each list, as words, and the plan by day.

    The order of work is in the plan by day alone, whole there.
    """
    parts: dict[str, list[dict[str, Any]]] = {BENCH: [], SHOP: [], SERVE: []}
    for said in sections(found, terms, with_keys=False):
        if said.title != TIMES:
            about: dict[str, Any] = {
                name: [worded(each, ()) for each in getattr(said, name)] for name in NOTES
            }
            about["folded"] = said.title == ASSUMPTIONS
            parts[ELSEWHERE.get(said.title, BENCH)].append(asdict(said) | about)
    notes = [terms.text(note) for note in found["time_warnings"]]
    return {**parts, "days": [asdict(day) for day in days(found, terms)], "notes": notes}
