"""When each step is done: counted back from the hour at which the cake is ready.

First each step is set as late as it can be; that is its latest start. Then the steps of a day are
moved up to its beginning. One pair of hands does them all, and stops for a meal; there is one oven.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from functools import partial
from graphlib import TopologicalSorter
from itertools import chain, takewhile

from templates_gen.bench.step import IN_OVEN, ROYAL_DRIPS, SOFT_DRIPS, Step
from templates_gen.cakefile.work import Work
from templates_gen.units import decimal

BATCHED = (
    ("cover",),
    ("coat", "almond paste"),
    ("crumb coat",),
    ("fill",),
    IN_OVEN,
    ("topper", "letters", "small pieces ahead", "petals"),
)
"""Stages that are done for all tiers on one day, from the last to the first."""
DAY_SOONER = (
    *("dowel", "panels", SOFT_DRIPS, ROYAL_DRIPS, "design", "lettering", "letters set", "paint"),
)
"""Stages that may be done in what is left of the day before their last: paste keeps."""
NOMINAL = datetime(2000, 6, 17, 14)
"""A day and hour to count back from, where the cake file has none; only the days are shown."""

_LONG_AGO = datetime(2, 1, 1)
"""Before all work, with room for one more step before it."""
_Hours = tuple[datetime, datetime]


@dataclass(frozen=True, slots=True)
class Timed:
    """A step, on which day before that of the cake, and where there is a day, its hours.

    ``latest`` is when it can start at the latest, ``earliest`` when it would be too early.
    """

    step: Step
    days_before: int
    start: datetime | None = None
    end: datetime | None = None
    latest: datetime | None = None
    earliest: datetime | None = None


def order_of_work(found: Sequence[Step], work: Work) -> tuple[Timed, ...]:
    """Return the steps in their order, with times where the cake file says when it is ready."""
    return as_dated(timed_steps(found, work), work)


def as_dated(timed: Iterable[Timed], work: Work) -> tuple[Timed, ...]:
    """Return timed steps without their times where the cake file does not say when it is ready."""
    if work.ready is not None:
        return tuple(timed)
    return tuple(Timed(each.step, each.days_before) for each in timed)


def timed_steps(found: Sequence[Step], work: Work) -> tuple[Timed, ...]:
    """Return the steps in their order, counted back from a nominal day where no other is given."""
    ready = work.ready or NOMINAL
    latest = latest_starts(found, ready, work)
    starts = _moved_up(found, latest, ready, work)
    timed = [_timed(step, starts[step.key], latest[step.key], ready) for step in found]
    return tuple(sorted(timed, key=lambda each: each.start or ready))


def _timed(step: Step, start: datetime, latest: datetime, ready: datetime) -> Timed:
    earliest = None if step.keeps is None else ready - timedelta(hours=step.keeps)
    days = (ready.date() - start.date()).days
    return Timed(step, days, start, start + _lasting(step), latest, earliest)


def latest_starts(found: Sequence[Step], ready: datetime, work: Work) -> dict[str, datetime]:
    """Return the latest start of each step; like ones of several tiers are on one day if can be."""
    limits = _limits_of_batches(found, ready, work)
    starts = _backward(found, ready, work, limits)
    spoilt = _too_old(found, starts, ready)
    if not spoilt:
        return starts
    # a tier that would not keep so long is done when it has to be
    limits = {key: limit for key, limit in limits.items() if key.split(":")[0] not in spoilt}
    apart = _backward(found, ready, work, limits)
    return apart if len(_too_old(found, apart, ready)) < len(spoilt) else starts


def _too_old(
    found: Sequence[Step], starts: Mapping[str, datetime], ready: datetime
) -> frozenset[str]:
    """Return the tiers of which something would not keep until the cake is ready."""
    return frozenset(
        step.tier
        for step in found
        if step.keeps is not None and starts[step.key] < ready - timedelta(hours=step.keeps)
    )


def _limits_of_batches(found: Sequence[Step], ready: datetime, work: Work) -> dict[str, datetime]:
    """Return when steps end at the latest, so that like ones are done on one day."""
    limits: dict[str, datetime] = {}
    for stage in BATCHED:
        alike = [step.key for step in found if step.stage in stage]
        starts = _backward(found, ready, work, limits)
        first = min((starts[key] for key in alike), default=ready)
        evening = _at(first, work.day_ends)
        for key in alike:
            if starts[key] - evening <= timedelta(days=work.together):
                limits[key] = evening
    return limits


def _backward(
    found: Sequence[Step], ready: datetime, work: Work, limits: Mapping[str, datetime]
) -> dict[str, datetime]:
    """Return when each step starts, as late as can be, none beyond its limit."""
    starts: dict[str, datetime] = {}
    busy: list[_Hours] = []
    oven: list[_Hours] = []
    by_key = {step.key: step for step in found}
    kitchen = min(ready, _at(ready - timedelta(days=work.spare_days), work.day_ends))
    ends = {
        step.key: min(limits.get(step.key, ready), kitchen if step.place == "kitchen" else ready)
        for step in found
    }
    later = Counter(key for step in found for key in (*step.after, *step.follows))
    free = [step.key for step in found if not later[step.key]]
    rank = {step.key: position for position, step in enumerate(found)}
    while free:
        # of the steps that nothing later waits for, the one that may end last; of like ones that of
        # the upper tier, so that they are done from the bottom up
        key = max(free, key=lambda each: (ends[each], rank[each]))
        free.remove(key)
        step = by_key[key]
        taken = oven if step.stage in IN_OVEN else ()
        starts[key] = start = _latest(step, ends[key], busy, taken, work)
        # as every start is rounded, none lies before the next round time
        _take(busy, start, _up(start + _lasting(step), work.round_to))
        if step.stage in IN_OVEN:
            into = start + _lasting(step)
            oven.append((into, into + _in_oven(step, work)))
        for before, waits in _before(step, by_key):
            ends[before] = min(ends[before], start - waits)
            later[before] -= 1
            if not later[before]:
                free.append(before)
    return starts


def _take(busy: list[_Hours], start: datetime, stop: datetime) -> None:
    """Add free hours to the busy ones, which are in order, and one with those that they touch."""
    place = bisect_left(busy, (start, stop))
    if busy[place:] and busy[place][0] == stop:
        stop = busy.pop(place)[1]
    if place and busy[place - 1][1] == start:
        place -= 1
        start = busy.pop(place)[0]
    busy.insert(place, (start, stop))


def _before(step: Step, by_key: Mapping[str, Step]) -> Iterable[tuple[str, timedelta]]:
    """Yield each step before one, and how long it waits."""
    for key in step.after:
        yield key, timedelta(hours=by_key[key].wait)
    for key in step.follows:
        yield key, timedelta()


def _latest(
    step: Step, limit: datetime, busy: Sequence[_Hours], oven: Iterable[_Hours], work: Work
) -> datetime:
    """Return the latest start of a step that ends by ``limit``, in free hours of work.

    What is done on the day itself keeps to no hours. ``busy`` is in order; ``oven`` has the hours
    in which that is taken, for a step that needs it.
    """
    lasting, slow, end = _lasting(step), _in_oven(step, work), limit
    while True:
        meals: list[_Hours] = []
        if step.place == "kitchen":
            end = _in_hours(end, lasting, slow, work)
            meals = _meals(end, step, work)
        start = _down(end - lasting, work.round_to)
        if step.place == "kitchen" and start < _at(start, work.day_starts):
            end = _at(start - timedelta(days=1), work.day_ends)
            continue
        stop = start + lasting
        # what is done one after the other ends in the same order: all that is met is at its end
        begun = reversed(busy[: bisect_left(busy, (stop, stop))])
        met = chain(takewhile(partial(_ends_after, start), begun), meals)
        clash = [hours[0] for hours in met if hours[0] < stop and start < hours[1]]
        clash += [hours[0] - slow for hours in oven if hours[0] < stop + slow and stop < hours[1]]
        if not clash:
            return start
        end = min(clash)


def _ends_after(moment: datetime, hours: _Hours) -> bool:
    return moment < hours[1]


def _meals(day: datetime, step: Step, work: Work) -> list[_Hours]:
    """Return the break for a meal on a day, if there is one; a long bake goes on meanwhile."""
    hours = work.meal_hours
    if hours is None or step.minutes > work.stretch:
        return []
    return [(_at(day, hours[0]), _at(day, hours[1]))]


def _in_oven(step: Step, work: Work) -> timedelta:
    """Return how long someone has to be near the oven after the work on a step, as a day has it."""
    day = timedelta(hours=work.day_ends - work.day_starts)
    return max(timedelta(), min(timedelta(hours=step.oven), day - _lasting(step)))


def _in_hours(end: datetime, lasting: timedelta, oven: timedelta, work: Work) -> datetime:
    """Return the latest end of some work, not after ``end``, that lies in hours of work.

    So does what is in the oven after it.
    """
    end = min(end, _at(end, work.day_ends) - oven)
    if end - lasting >= _at(end, work.day_starts):
        return end
    return _at(end - timedelta(days=1), work.day_ends) - oven


@dataclass(frozen=True, slots=True)
class _Forward:
    """How steps are moved up: not before ``earliest``, and not after their ``latest`` starts.

    ``in_order`` keeps the order of those; ``from_below`` does alike steps that can start at once
    from the bottom tier up.
    """

    by_key: Mapping[str, Step]
    latest: Mapping[str, datetime]
    ready: datetime
    work: Work
    in_order: bool
    from_below: bool = False

    def starts(self) -> dict[str, datetime]:
        """Return starts, one step after the other, each as soon as it can be.

        Of steps that can start at once one like the last comes first.
        """
        starts: dict[str, datetime] = {}
        hands, last, oven = _LONG_AGO, "", _LONG_AGO
        rank = {
            key: position
            for position, key in enumerate(sorted(self.latest, key=self.latest.__getitem__))
        }
        waiting = TopologicalSorter(
            {key: [each for each, _ in _before(self.by_key[key], self.by_key)] for key in rank}
        )
        waiting.prepare()
        opens: dict[str, datetime] = {}
        while waiting.is_active():
            opens |= {key: self._opens(key, starts) for key in waiting.get_ready()}
            can = [min(opens, key=rank.__getitem__)] if self.in_order else list(opens)
            soonest = {
                key: self._soonest(key, max(hands, opens[key], self._in_time_for(key, oven)))
                for key in can
            }
            key = min(
                soonest,
                key=lambda each: (soonest[each], self.by_key[each].stage != last, rank[each]),
            )
            if self.from_below:
                key = self._lowest_like(key, soonest)
            starts[key], step = soonest[key], self.by_key[key]
            del opens[key]
            waiting.done(key)
            if step.place == "kitchen":
                hands, last = starts[key] + _lasting(step), step.stage
            if step.stage in IN_OVEN:
                oven = starts[key] + _lasting(step) + _in_oven(step, self.work)
        return starts

    def _in_time_for(self, key: str, oven: datetime) -> datetime:
        """Return from when on a step ends once the oven is free, if it needs it."""
        step = self.by_key[key]
        return oven - _lasting(step) if step.stage in IN_OVEN else _LONG_AGO

    def _lowest_like(self, key: str, soonest: Mapping[str, datetime]) -> str:
        """Return of the steps alike to one, which can start as soon, that of the lowest tier."""
        stage, start = self.by_key[key].stage, soonest[key]
        alike = {
            each for each in soonest if self.by_key[each].stage == stage and soonest[each] == start
        }
        return next(each for each in self.by_key if each in alike)

    def _opens(self, key: str, starts: Mapping[str, datetime]) -> datetime:
        """Return from when a step can start, on its day or the day before, whoever has hands."""
        step, latest = self.by_key[key], self.latest[key]
        waited = [
            starts[before] + _lasting(self.by_key[before]) + waits
            for before, waits in _before(step, self.by_key)
        ]
        if step.keeps is not None:
            waited.append(min(latest, self.ready - timedelta(hours=step.keeps)))
        day = latest - timedelta(days=1) if step.stage in DAY_SOONER else latest
        return max([_at(day, self.work.day_starts), *waited])

    def _soonest(self, key: str, opens: datetime) -> datetime:
        """Return when a step can start that can from some time on: in the kitchen, in its hours."""
        step, latest = self.by_key[key], self.latest[key]
        if step.place != "kitchen":
            return latest
        start = _in_day(opens, step, self.work)
        return min(start, latest) if self.in_order else start


def _moved_up(
    found: Sequence[Step], latest: Mapping[str, datetime], ready: datetime, work: Work
) -> dict[str, datetime]:
    """Return starts as early as the days of the latest ones allow, none after those.

    What can start first is done first, of like steps those of the lowest tier; where that makes
    another too late, those that are needed first, and where that does too, all keep the order of
    their latest starts.
    """
    by_key = {step.key: step for step in found}
    for from_below in (True, False):
        starts = _Forward(by_key, latest, ready, work, False, from_below).starts()
        if all(starts[key] <= latest[key] for key in latest):
            return starts
    return _Forward(by_key, latest, ready, work, in_order=True).starts()


def _in_day(start: datetime, step: Step, work: Work) -> datetime:
    """Return the first start, not before ``start``, of a step that lies in hours of work.

    So does what is in the oven after it.
    """
    lasting, oven = _lasting(step), _in_oven(step, work)
    while True:
        start = _up(start, work.round_to)  # which may be midnight
        start = max(start, _at(start, work.day_starts))
        if start + lasting + oven > _at(start, work.day_ends):
            start = _at(start + timedelta(days=1), work.day_starts)
            continue
        clash = [stop for begin, stop in _meals(start, step, work) if begin < start + lasting]
        if not clash or start >= clash[0]:
            return start
        start = clash[0]


def _lasting(step: Step) -> timedelta:
    return timedelta(minutes=step.minutes)


def _at(day: datetime, hour: float) -> datetime:
    """Return an hour of a day, up to 24."""
    return datetime.combine(day.date(), time()) + timedelta(hours=hour)


def _down(moment: datetime, minutes: int) -> datetime:
    """Return a time rounded down to so many minutes."""
    past = timedelta(minutes=moment.minute % minutes, seconds=moment.second)
    return moment - past - timedelta(microseconds=moment.microsecond)


def _up(moment: datetime, minutes: int) -> datetime:
    down = _down(moment, minutes)
    return down if down == moment else down + timedelta(minutes=minutes)


def schedule_warnings(timed: Sequence[Timed], work: Work) -> tuple[str, ...]:
    """Return what a decorator has to know of the times: what is too early, what has no hour."""
    return (*_too_early(timed), *_too_soon_in_the_day(timed, work))


def _too_early(timed: Sequence[Timed]) -> Iterable[str]:
    for each in timed:
        if each.start is None or each.earliest is None or each.start >= each.earliest:
            continue
        step = each.step
        late = (each.earliest - each.start).total_seconds() / 3600
        days = decimal((step.keeps or 0) / 24)
        keeps = f"{days} {'day' if days == '1' else 'days'}"
        yield (
            f"{step.key} is {decimal(late, 0)} h too early: it keeps {keeps} (our estimate). Freeze"
            " what can be frozen, choose a filling that keeps, set fewer spare_days, or leave out"
            " what dries long."
        )


def _too_soon_in_the_day(timed: Sequence[Timed], work: Work) -> Iterable[str]:
    for each in timed:
        if each.step.place == "kitchen" or each.start is None:
            continue
        opens = _at(each.start, work.day_starts)
        if each.start < opens:
            yield (
                f"{each.step.key} starts at {each.start:%H:%M}, before your day does at"
                f" {opens:%H:%M}: the cake is ready too early in the day for its journey."
            )
            return
