"""The command ``keys``: what every key of the cake file is for."""

from __future__ import annotations

import json
import shutil
import textwrap

import click

from templates_gen.cakefile.reference import Data, lines, named, reference
from templates_gen.cakefile.spelling import hint

INDENT = 4
WIDEST = 100
"""Characters in a line, at most."""


@click.command()
@click.argument("table", required=False)
@click.option("--json", "as_json", is_flag=True, help="Write JSON.")
def keys(table: str | None, as_json: bool) -> None:
    """Explain the keys of the cake file, all of them or one table.

    TABLE is a name such as drips or tier.drips; top has the keys outside tables.
    """
    found = _chosen(table)
    if as_json:
        click.echo(json.dumps(found, indent=1, ensure_ascii=False))
    else:
        click.echo("\n\n".join(_text(each) for each in found))


def _chosen(table: str | None) -> list[Data]:
    every = reference()
    if table is None:
        return every
    chosen = named(every, table)
    if not chosen:
        names = [each["table"] for each in every]
        suggestion = hint(table, [*names, *(name.split(".")[-1] for name in names)])
        question = f" {suggestion[:1].upper()}{suggestion[1:]}" if suggestion else ""
        message = f"There is no table “{table}”.{question} The tables: {', '.join(names)}."
        raise click.BadParameter(message, param_hint="TABLE")
    return chosen


def _text(table: Data) -> str:
    width = min(shutil.get_terminal_size().columns, WIDEST)
    return "\n".join(
        textwrap.fill(
            text,
            width,
            initial_indent=" " * INDENT * step,
            subsequent_indent=" " * INDENT * step,
            break_long_words=False,
            break_on_hyphens=False,
        )
        for step, text in lines(table)
    )
