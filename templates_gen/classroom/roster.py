"""The list of a class: a CSV file with a row for each person, as spreadsheets write it."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from templates_gen.cakefile.overrides import Override
from templates_gen.cakefile.rules import clip, unprintable
from templates_gen.cakefile.slug import alike, file_name, slug
from templates_gen.errors import FileError, Key, Problem
from templates_gen.spreadsheet import plain

LARGEST_LIST = 500_000
"""Bytes of a list that are read at the most."""
MOST_PEOPLE = 200
LONGEST_NAME = 40
NAME = "name"
ROW, LINE = "row", "line"
"""What a person has in a spreadsheet, and in a text with a name on each line."""
DELIMITERS = ",;\t"
"""What spreadsheets put between the cells, by language and by choice."""
USUAL_WORDS = {
    **dict.fromkeys(("student", "pupil", "learner", "participant", "person", "full name"), NAME),
    **dict.fromkeys(("cake", "cake title"), "title"),
    **dict.fromkeys(("paper size", "page size"), "paper"),
    "units": "unit",
}
"""Other headings that people write, none of them a key of the cake, and what each stands for."""
WESTERN = "cp1252"
"""The older encoding of Windows in the West, in which Excel saves plain CSV."""

_ACCENTED = "ŠŒŽšœžŸÀ-ÖØ-öø-ÿ"
_WESTERN = re.compile(rf"[\t\n\r -~{_ACCENTED}€£…‘’–—°¼½¾×]*")
"""Text in Western languages: no control characters but line ends and tabs, and no rare signs."""
_OTHER = re.compile(
    rf"[a-zß-öø-ÿšœž][ŠŒŽŸÀ-ÖØ-Þ]|[{_ACCENTED}]{{3}}"
    rf"|(?<![A-Za-z])[{_ACCENTED}]{{2}}(?![A-Za-z])"
)
"""What texts of other encodings look like in this one: a capital within a word, accents alone."""
_LISTED = re.compile(r"^\s*(?:\d{1,3}[.)]|[-–•*·])\s+(?=\S)")
"""What stands before a line of a list."""


@dataclass(frozen=True, slots=True)
class Person:
    """One row: who it is for, and what is set for them.

    ``row`` counts as a spreadsheet does, the heading being row 1.
    """

    row: int
    name: str
    overrides: tuple[Override, ...]


@dataclass(frozen=True, slots=True)
class RosterSource:
    """A list called ``name`` as a source: a key is a row, and its column where that is known.

    Of names that were typed one on each line the ``rows`` are called lines, and have no columns.
    """

    name: str
    rows: str = ROW

    def where(self, key: Key) -> str:
        """Name file, row and column; of names the line."""
        row, *column = key
        if self.rows == LINE:
            return f"Line {row} of the {self.name}"
        return f"{self.name}, row {row}" + "".join(f", column {each}" for each in column)


@dataclass(frozen=True, slots=True)
class Roster:
    """The people of a list, and its problems, each with the key (row, column).

    ``note`` says what to check where it is not certain how the list was saved.
    """

    people: tuple[Person, ...]
    problems: tuple[Problem, ...]
    note: str = ""


def read_roster(content: bytes, name: str) -> Roster:
    """Return the people of a CSV file called ``name``.

    Raises FileError for what is not such a list at all; wrong rows are among the problems.
    """
    text, encoding = _decoded(content, name)
    rows = list(_rows(text, name))
    if not rows:
        raise FileError(f"{name} is empty: it needs a row of headings, name first, and a row each")
    written = [cell.strip() for _, cell in _numbered(rows[0])]
    heading = _as_usual(written)
    _check_heading(heading, name)
    people, problems = _people(enumerate(rows[1:], 2), heading, ROW)
    if len(people) > MOST_PEOPLE:
        raise FileError(f"{name} has {len(people)} people; a class has {MOST_PEOPLE} at the most")
    if not people and not problems:
        raise FileError(f"{name} has headings and no people: write a row for each, below them")
    note = _to_check(rows, name) if encoding == WESTERN else ""
    called = written[_name_column(heading)]
    placed = (replace(each, key=_with(each.key, called)) for each in problems)
    return Roster(tuple(people), tuple(placed), note)


def _with(key: Key, called: str) -> Key:
    """Return the key of a problem with what the list calls the column of names."""
    return tuple(called if each == NAME else each for each in key)


def _to_check(rows: Iterable[Sequence[str]], name: str) -> str:
    """Say how a list was read, with the first texts that are wrong if it was saved otherwise."""
    found = dict.fromkeys(cell.strip() for row in rows for cell in row if not cell.isascii())
    said = ", ".join(f"“{clip(cell)}”" for cell in list(found)[:3])
    return (
        f"{name} is not UTF-8, so it was read in the older encoding of Windows. Check that this is"
        f" right: {said}. If not, save it as CSV UTF-8"
    )


def _as_usual(heading: Sequence[str]) -> list[str]:
    """Return headings with usual words for those that a list has, unless it has these too."""
    lower = {each.casefold() for each in heading}
    usual = (USUAL_WORDS.get(each.casefold(), each) for each in heading)
    return [each if new in lower else new for each, new in zip(heading, usual, strict=True)]


def read_names(text: str, name: str, headings: Sequence[str] = ()) -> Roster:
    """Return the people of a text called ``name`` with a name on each line, or all on one.

    Numbers or bullets before all of them, as a word processor has them, are no part of a name.
    Each gets their name as the value of ``headings`` too. Rows that were copied out of a list with
    headings are read as that list; what it has under one of the ``headings`` counts. Raises
    FileError where there are no names.
    """
    lines = text.splitlines()
    first, *_ = re.split(f"[{DELIMITERS}]", lines[0] if lines else "")
    if _as_usual([first.strip()])[0].casefold() == NAME:
        roster = read_roster(text.encode(), name)
        return replace(roster, people=tuple(_with_name(each, headings) for each in roster.people))
    if len(text.strip().splitlines()) == 1:
        lines = re.split(f"[{DELIMITERS}]", text.strip())
    if all(_LISTED.match(line) for line in lines if line.strip()):
        lines = [_LISTED.sub("", line) for line in lines]
    people, problems = _people(enumerate(([line] for line in lines), 1), [NAME], LINE)
    if not people and not problems:
        raise FileError("there are no names: write one on each line")
    return Roster(tuple(_with_name(each, headings) for each in people), tuple(problems))


def _people(
    numbered: Iterable[tuple[int, Sequence[str]]], heading: Sequence[str], rows: str
) -> tuple[list[Person], list[Problem]]:
    """Return the people listed, and the problems of rows with a mistake; empty rows are skipped."""
    people: list[Person] = []
    problems: list[Problem] = []
    taken: dict[str, int] = {}
    for number, cells in numbered:
        if any(cell.strip() for cell in cells):
            found = list(_row_problems(number, cells, heading, taken, rows))
            problems += found
            if not found:
                people.append(_person(number, cells, heading))
    return people, problems


def _with_name(person: Person, headings: Iterable[str]) -> Person:
    """Return a person with their name as the value of headings that have none yet."""
    given = {each.name.casefold() for each in person.overrides}
    more = (Override(key, person.name) for key in headings if key.casefold() not in given)
    return replace(person, overrides=(*person.overrides, *more))


def _numbered(cells: Sequence[str]) -> Iterator[tuple[int, str]]:
    """Yield the cells of a heading; empty ones at its end are left out."""
    last = max((index for index, cell in enumerate(cells) if cell.strip()), default=-1)
    yield from enumerate(cells[: last + 1])


def _decoded(content: bytes, name: str) -> tuple[str, str]:
    """Return a list as text, and the encoding it is in."""
    if len(content) > LARGEST_LIST:
        raise FileError(f"{name} is larger than {LARGEST_LIST // 1000} kB; a list of people is not")
    if content.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise FileError(f"{name} is a workbook: save it as CSV (UTF-8) and give that file")
    if content.startswith((b"\xff\xfe", b"\xfe\xff")):
        return content.decode("utf-16", "replace"), "utf-16"
    try:
        return content.decode("utf-8-sig"), "utf-8"
    except UnicodeDecodeError as error:
        text = content.decode(WESTERN, "replace")
        if _WESTERN.fullmatch(text) and not _OTHER.search(text):
            return text, WESTERN
        line = content.count(b"\n", 0, error.start) + 1
        raise FileError(f"{name}, row {line}: not UTF-8 text. Save it as CSV UTF-8") from None


def _rows(text: str, name: str) -> Iterator[list[str]]:
    """Yield the rows of a CSV text, whichever sign its heading puts between cells."""
    text = text.replace("\0", "\ufffd")
    heading = text.split("\n", 1)[0]
    delimiter = max(DELIMITERS, key=lambda sign: (heading.count(sign), sign == ","))
    try:
        yield from csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    except csv.Error as error:
        raise FileError(f"{name} is no CSV file: {error}. A quote is never closed?") from None


def _check_heading(heading: Sequence[str], name: str) -> None:
    """Raise FileError for headings that are missing or there twice."""
    lower = [each.casefold() for each in heading]
    if NAME not in lower:
        headings = ", ".join(heading)[:80]
        raise FileError(
            f"{name}, row 1: no heading “name” among “{headings}”. The first row names the columns,"
            " such as: name,paper,unit,bottom.size"
        )
    for each in heading:
        if not each:
            raise FileError(f"{name}, row 1: a column without a heading between others")
        if lower.count(each.casefold()) > 1:
            raise FileError(f"{name}, row 1: the heading “{each[:40]}” is there twice")


def _row_problems(
    row: int, cells: Sequence[str], heading: Sequence[str], taken: dict[str, int], rows: str
) -> Iterator[Problem]:
    """Yield the problems of one row, and add its name to those taken; ``rows`` are called so."""
    if any(cell.strip() for cell in cells[len(heading) :]):
        yield Problem(
            (row,),
            f"{len(cells)} cells below {len(heading)} headings",
            "no more cells than headings",
            "put a value with a comma in quotes, or give the column a heading",
        )
        return
    name = _named(cells, heading)
    allowed = f"a name of up to {LONGEST_NAME} characters for each person"
    if len(name) > LONGEST_NAME:
        found = f"“{clip(name)}”, {len(name)} characters"
        yield Problem((row, NAME), found, allowed, "shorten it")
        return
    if not name:
        yield Problem((row, NAME), "no name", allowed, "write who the templates are for")
        return
    if rule := unprintable(name):
        yield Problem((row, NAME), rule.found, rule.allowed, rule.advice or "leave it out")
        return
    like = alike(file_name(slug(name)))
    if like in taken:
        found = f"“{name}”, as in {rows} {taken[like]}"
        different = "a different name for each person"
        yield Problem((row, NAME), found, different, "add a surname or an initial")
    taken.setdefault(like, row)


def _name_column(heading: Sequence[str]) -> int:
    return [each.casefold() for each in heading].index(NAME)


def _named(cells: Sequence[str], heading: Sequence[str]) -> str:
    column = _name_column(heading)
    return " ".join(cells[column].split()) if column < len(cells) else ""


def _person(row: int, cells: Sequence[str], heading: Sequence[str]) -> Person:
    """Return the person of a row; the unit is set first, so that it holds for all their numbers."""
    given = [
        Override(column, plain(cell.strip()))
        for column, cell in zip(heading, cells, strict=False)
        if cell.strip() and column.casefold() != NAME
    ]
    given.sort(key=lambda override: override.name.casefold() != "unit")
    return Person(row, _named(cells, heading), tuple(given))
