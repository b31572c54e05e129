"""The command ``check``: every problem and warning, without writing anything."""

from __future__ import annotations

import os
from pathlib import Path

import click

from templates_gen.bench.doubts import warnings
from templates_gen.cakefile.printer_store import printer_named
from templates_gen.cli.journal import unsettled
from templates_gen.cli.pack_folder import check_folder, settled
from templates_gen.cli.params import PAPERS, PRINTER
from templates_gen.cli.reading import (
    Overrides,
    echo_warnings,
    located,
    read,
    with_cake_file,
    with_options,
)
from templates_gen.cover.pack import make_packs
from templates_gen.errors import FileError
from templates_gen.plan import make_plan


@click.command()
@with_cake_file
@PAPERS
@PRINTER
def check(
    cake_file: str, overrides: Overrides, papers: tuple[str, ...], printer: str | None
) -> None:
    """List the errors and warnings of a cake file, or of a pack's folder.

    The exit status is 0 if the cake can be made, with or without warnings. Nothing is written.

    For the folder of a pack, say whether every file is there and unchanged. What an interrupted
    run left half done is finished or undone first.
    """
    if os.path.isdir(cake_file):  # noqa: PTH112 (a path may not be looked at: Path raises there)
        _check_folder(Path(cake_file))
        return
    cake, source = read(cake_file, overrides)
    with located(with_options(source, paper=papers, printer=printer)):
        plan = make_plan(cake)
        found = printer_named(printer or plan.printer)
        packs = make_packs(plan, papers or [plan.paper], printer=found)
    echo_warnings(warnings(plan), source)
    for made in packs:
        click.echo(f"Ready: {cake.title}, {made.extent}.")


def _check_folder(folder: Path) -> None:
    try:
        broken_off = unsettled(folder)
    except OSError as error:
        raise FileError(f"{folder} cannot be read: {error.strerror}") from None
    if broken_off:
        settled(folder)
        click.echo(f"An earlier run was interrupted in {folder}; it has now been put right.")
    for line in check_folder(folder):
        click.echo(line)
