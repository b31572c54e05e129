"""The order of work as a calendar (iCalendar, RFC 5545), in the decorator's own local time."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from icalendar import Alarm, Calendar, Event

from templates_gen.bench.schedule import Timed, order_of_work
from templates_gen.bench.steps import steps
from templates_gen.cakefile.slug import slug
from templates_gen.errors import CakeError
from templates_gen.plan import Plan
from templates_gen.units import waiting


def calendar(plan: Plan) -> bytes:
    """Return an iCalendar file with an event and an alarm for each step that has a time.

    Events have no time zone: they are at that hour wherever the decorator is. The same cake gives
    the same bytes, so what stands for the time of writing is the hour at which the cake is ready.
    Raises CakeError without a day.
    """
    if plan.work.ready is None:
        found = "the cake has no day yet, and a calendar is counted back from it"
        allowed = "the day and hour when the cake must be ready"
        advice = "add to the cake file, under [work]: ready = 2027-06-19 14:00:00"
        raise CakeError.at(("work", "ready"), found, allowed, advice)
    made = Calendar()
    made.add("prodid", "-//templates_gen//order of work//EN")
    made.add("version", "2.0")
    stamp = plan.work.ready.replace(tzinfo=UTC)
    for number, timed in enumerate(order_of_work(steps(plan), plan.work), 1):
        if timed.start is not None and timed.end is not None:
            made.add_component(_event(plan, number, timed, stamp))
    written: bytes = made.to_ical()
    return written


def _event(plan: Plan, number: int, timed: Timed, stamp: datetime) -> Event:
    step, title = timed.step, plan.title
    event = Event()
    event.add("uid", f"{slug(title)}-{number}-{slug(step.key)}@templates-gen")
    event.add("dtstamp", stamp)
    event.add("dtstart", timed.start)
    event.add("dtend", timed.end)
    summary = f"{title}: {step.tier}, {step.name}"
    event.add("summary", summary)
    wait = f"Then wait {waiting(step.wait)}." if step.wait else ""
    said = " ".join(filter(None, (step.words, step.caution, wait)))
    event.add("description", plan.terms.text(said))
    event.add_component(_alarm(summary, plan.work.alarm))
    return event


def _alarm(summary: str, rings: int) -> Alarm:
    """Return an alarm that shows what is next a little before it."""
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", summary)
    alarm.add("trigger", timedelta(minutes=-rings))
    return alarm
