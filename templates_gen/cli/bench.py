"""The command ``bench``: what to cut, to weigh and to do, and when."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import click

from templates_gen.bench.bench_list import bench as bench_list
from templates_gen.bench.report import bench_table
from templates_gen.bench.schedule import order_of_work
from templates_gen.bench.steps import steps
from templates_gen.cli.output import write_all
from templates_gen.cli.reading import (
    Overrides,
    echo_table,
    located,
    read,
    with_cake_file,
)
from templates_gen.errors import CakeError
from templates_gen.plan import Plan, make_plan


@click.command()
@with_cake_file
@click.option("--json", "as_json", is_flag=True, help="Write JSON, lengths in mm, masses in g.")
@click.option(
    "--calendar",
    metavar="FILE.ics",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Also write the schedule to this file, as a calendar (iCalendar).",
)
@click.option(
    "--shopping",
    metavar="FILE.csv",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Also write the shopping list to this file, as CSV.",
)
@click.option(
    "--plan",
    metavar="FILE.html",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Also write the plan by day to this file, a page to print with boxes to tick.",
)
def bench(
    cake_file: str,
    overrides: Overrides,
    as_json: bool,
    calendar: Path | None,
    shopping: Path | None,
    plan: Path | None,
) -> None:
    """List what to cut, weigh and do, and when.

    Times are counted back from the day and time in the cake file: ready under [work].
    """
    places = [place for place in (calendar, shopping, plan) if place is not None]
    if len(set(map(Path.absolute, places))) < len(places):
        raise click.UsageError("--calendar, --shopping and --plan need a file each")
    cake, source = read(cake_file, overrides)
    with located(source):
        made = make_plan(cake)
        found = bench_list(made)
        files = {
            path: content(made, found)
            for path, content in ((calendar, _calendar), (shopping, _shopping), (plan, _day_plan))
            if path is not None
        }
    if files:
        write_all(files)
    if as_json:
        click.echo(json.dumps(found, indent=1, allow_nan=False))
    else:
        echo_table(bench_table(found, made.terms))


def _day_plan(plan: Plan, found: dict[str, Any]) -> bytes:
    from templates_gen.bench.day_plan import as_html

    return as_html(found, plan.terms).encode()


def _shopping(plan: Plan, found: dict[str, Any]) -> bytes:
    from templates_gen.bench.shopping import as_csv, shopping

    return as_csv(shopping(found, plan.estimates, plan.prices, plan.terms.place), plan.terms)


def _calendar(plan: Plan, found: dict[str, Any]) -> bytes:
    """Return the order of work as a calendar. Raises CakeError without a day."""
    if plan.work.ready is None:
        allowed = "the day and hour at which the cake must be ready"
        advice = "write under [work]: ready = 2027-06-19 14:00:00"
        raise CakeError.at(("work", "ready"), "nothing", allowed, advice)
    from templates_gen.bench.calendar import calendar

    times = order_of_work(steps(plan), plan.work)
    return calendar(plan.title, plan.work.ready, times, plan.work.alarm, plan.terms)


COMMANDS = {"bench": bench}
