"""From a design and a list of people to the cakes that have to be made, each once."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Protocol

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.digest import digest
from templates_gen.cakefile.overrides import Override, overridden
from templates_gen.cakefile.reading import cake_from
from templates_gen.classroom.roster import Person, Roster, RosterSource
from templates_gen.errors import CakeError, Key, Problem, Source
from templates_gen.units import counted

UNITS = (
    "give the list a column “unit” with in, cm or mm in every row, or write the unit in each cell,"
    " such as 8 in or 20 cm"
)
"""What to do where cells lack a unit."""


class CakeSource(Source, Protocol):
    """Where the cake file that all share comes from, and the folder of files it speaks of."""

    @property
    def folder(self) -> Path | None:
        """The folder; None where its files are in the data."""


@dataclass(frozen=True, slots=True)
class Student:
    """A person with their cake, and where its values come from."""

    person: Person
    cake: Cake
    source: PersonSource

    @property
    def title(self) -> str:
        """What stands on their sheets: the name first, so that it is never cut off."""
        return f"{self.person.name} · {self.cake.title}"


@dataclass(frozen=True, slots=True)
class Order:
    """A cake that one or more people have: they share all its sheets but the title."""

    students: tuple[Student, ...]

    @property
    def cake(self) -> Cake:
        """The cake of the first; the others' differ in their words."""
        return self.students[0].cake


@dataclass(frozen=True, slots=True)
class PersonSource:
    """Where a value of a person's cake comes from: a column of their row, or the cake file."""

    roster: RosterSource
    person: Person
    columns: Mapping[Key, str]
    file: CakeSource

    def where(self, key: Key) -> str:
        """Name row and column, or the row and the line of the cake file."""
        row = self.roster.where((self.person.row,))
        for end in range(len(key), 0, -1):
            if key[:end] in self.columns:
                return self.roster.where((self.person.row, self.columns[key[:end]]))
        return f"{row} ({self.person.name}): {self.file.where(key)}"


def students(
    people: Sequence[Person], data: Mapping[str, Any], file: CakeSource, roster: RosterSource
) -> Iterator[Student | CakeError]:
    """Yield the cake of each person, or an error that names row and column.

    A column whose heading the cake does not have is named once, and nobody with a value in it has
    a cake. All cells that lack a unit are one error, after those of the people.
    """
    columns = {each.name: each for person in people for each in person.overrides}
    wrong = {name: found for name, each in columns.items() if (found := _problems(data, each))}
    if wrong:
        heading = ((name, each) for name, found in wrong.items() for each in found)
        yield CakeError([replace(each, key=(1, name)) for name, each in heading], roster)
    bare: list[Problem] = []
    for person in people:
        if any(each.name in wrong for each in person.overrides):
            continue
        try:
            yield _student(person, data, file, roster)
        except CakeError as error:
            cells = dict(_without_unit(error))
            bare += cells.values()
            others = [each for each in error.problems if each.key not in cells]
            if others:
                yield CakeError(others, error.source)
    if bare:
        more = f", and so in {counted(len(bare) - 1, 'more cell')}" if len(bare) > 1 else ""
        yield CakeError([replace(bare[0], found=bare[0].found + more, advice=UNITS)], roster)


def divided(
    roster: Roster, data: Mapping[str, Any], file: CakeSource, source: RosterSource
) -> tuple[list[Student], list[CakeError]]:
    """Return those of a list who can have a cake, and all that is wrong with it so far."""
    found = list(students(roster.people, data, file, source))
    errors = [CakeError(roster.problems, source)] if roster.problems else []
    errors += [each for each in found if isinstance(each, CakeError)]
    return [each for each in found if isinstance(each, Student)], errors


def _without_unit(error: CakeError) -> Iterator[tuple[Key, Problem]]:
    """Yield the cells of a person that lack a unit, by their keys, each at its row and column."""
    source = error.source
    if isinstance(source, PersonSource):
        for each in error.problems:
            if each.lacks_unit and each.key in source.columns:
                row, column = source.person.row, source.columns[each.key]
                yield each.key, replace(each, key=(row, column))


def _problems(data: Mapping[str, Any], column: Override) -> tuple[Problem, ...]:
    """Return the error in the heading of a column, tried with a value from below it."""
    try:
        overridden(data, [column])
    except CakeError as error:
        return error.problems
    return ()


def _student(
    person: Person, data: Mapping[str, Any], file: CakeSource, roster: RosterSource
) -> Student:
    named: dict[Key, str] = {(each.name,): each.name for each in person.overrides}
    try:
        own, keys = overridden(data, person.overrides)
    except CakeError as error:
        raise error.located(PersonSource(roster, person, named, file)) from None
    columns = {key: each.name for key, each in zip(keys, person.overrides, strict=True)}
    source = PersonSource(roster, person, columns, file)
    return Student(person, cake_from(own, source, file.folder), source)


def orders(found: Sequence[Student]) -> list[Order]:
    """Return each cake once with all who have it, in the order of the class."""
    groups: dict[object, list[Student]] = {}
    for student in found:
        groups.setdefault(_alike(student.cake), []).append(student)
    return [Order(tuple(members)) for members in groups.values()]


def _alike(cake: Cake) -> tuple[str, str, str | None]:
    """Return what is equal for cakes whose packs differ in the title alone."""
    return digest(cake), cake.paper, cake.unit


def by_row(errors: Sequence[CakeError]) -> list[CakeError]:
    """Return an error for each problem, from the top of the list down."""
    apart = [CakeError([each], error.source) for error in errors for each in error.problems]
    return sorted(apart, key=_row)


def _row(error: CakeError) -> int:
    if isinstance(error.source, PersonSource):
        return error.source.person.row
    row = error.problems[0].key[0]
    return row if isinstance(row, int) else 0


def listed(errors: Sequence[CakeError]) -> CakeError:
    """Return several errors as one, every problem at its own place, from the top down."""
    problems = [
        Problem((_place(error, each),), each.found, each.allowed, each.advice)
        for error in by_row(errors)
        for each in error.problems
    ]
    return CakeError(problems, _Written())


def _place(error: CakeError, problem: Problem) -> str:
    return error.source.where(problem.key) if error.source else ""


class _Written:
    """A source whose keys are places in words already."""

    def where(self, key: Key) -> str:
        """Return the place."""
        return str(key[0])
