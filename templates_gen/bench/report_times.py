"""The order of work in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import groupby

from templates_gen.bench.section import TIMES, Data, Row, Section
from templates_gen.terms import DAYS, MONTHS
from templates_gen.units import counted, hours, waiting


def times(found: Data) -> Section:
    """Return the steps of the work in their order, and what to know of their times."""
    steps = found["times"]
    rows = tuple(
        (_day_of(each), each["tier"], _says(each), _takes(each), _latest(each)) for each in steps
    )
    cautions = dict.fromkeys(_caution(each) for each in steps if each["caution"])
    says = (
        *cautions,
        f"{hours(found['hours_of_work'])} of work in all, one pair of hands"
        f"{', without the time in the oven' if found['baking'] else ''}. Minutes of work are"
        " estimates, waiting times are common practice.",
    )
    columns = ("when", "tier", "what", "takes", "latest start" if steps[0]["latest"] else "")
    return Section(
        TIMES,
        columns,
        rows,
        tuple(found["time_warnings"]),
        says,
        brief=_brief(steps, order_of_tiers(found)),
    )


def order_of_tiers(found: Data) -> tuple[str, ...]:
    """Return the names of all tiers of a bench list as data, from the bottom up."""
    return tuple(each["what"] for each in found["carrying"])


def named(steps: Iterable[Data], order: Sequence[str]) -> str:
    """Name the tiers of some steps from the bottom up, and before them what belongs to none."""
    rank = {tier: place for place, tier in enumerate(order)}
    return ", ".join(sorted({step["tier"]: None for step in steps}, key=lambda x: rank.get(x, -1)))


def _brief(times: Sequence[Data], order: Sequence[str]) -> tuple[Row, ...]:
    """Return a row for the steps of one stage that follow each other on a day."""
    rows: list[Row] = [("when", "what", "takes")]
    for (_, stage), each in groupby(times, lambda step: (step["days_before"], step["stage"])):
        steps = list(each)
        takes = hours(sum(step["minutes"] for step in steps) / 60)
        rows.append((_day_of(steps[0]), f"{stage.capitalize()}: {named(steps, order)}", takes))
    return tuple(rows)


def _caution(each: Data) -> str:
    return f"{each['stage'].capitalize()}: {each['caution']}"


def _day_of(each: Data) -> str:
    """Write when a step starts, or without a day how many days before that of the cake."""
    if each["start"]:
        return _when(each["start"])
    return f"{counted(each['days_before'], 'day')} before" if each["days_before"] else "on the day"


def _latest(each: Data) -> str:
    return _when(each["latest"]) if each["latest"] else ""


def _when(start: str) -> str:
    """Write a day and hour in whatever language the computer has: ``Fri 18 Jun 16:50``."""
    when = datetime.fromisoformat(start)
    day, month = DAYS[when.weekday()][:3], MONTHS[when.month - 1][:3]
    return f"{day} {when.day} {month} {when:%H:%M}"


def _says(each: Data) -> str:
    return f"{each['step'].capitalize()}: {each['what']}"


def _takes(each: Data) -> str:
    wait = f", then wait {waiting(each['wait_h'])}" if each["wait_h"] else ""
    return f"{hours(each['minutes'] / 60)}{wait}"
