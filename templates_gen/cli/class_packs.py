"""The command ``class``: one design, and a pack for each person of a list."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from templates_gen.cakefile.files import content_of, reason
from templates_gen.cakefile.overrides import overridden
from templates_gen.cakefile.reading import checked, parse_data, read_text
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.classroom.folder import class_files
from templates_gen.classroom.making import Made, make_all
from templates_gen.classroom.orders import divided, listed
from templates_gen.classroom.roster import LARGEST_LIST, Roster, RosterSource, read_roster
from templates_gen.classroom.shopping import hours
from templates_gen.cli import plain
from templates_gen.cli.output import spared, write_all
from templates_gen.cli.params import folder_option
from templates_gen.cli.progress import Progress
from templates_gen.cli.reading import Overrides, spare, with_cake_file
from templates_gen.errors import CakeError, FileError
from templates_gen.sheets.print_check import REMINDER
from templates_gen.units import hours as in_hours


@click.command("class")
@with_cake_file
@click.argument("class_file", metavar="CLASS.csv", type=click.Path(path_type=Path))
@folder_option("list")
@click.option(
    "--skip-faulty",
    is_flag=True,
    help="Leave out people whose cake cannot be made, and make the others' packs.",
)
def class_packs(
    cake_file: str, overrides: Overrides, class_file: Path, out: Path | None, *, skip_faulty: bool
) -> None:
    """Make a pack for each person of a class, from one design.

    CLASS.csv has headings and a row for each person: name, and any of paper, unit, title, or a
    value by tier and key such as bottom.size. An empty cell keeps what the cake file says. Student
    for name and cake for title are understood too.
    """
    file = read_text(cake_file)
    data = parse_data(file)
    if overrides:
        data, _ = overridden(data, overrides)
    spare(checked(data, file), file.folder, file.name)
    spared(class_file)
    roster = _roster(class_file)
    if roster.note:
        click.echo(f"Please check: {roster.note}.")
    able, errors = divided(roster, data, file, RosterSource(class_file.name))
    with Progress(len(able)) as progress:
        made, more = make_all(able, progress.step)
    errors += more
    if errors and (not skip_faulty or not made):
        raise listed(errors)
    folder = out or Path(file_name(slug(class_file.stem, "class")))
    files = {folder / name: content for name, content in class_files(class_file.stem, made)}
    write_all(files)
    _report(made, folder, errors)


def _roster(file: Path) -> Roster:
    try:
        content = content_of(file, LARGEST_LIST + 1)
    except (OSError, ValueError) as error:
        raise FileError(
            f"{file} cannot be read: {reason(error)}. Check the name and the folder"
        ) from None
    return read_roster(content, file.name)


def _report(made: Sequence[Made], folder: Path, errors: Sequence[CakeError]) -> None:
    """Say who has how many pages, and who was left out."""
    for each in made:
        pages = ", ".join(s.said for s in each.printed)
        click.echo(f"{each.student.person.name}: {pages}")
        for warning in each.lists.warnings:
            click.echo(f"  Please check: {warning}")
    papers = sorted({sheets.paper for each in made for sheets in each.printed})
    joined = ", ".join(f"all-{file_name(slug(paper))}.pdf" for paper in papers)
    click.echo(
        f"{folder}: a folder for each person, {joined} to print at once, register.csv,"
        f" shopping.csv for all. {in_hours(hours(made))} of work together."
    )
    if errors:
        click.echo(f"\nLeft out:\n{listed(errors)}", err=True)
    click.echo(plain(REMINDER))
