"""Warnings of a cake: those of its plan, and of what its bench list shows to be amiss."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from templates_gen.bench.baking import too_large
from templates_gen.bench.letter_cakes import served
from templates_gen.bench.servings import too_few
from templates_gen.errors import PlanWarning
from templates_gen.plan import Plan


def warnings(plan: Plan) -> tuple[PlanWarning, ...]:
    """Return what the decorator may not have meant: on paper, then in the kitchen."""
    found = (replace(each, text=plan.terms.text(each.text)) for each in _in_the_kitchen(plan))
    return (*plan.warnings(), *found)


def _in_the_kitchen(plan: Plan) -> Iterator[PlanWarning]:
    yield from too_large(plan.stack)
    if said := too_few(served(plan.stack), plan.guests):
        yield PlanWarning(("guests",), said)
