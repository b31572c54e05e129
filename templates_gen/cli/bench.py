"""The command ``bench``: what to cut, to weigh and to do, and when."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

from templates_gen.bench.bench_list import bench as bench_list
from templates_gen.bench.report import bench_table
from templates_gen.cli.output import write_all
from templates_gen.cli.reading import Overrides, echo_table, located, read, with_cake_file
from templates_gen.plan import Plan, make_plan


def _also(name: str, file: str, what: str, how: str) -> Callable[..., Any]:
    """Return the option of a further file that is written."""
    place = click.Path(path_type=Path, dir_okay=False)
    said = f"Also write the {what} to this file, {how}."
    return click.option(name, metavar=file, type=place, help=said)


@click.command()
@with_cake_file
@click.option("--json", "as_json", is_flag=True, help="Write JSON, lengths in mm, masses in g.")
@_also("--calendar", "FILE.ics", "schedule", "as a calendar (iCalendar)")
@_also("--shopping", "FILE.csv", "shopping list", "as CSV")
@_also("--plan", "FILE.html", "plan by day", "a page to print with boxes to tick")
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

    return as_csv(shopping(found, plan.stack.estimates, plan.prices, plan.terms.place), plan.terms)


def _calendar(plan: Plan, found: dict[str, Any]) -> bytes:
    from templates_gen.bench.calendar import calendar

    return calendar(plan)
