"""The order of work: every wait is kept, nothing is done at night or twice at a time."""

from __future__ import annotations

from datetime import datetime, timedelta
from itertools import pairwise

import pytest
import vobject
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.bench.calendar import calendar
from templates_gen.bench.schedule import LONGEST, Timed, longest_way, order_of_work, steps
from templates_gen.cakefile.model import Cake
from templates_gen.cakefile.work import Work
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.panels import panel_row
from templates_gen.plan import Plan
from tests.cakes import cake, one_tier, sample
from tests.strategies import any_plans

READY = datetime(2027, 6, 19, 14)
DAYS = st.datetimes(datetime(2025, 1, 1), datetime(2035, 1, 1))


def with_work(made: Cake, ready: datetime, starts: int = 8, ends: int = 20) -> Cake:
    """Return a cake that must be ready at an hour."""
    work = Work(ready=ready, day_starts=starts, day_ends=ends)
    return made.model_copy(update={"work": work})


def times(made: Cake) -> tuple[Timed, ...]:
    """Return the order of work of a cake."""
    return order_of_work(build_stack(made), made.work)


@settings(max_examples=25)
@given(any_plans(), DAYS, st.integers(0, 12), st.integers(3, 12))
def test_kept(plan: Plan, ready: datetime, opens: int, hours: int) -> None:
    """Steps follow each other after their waits, in hours of work, one at a time, in time."""
    work = Work(ready=ready, day_starts=opens, day_ends=opens + hours)
    found = order_of_work(plan.stack, work)
    by_key = {each.step.key: each for each in found}
    for each in found:
        assert each.start is not None
        assert each.end is not None
        assert each.end + timedelta(hours=each.step.wait) <= ready
        midnight = each.start.replace(hour=0, minute=0, second=0, microsecond=0)
        assert each.start >= midnight + timedelta(hours=opens)
        assert each.end <= midnight + timedelta(hours=opens + hours)
        for key in each.step.after:
            before = by_key[key]
            assert before.end is not None
            assert before.end + timedelta(hours=before.step.wait) <= each.start
    for one, other in pairwise(found):
        assert one.end is not None
        assert other.start is not None
        assert one.end <= other.start


def test_waits_of_the_trade() -> None:
    """A cover sets overnight, royal icing 24 h before it is painted: common practice, no source."""
    lines = "[tier.drips]\n[tier.paint]\non = 'drips'"
    found = steps(build_stack(one_tier(lines)))
    waits = {step.name: step.wait for step in found}
    assert waits["drips"] == 24
    assert waits["cover"] >= 8
    names = [step.name for step in found]
    assert names == ["coat", "cover", "drips", "paint", "make ready", "stack", "finish"]


def test_durations_only() -> None:
    """Without a day there are durations and an order, and no hours."""
    found = times(sample("naming-day"))
    assert all(each.start is None and each.end is None for each in found)
    assert [each.step.name for each in found][-2:] == ["stack", "finish"]
    assert longest_way([each.step for each in found]) > 12


def test_only_what_carries_is_dowelled() -> None:
    """Each tier that carries another is dowelled, the top one is not."""
    found = steps(build_stack(sample("harbour-wedding")))
    assert [step.tier for step in found if step.name == "dowel"] == ["bottom", "second", "third"]


def test_as_late_as_can_be() -> None:
    """The last step ends when the cake must be ready, if that is within hours of work."""
    found = times(with_work(sample("naming-day"), READY))
    assert found[-1].end == READY
    evening = times(with_work(sample("naming-day"), READY.replace(hour=23)))
    assert evening[-1].end == READY.replace(hour=20)


def test_calendar_read_by_another_program() -> None:
    """Every step is an event of the calendar, at its hour, as vobject reads it."""
    made = with_work(sample("harbour-wedding"), READY)
    found = times(made)
    read = vobject.readOne(calendar(made.title, READY, found).decode())
    events = list(read.contents["vevent"])
    assert len(events) == len(found) > 10
    for event, each in zip(events, found, strict=True):
        assert event.dtstart.value == each.start
        assert event.dtend.value == each.end
        assert event.dtstart.value.tzinfo is None
        assert each.step.tier in event.summary.value
        assert each.step.words[1:] in event.description.value
    assert len({event.uid.value for event in events}) == len(events)
    assert calendar(made.title, READY, found) == calendar(made.title, READY, times(made))


@pytest.mark.parametrize(
    "written", ["2027-06-19T14:00:00", "2027-06-19 14:00:00", "'2027-06-19 14:00'"]
)
def test_ways_to_write_a_day(written: str) -> None:
    """A day and hour can be written as TOML has it, or as a text."""
    made = cake(f"[[tier]]\nsize='8 in'\ndepth='4 in'\n[work]\nready = {written}\n")
    assert made.work.ready == READY


def test_long_work_is_parted() -> None:
    """Some 200 moulded panels at 5 min each, and 20 min, are made in stretches of half a day."""
    made = one_tier("[tier.panels]\nrows = 4\nmould = '14 mm'\nheight = '20 mm'")
    found = steps(build_stack(made))
    parts = [step for step in found if step.name.startswith("panels")]
    (tier,) = build_stack(made).tiers
    assert tier.spec.panels is not None
    row = panel_row(tier, tier.spec.panels)
    assert sum(step.minutes for step in parts) == 20 + 5 * row.count * 4 > 900
    assert all(step.minutes <= LONGEST for step in parts)
    assert [step.after for step in parts[1:]] == [(step.key,) for step in parts[:-1]]
    assert len({step.key for step in found}) == len(found)
