"""A class on the page: who has how many pages, what is wrong in which row, and all files as one."""

from __future__ import annotations

import zipfile
from base64 import b64encode
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path, PurePath
from typing import Any

from templates_gen.cakefile.papers import title_of
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.classroom.folder import class_files, name_of_all
from templates_gen.classroom.making import Made, make_all
from templates_gen.classroom.orders import by_row, divided
from templates_gen.classroom.roster import Roster, RosterSource
from templates_gen.errors import CakeError, FileError, Key
from templates_gen.units import counted
from templates_gen.web.labels import known_keys, place, worded

MOST_PEOPLE = 40
"""People of a class on the page, so that no answer takes long."""
EARLIEST = (1980, 1, 1, 0, 0, 0)
"""The date of all files in a ZIP, so that the same files are the same bytes."""


@dataclass(frozen=True, slots=True)
class PageSource:
    """The cake on the page, as the design of a class."""

    data: Mapping[str, Any]
    folder: Path | None = None

    def where(self, key: Key) -> str:
        """Name the field."""
        return place(key, self.data)


@dataclass(frozen=True, slots=True)
class ClassAnswer:
    """The table of a class as data, and the files of those who can be served, as a ZIP.

    ``prints`` are the files in it with the pages of all, one for each paper.
    """

    people: list[dict[str, Any]]
    problems: list[dict[str, str]]
    name: str
    content: bytes
    prints: list[dict[str, Any]]


def class_of(data: Mapping[str, Any], roster: Roster, source: RosterSource) -> ClassAnswer:
    """Make the packs of a list from the data of a cake that can be made.

    Raises FileError for more people than the page serves.
    """
    if len(roster.people) > MOST_PEOPLE:
        raise FileError(
            f"there are {len(roster.people)} people in the list, and this page makes the templates"
            f" of up to {MOST_PEOPLE} at a time: split the list, or use templates-gen class"
        )
    able, errors = divided(roster, data, PageSource(data), source)
    made, more = make_all(able, lambda: None, jobs=1)  # a process of the page has none of its own
    stem = PurePath(source.name).stem
    papers = dict.fromkeys(sheets.paper for each in made for sheets in each.printed)
    files = dict(class_files(stem, made)) if made else {}
    return ClassAnswer(
        [_row(each) for each in made],
        [problem for error in by_row([*errors, *more]) for problem in _problems(error)],
        f"{file_name(slug(stem, 'class'))}.zip",
        _zipped(files) if files else b"",
        [_print(paper, made, files) for paper in papers],
    )


def _print(paper: str, made: Sequence[Made], files: Mapping[str, bytes]) -> dict[str, Any]:
    """Return the one PDF of all pages on a paper, and how many they are."""
    name = name_of_all(paper)
    count = sum(s.sheets for each in made for s in each.printed if s.paper == paper)
    said = counted(count, f"{title_of(paper)} page")
    return {"name": name, "pages": said, "pdf": b64encode(files[name]).decode()}


def _row(made: Made) -> dict[str, Any]:
    return {
        "row": made.student.person.row,
        "name": made.student.person.name,
        "pages": [each.said for each in made.printed],
        "warnings": list(made.lists.warnings),
    }


def _problems(error: CakeError) -> list[dict[str, str]]:
    return [
        {
            "place": error.source.where(each.key) if error.source else "",
            "found": _worded(each.found, each.key),
            "allowed": _worded(each.allowed, each.key),
            "advice": _worded(each.advice, each.key),
        }
        for each in error.problems
    ]


def _worded(text: str, key: Key) -> str:
    """Return a message in the words of the page; one about a heading has the words of headings."""
    is_heading = isinstance(key[0], int) or known_keys(key)
    return text if is_heading else worded(text, key)


def _zipped(files: Mapping[str, bytes]) -> bytes:
    out = BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for each, content in files.items():
            archive.writestr(zipfile.ZipInfo(each, EARLIEST), content, zipfile.ZIP_DEFLATED)
    return out.getvalue()
