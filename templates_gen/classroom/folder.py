"""The files of a class: a folder for each person, all sheets to print at once, what to buy."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from templates_gen.bench.shopping import as_csv
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.classroom.making import Made
from templates_gen.classroom.register import register
from templates_gen.classroom.shopping import class_shopping


def name_of_all(paper: str) -> str:
    """Return the name of the file with all pages on a paper."""
    return f"all-{file_name(slug(paper))}.pdf"


def class_files(name: str, made: Sequence[Made]) -> Iterator[tuple[str, bytes]]:
    """Yield each file of the class by its name: packs in a folder each, one PDF for each paper.

    The list of what to buy has the unit of the first cake first.
    """
    from templates_gen.classroom.joined import joined_pdf  # a large library, for classes alone

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
        yield name_of_all(paper), joined_pdf(name, packs)
    yield "register.csv", register(made)
    yield "shopping.csv", as_csv(class_shopping(made), made[0].lists.terms)
