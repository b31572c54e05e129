"""The command ``class``: one design, and a pack for each person of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from templates_gen.bench.shopping import as_csv
from templates_gen.cakefile.files import content_of
from templates_gen.cakefile.overrides import overridden
from templates_gen.cakefile.reading import checked, parse_data, read_text
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.classroom.making import Made, make
from templates_gen.classroom.orders import Student, listed, orders, students
from templates_gen.classroom.register import register
from templates_gen.classroom.roster import LARGEST_LIST, Roster, RosterSource, read_roster
from templates_gen.classroom.shopping import class_shopping, hours
from templates_gen.cli import plain
from templates_gen.cli.output import write_all
from templates_gen.cli.progress import Progress
from templates_gen.cli.reading import Overrides, with_cake_file
from templates_gen.errors import CakeError, FileError
from templates_gen.sheets.furniture import REMINDER
from templates_gen.units import counted, decimal


@click.command("class")
@with_cake_file
@click.argument("class_file", metavar="CLASS.csv", type=click.Path(path_type=Path))
@click.option(
    "--out",
    metavar="DIR",
    type=click.Path(path_type=Path),
    help="Folder for the files. Default: one named after the list.",
)
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
    value by tier and key such as bottom.size. An empty cell keeps what the cake file says.
    """
    file = read_text(cake_file)
    data = parse_data(file)
    if overrides:
        data, _ = overridden(data, overrides)
    checked(data, file)
    roster = _roster(class_file)
    source = RosterSource(class_file.name)
    found = list(students(roster.people, data, file, source))
    errors = [CakeError(roster.problems, source)] if roster.problems else []
    errors += [each for each in found if isinstance(each, CakeError)]
    made, more = _made([each for each in found if isinstance(each, Student)])
    errors += more
    if errors and (not skip_faulty or not made):
        raise listed(errors)
    folder = out or Path(file_name(slug(class_file.stem, "class")))
    files = {folder / name: content for name, content in _files(class_file.stem, made)}
    write_all(files)
    _report(made, folder, errors)


def _roster(file: Path) -> Roster:
    try:
        content = content_of(file, LARGEST_LIST + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise FileError(f"{file} cannot be read: {reason}. Check the name and the folder") from None
    return read_roster(content, file.name)


def _made(found: Sequence[Student]) -> tuple[list[Made], list[CakeError]]:
    """Return what was made, in the order of the class, and what could not be."""
    made: dict[int, Made] = {}
    errors: dict[int, CakeError] = {}
    with Progress(len(found)) as progress:
        for order, answer in make(orders(found)):
            for index, student in enumerate(order.students):
                row = student.person.row
                if isinstance(answer, CakeError):
                    errors[row] = answer.located(student.source)
                else:
                    made[row] = answer[index]
                progress.step()
    return [made[row] for row in sorted(made)], [errors[row] for row in sorted(errors)]


def _files(name: str, made: Sequence[Made]) -> Iterator[tuple[str, bytes]]:
    """Yield each file of the class by its name: packs in a folder each, one PDF for each paper."""
    from templates_gen.classroom.joined import joined_pdf

    by_paper: dict[str, list[tuple[str, bytes]]] = {}
    for each in made:
        person = each.student.person.name
        folder = file_name(slug(person))
        for sheets in each.printed:
            stem = file_name(sheets.name)
            yield f"{folder}/{stem}.pdf", sheets.pdf
            yield f"{folder}/{stem}.json", sheets.manifest
            by_paper.setdefault(sheets.paper, []).append((person, sheets.pdf))
    for paper, packs in by_paper.items():
        yield f"all-{file_name(slug(paper))}.pdf", joined_pdf(name, packs)
    yield "register.csv", register(made)
    yield "shopping.csv", as_csv(class_shopping(made))


def _report(made: Sequence[Made], folder: Path, errors: Sequence[CakeError]) -> None:
    """Say who has how many pages, and who was left out."""
    for each in made:
        pages = ", ".join(f"{counted(s.sheets, 'page')} ({s.paper})" for s in each.printed)
        click.echo(f"{each.student.person.name}: {pages}")
        for warning in each.warnings:
            click.echo(f"  Please check: {warning}")
    papers = sorted({sheets.paper for each in made for sheets in each.printed})
    joined = ", ".join(f"all-{file_name(slug(paper))}.pdf" for paper in papers)
    click.echo(
        f"{folder}: a folder for each person, {joined} to print at once, register.csv,"
        f" shopping.csv for all. {decimal(hours(made), 1)} hours of work together."
    )
    if errors:
        click.echo(f"\nLeft out:\n{listed(errors)}", err=True)
    click.echo(plain(REMINDER))


COMMANDS = {"class": class_packs}
