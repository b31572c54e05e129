"""The bench list in parts that are looked at, and printed, each by itself."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from templates_gen.bench.day_plan import days
from templates_gen.bench.report import sections
from templates_gen.bench.section import ASSUMPTIONS, PORTIONS, SHOPPING, TIMES
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.keys import keys_of
from templates_gen.terms import Terms
from templates_gen.web.labels import label, worded

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
    for section, said in zip(sections(found), sections(found, terms), strict=True):
        if section.title != TIMES:
            about: dict[str, Any] = {
                name: [worded(each, ()) for each in getattr(said, name)] for name in NOTES
            }
            about["folded"] = section.title == ASSUMPTIONS
            parts[ELSEWHERE.get(section.title, BENCH)].append(asdict(said) | about)
            if about["folded"]:
                parts[BENCH][-1]["rows"] = [_named(*each) for each in section.rows]
    notes = [terms.text(note) for note in found["time_warnings"]]
    return {**parts, "days": [asdict(day) for day in days(found, terms)], "notes": notes}


def _named(key: str, *rest: str) -> list[str]:
    """Return a row of the assumptions with the label of its key, as the form has it."""
    first, _, inner = key.partition(".")
    table = keys_of(Estimates)[first].table
    name = label(Estimates, first)
    return [f"{name}: {label(table, inner).lower()}" if table else name, *rest]
