"""The command ``figures``: every dimension of a cake."""

from __future__ import annotations

import json

import click

from templates_gen.bench.figures import figures as all_figures
from templates_gen.bench.figures import figures_table
from templates_gen.cli.reading import Overrides, echo_table, located, read, with_cake_file
from templates_gen.plan import make_plan


@click.command()
@with_cake_file
@click.option("--json", "as_json", is_flag=True, help="Write JSON, lengths in mm.")
def figures(cake_file: str, overrides: Overrides, as_json: bool) -> None:
    """List every dimension of a cake in mm and inches."""
    cake, source = read(cake_file, overrides)
    with located(source):
        plan = make_plan(cake)
        found = all_figures(plan)
    if as_json:
        click.echo(json.dumps(found, indent=1, allow_nan=False))
    else:
        echo_table(figures_table(found, plan.terms))
