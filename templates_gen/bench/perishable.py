"""How long a perishable filling is out of the fridge over the whole plan, by the 2 h / 4 h rule."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import timedelta

from templates_gen.bench.assembly import CAKE
from templates_gen.bench.schedule import NOMINAL, Timed
from templates_gen.bench.tier_steps import spoilt_by_cold
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.cakefile.work import Work
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.plan import Plan
from templates_gen.units import decimal

BACK, USE = timedelta(hours=2), timedelta(hours=4)
"""Time between 5 and 60 °C, added up: under 2 h back to the fridge, 2 to 4 h use, over 4 h throw
away (FSANZ rule, reprinted)."""


def perishable_warnings(plan: Plan, timed: Sequence[Timed]) -> Iterator[str]:
    """Yield a warning for each tier whose filling is out of the fridge for two hours or more.

    ``timed`` are its steps with their times, counted from a nominal day where there is no other.
    """
    work = plan.work
    dated = work if work.ready else work.model_copy(update={"ready": NOMINAL})
    for tier in plan.stack.tiers:
        filling = tier.spec.inside.filling
        out = out_of_the_fridge(tier, timed, dated)
        if out < BACK:
            continue
        hours = f"{decimal(out.total_seconds() / 3600, 1)} h"
        rule = (
            "past 2 h it must not go back, and is eaten before 4 h"
            if out <= USE
            else "over 4 h it must be thrown away"
        )
        yield (
            f"{tier.name}: its {filling} is out of the fridge for about {hours} in this plan, added"
            f" up: {rule} (FSANZ 2 h / 4 h rule). Choose a filling that keeps, work on it in less"
            " time, or leave out icing and paint that cannot be chilled."
        )


def out_of_the_fridge(tier: DecoratedTier, timed: Sequence[Timed], work: Work) -> timedelta:
    """Return how long a perishable filling is out of the fridge, from filling to serving.

    While someone works on the tier, and from the first icing or paint on until the cake is ready.
    """
    filled = [each for each in timed if each.step.tier == tier.name and each.step.stage == "fill"]
    perishable = FILLINGS[tier.spec.inside.filling].perishable
    if not filled or not perishable or not filled[0].step.caution or work.ready is None:
        return timedelta()
    out = timedelta()
    started = False
    for each in timed:
        started = started or each is filled[0]
        if not started or each.step.tier not in (tier.name, CAKE) or each.start is None:
            continue
        if each.step.tier == tier.name and each.step.stage in spoilt_by_cold(tier):
            return out + (work.ready - each.start)
        out += timedelta(minutes=each.step.minutes)
    return out
