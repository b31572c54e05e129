"""The order of work: what is done when, counted back from the hour at which the cake is ready.

How long things wait is common practice, without a source; minutes of work are estimates.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from itertools import pairwise

from templates_gen.cakefile.work import Work
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.units import counted

CHILL, SET, ICING, DRY = 1.0, 12.0, 24.0, 2.0
"""Hours: to chill a tier, for a covered one to set overnight, for royal icing, for paint to dry."""
FREEZER = 5
"""Minutes that a filled mould chills in a freezer."""
LONGEST = 150
"""Minutes of one stretch of work at the most; it fits the shortest day."""


@dataclass(frozen=True, slots=True)
class Step:
    """Something to do: for which tier, in words, minutes of work, hours to wait after it.

    ``after`` are the steps that must be done, and have waited, before it.
    """

    name: str
    tier: str
    words: str
    minutes: int
    wait: float
    after: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """What other steps call it."""
        return f"{self.tier}: {self.name}"


@dataclass(frozen=True, slots=True)
class Timed:
    """A step with its start and end, where there is a day to count back from."""

    step: Step
    start: datetime | None = None
    end: datetime | None = None


def steps(stack: DecoratedStack) -> tuple[Step, ...]:
    """Return every step of a cake, each after those it waits for."""
    found: list[Step] = []
    last: list[str] = []
    for tier in stack.tiers:
        chain = list(_of_tier(tier, carries=tier.index < len(stack.tiers) - 1))
        found += chain
        last.append(chain[-1].key)
    several = len(stack.tiers) > 1
    words = (
        "stack the tiers from the bottom up, each to its scored line; lift with two"
        if several
        else "set the cake on the drum"
    )
    found += _stretches(Step("stack", "cake", words, 15 * len(stack.tiers), 0.0, tuple(last)))
    finish = "hide the joins, tie the ribbons, take every template and pin away"
    ending = Step("finish", "cake", finish, 30 + 5 * len(last), 0.0, (found[-1].key,))
    return (*found, *_stretches(ending))


def _stretches(step: Step) -> Iterator[Step]:
    """Yield a step in as many stretches of work as it takes, each after the last."""
    count = math.ceil(step.minutes / LONGEST)
    after, ends = step.after, [step.minutes * number // count for number in range(count + 1)]
    for number, (start, end) in enumerate(pairwise(ends), 1):
        name = step.name if count == 1 else f"{step.name}, part {number} of {count}"
        wait = step.wait if number == count else 0.0
        part = Step(name, step.tier, step.words, end - start, wait, after)
        yield part
        after = (part.key,)


def _of_tier(tier: DecoratedTier, *, carries: bool) -> Iterator[Step]:
    """Yield the steps of one tier, each after the last."""
    before: tuple[str, ...] = ()
    for name, words, minutes, wait in _tasks(tier, carries=carries):
        step = Step(name, tier.name, words, math.ceil(minutes), wait, before)
        for part in _stretches(step):
            before = (part.key,)
            yield part


Task = tuple[str, str, float, float]
"""A step before it has its place: name, words, minutes, hours to wait."""


def _tasks(tier: DecoratedTier, *, carries: bool) -> Iterator[Task]:
    spec = tier.spec
    if spec.coating_mm:
        yield "coat", "coat it and chill it until it is firm", 40, CHILL
    if spec.cover != "none":
        yield "cover", _covering(tier), 45, SET
    yield from _decorations(tier)
    if carries:
        yield "dowel", "lay the score sheet on it, prick it, set and cut the dowels", 20, 0.0
    words = "clean it up, a dummy needs no chill" if spec.dummy else "chill it before stacking"
    yield "make ready", words, 10, 0.0 if spec.dummy else CHILL


def _covering(tier: DecoratedTier) -> str:
    spec = tier.spec
    if spec.cover == "drape":
        return "roll the paste to its size, lay it over, trim the foot; it sets overnight"
    if not tier.lies_flat:
        return "lay the gores on from the top down, then the cap; it sets overnight"
    side = "the panels" if spec.panels is not None and spec.panels.replace_wrap else "the wrap"
    order = f"the top disc, then {side}" if spec.first == "top" else f"{side}, then the top disc"
    inside = ", then the lining of the hole" if spec.opening is not None else ""
    return f"put on {order}{inside}; it sets overnight"


def _decorations(tier: DecoratedTier) -> Iterator[Task]:
    spec = tier.spec
    if not tier.lies_flat:
        return
    if spec.panels is not None and not spec.panels.replace_wrap:
        row = tier.panel_row
        number = row.count * row.rows if row else 0
        chill = f", each mould chilled {FREEZER} min in a freezer" if spec.panels.mould else ""
        words = f"mark the joins through the collar, make and set {counted(number, 'panel')}{chill}"
        yield "panels", words, 20 + number * (FREEZER if spec.panels.mould else 2), 0.0
    if spec.drips is not None:
        number = len(tier.drip_row.positions) if tier.drip_row else 0
        yield (
            "drips",
            f"mark and pipe {counted(number, 'drip')}; they set for 24 h",
            20 + number,
            ICING,
        )
    if spec.paint is not None:
        coats = spec.paint.coats
        what = {"side": "the side", "whole": "all of it"}.get(spec.paint.on, f"the {spec.paint.on}")
        yield "paint", f"paint {what}, {counted(coats, 'coat')}; let it dry", 20 * coats, DRY


def order_of_work(stack: DecoratedStack, work: Work) -> tuple[Timed, ...]:
    """Return the steps in their order, with times where the cake file says when it is ready."""
    found = steps(stack)
    if work.ready is None:
        return tuple(Timed(step) for step in found)
    starts = _scheduled(found, work.ready, work)
    timed = [Timed(s, starts[s.key], starts[s.key] + timedelta(minutes=s.minutes)) for s in found]
    return tuple(sorted(timed, key=lambda each: each.start or datetime.max))


def _scheduled(found: Sequence[Step], ready: datetime, work: Work) -> dict[str, datetime]:
    """Return when each step starts, as late as can be, one after another, within hours of work."""
    starts: dict[str, datetime] = {}
    busy: list[tuple[datetime, datetime]] = []
    limits = {step.key: ready - timedelta(hours=step.wait) for step in found}
    later = Counter(key for step in found for key in step.after)
    by_key = {step.key: step for step in found}
    free = [step.key for step in found if not later[step.key]]
    while free:
        # of the steps that nothing later waits for, the one that may end last
        key = max(free, key=lambda each: limits[each])
        free.remove(key)
        step = by_key[key]
        lasting = timedelta(minutes=step.minutes)
        starts[key] = start = _latest(limits[key], lasting, busy, work)
        busy.append((start, start + lasting))
        for before in step.after:
            waits = timedelta(hours=by_key[before].wait)
            limits[before] = min(limits[before], start - waits)
            later[before] -= 1
            if not later[before]:
                free.append(before)
    return starts


def _latest(
    limit: datetime, lasting: timedelta, busy: Sequence[tuple[datetime, datetime]], work: Work
) -> datetime:
    """Return the latest start of some work that ends by ``limit``, in free hours of work."""
    end = limit
    while True:
        end = _in_hours(end, lasting, work)
        clash = [start for start, stop in busy if start < end and end - lasting < stop]
        if not clash:
            return end - lasting
        end = min(clash)


def _in_hours(end: datetime, lasting: timedelta, work: Work) -> datetime:
    """Return the latest end of some work, not after ``end``, that lies in hours of work."""
    midnight = datetime.combine(end.date(), time())
    opens = midnight + timedelta(hours=work.day_starts)
    closes = midnight + timedelta(hours=work.day_ends)
    end = min(end, closes)
    if end - lasting >= opens:
        return end
    return closes - timedelta(days=1)


def longest_way(found: Sequence[Step]) -> float:
    """Return the hours from the first step to the last, nights and other tiers not reckoned."""
    done: dict[str, float] = {}
    for step in found:
        begins = max((done[key] for key in step.after), default=0.0)
        done[step.key] = begins + step.minutes / 60 + step.wait
    return max(done.values())
