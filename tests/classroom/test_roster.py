"""The list of a class: read as spreadsheets write it, or refused with row and column."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.keys import keys_of
from templates_gen.cakefile.overrides import Override
from templates_gen.classroom.roster import (
    LINE,
    MOST_PEOPLE,
    USUAL_WORDS,
    Person,
    RosterSource,
    read_names,
    read_roster,
)
from templates_gen.errors import CakeError, FileError

PEOPLE = (
    Person(2, "Ada", (Override("unit", "cm"), Override("bottom.size", "25"))),
    Person(3, "Ben", (Override("paper", "letter"),)),
)
LIST = "name,bottom.size,paper,unit\nAda,25,,cm\nBen,,letter,\n"


@pytest.mark.parametrize(
    "content",
    [
        LIST.encode(),
        LIST.encode("utf-8-sig"),
        LIST.encode("utf-16"),
        LIST.replace(",", ";").encode(),
        LIST.replace(",", "\t").encode(),
        LIST.replace("\n", "\r\n").encode(),
        LIST.replace("Ben", '"Ben"').replace("25", '"25"').encode(),
        LIST.rstrip("\n").encode(),
        (LIST + ",,,\n\n").encode(),
        LIST.replace("unit\n", "unit,,\n").encode(),
        LIST.replace("name,", " Name ,").encode(),
    ],
    ids=[
        "plain",
        "mark",
        "utf-16",
        "semicolon",
        "tab",
        "crlf",
        "quotes",
        "end",
        "blank",
        "more",
        "case",
    ],
)
def test_a_list_is_read_however_it_was_saved(content: bytes) -> None:
    """Signs between cells, marks, line ends, quotes and blank rows do not matter."""
    roster = read_roster(content, "class.csv")
    assert roster.people == PEOPLE
    assert not roster.problems


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", ("empty",)),
        (b"\n\n", ("no heading",)),
        (b"name,paper\n", ("no people",)),
        (b"who,paper\nAda,a4\n", ("no heading", "who, paper", "name,paper")),
        (b"Ada,a4\nBen,a4\n", ("no heading",)),
        (b"name,paper,Paper\nAda,a4,a4\n", ("“paper” is there twice",)),
        (b"name,,paper\nAda,,a4\n", ("without a heading",)),
        ("name\nJosé\n".encode("cp850"), ("row 2", "UTF-8")),
        ("name\nJosé\n".encode("mac-roman"), ("row 2", "UTF-8")),
        ("name\nMichał\n".encode("cp1250"), ("row 2", "UTF-8")),
        ("name\nJosé\n".encode() + b"\xff", ("row 3", "UTF-8")),
        (b"name\nJos\xe9\x01\n", ("row 2", "UTF-8")),
        (b"PK\x03\x04rest", ("workbook", "CSV")),
        (b'name\n"Ada\n', ("no CSV",)),
        (b'name,paper\n"Ada"x,a4\n', ("no CSV",)),
        (b"name\n" + b"x" * 600_000, ("500 kB",)),
        (("name\n" + "".join(f"p{n}\n" for n in range(1000))).encode(), ("1000", str(MOST_PEOPLE))),
        (b"\xef\xbb\xbf", ("empty",)),
        (b"name\n\n\n", ("no people",)),
        (b"name|paper\nAda|a4\n", ("no heading", "name|paper")),
        (b"name:paper\nAda:a4\n", ("no heading", "name:paper")),
        (b"name paper\nAda a4\n", ("no heading", "name paper")),
        (b"nom;papier\nAda;a4\n", ("no heading", "nom, papier")),
        (b"paper,size\na4,8\n", ("no heading", "paper, size")),
        (b"\xd0\xcf\x11\xe0rest", ("workbook", "CSV")),
        (b"name,NAME\nAda,Ben\n", ("there twice",)),
        ("name\nAda\n\u042f\u043d\n".encode("cp1251"), ("row 3", "UTF-8")),
        ("name\n\u0410\u0434\u0430\n".encode("koi8-r"), ("row 2", "UTF-8")),
        ("name\nAda\n".encode("utf-32"), ("no heading",)),
        (b"%PDF-1.7\n%", ("no heading",)),
        (b"{\\rtf1 name\\par Ada}", ("no heading",)),
        (b"<table><tr><td>name</td></tr></table>", ("no heading",)),
        (b"sep=;\nname;paper\nAda;a4\n", ("no heading", "sep=")),
        (b"name\x00,paper\nAda,a4\n", ("class.csv",)),
    ],
)
def test_what_is_no_list_is_refused_in_words(content: bytes, words: tuple[str, ...]) -> None:
    """The message says what it is instead, and what to do."""
    with pytest.raises(FileError) as caught:
        read_roster(content, "class.csv")
    assert all(word in str(caught.value) for word in ("class.csv", *words)), str(caught.value)


@pytest.mark.parametrize(
    ("rows", "words"),
    [
        ("Ada,a4,9", ("row 2", "3 cells below 2 headings", "in quotes")),
        (",a4", ("row 2, column name", "no name")),
        ("  ,a4", ("row 2, column name", "no name")),
        (f"{'x' * 41},a4", ("row 2, column name", "41 characters", "up to 40")),
        ("A\x07da,a4", ("row 2, column name",)),
        ("Ada,a4\nADA,a4", ("row 3, column name", "as in row 2")),
        ("José,a4\nJose,a4", ("row 3, column name", "as in row 2")),
        ("Ada,a4\n\nAda,a4", ("row 4, column name", "as in row 2")),
        ('"",a4', ("row 2, column name", "no name")),
        ("Ada,a4\nBen,210 mm, 297 mm", ("row 3", "3 cells below 2 headings", "in quotes")),
        ("Ada  Lee,a4\nAda Lee,a4", ("row 3, column name", "as in row 2")),
        ('"Ada\nLee",a4\nAda Lee,a4', ("row 3, column name", "as in row 2")),
        ("\u200b,a4", ("row 2, column name",)),
        ("\u674e,a4", ("row 2, column name", "\u674e", "without")),
        ("Ada \U0001f382,a4", ("row 2, column name", "BIRTHDAY CAKE", "without")),
        ("../Ada,a4\n.. Ada,a4", ("row 3, column name", "as in row 2")),
    ],
)
def test_a_row_that_is_wrong_is_named(rows: str, words: tuple[str, ...]) -> None:
    """Row and column as the spreadsheet shows them."""
    roster = read_roster(f"name,paper\n{rows}\n".encode(), "class.csv")
    said = str(CakeError(roster.problems, RosterSource("class.csv")))
    assert len(roster.problems) == 1
    assert all(word in said for word in ("class.csv, ", *words)), said


def test_all_rows_that_are_wrong_are_found_and_the_others_read() -> None:
    """One look at the list is enough to mend it."""
    roster = read_roster(b"name,paper\n,a4\nAda,a4\nBen,a4,9\nAda,a3\n", "class.csv")
    assert [problem.key[0] for problem in roster.problems] == [2, 4, 5]
    assert [person.name for person in roster.people] == ["Ada"]


def test_formulas_are_text() -> None:
    """A cell that a spreadsheet would compute is only read."""
    (person,) = read_roster(b"name,title\n=1+1,=cmd()\n", "class.csv").people
    assert person == Person(2, "=1+1", (Override("title", "=cmd()"),))


@given(st.lists(st.lists(st.text(max_size=8), max_size=4), max_size=6), st.sampled_from(",;\t"))
def test_any_table_is_read_or_refused(rows: list[list[str]], delimiter: str) -> None:
    """No cell ends in an error of another kind, and no row is lost without a word."""
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=delimiter).writerows([["name", "title"], *rows])
    try:
        roster = read_roster(out.getvalue().encode("utf-8", "replace"), "class.csv")
    except FileError:
        return
    numbers = {each.row for each in roster.people} | {each.key[0] for each in roster.problems}
    assert len(numbers) == len(roster.people) + len(roster.problems)


@given(st.binary(max_size=60))
def test_any_bytes_are_read_or_refused(content: bytes) -> None:
    """A file of another kind is no list."""
    try:
        assert read_roster(content, "class.csv").people is not None
    except FileError as error:
        assert "class.csv" in str(error)  # noqa: PT017 (it may be read as well)


def test_names_alone_are_people() -> None:
    """One on each line, as typed or pasted; each may be a value of their cake too."""
    found = read_names("Ada\n\n  Smith, Ben \nCid\tDoe\r\n", "names", ["top.lettering.1.text"])
    assert found.problems == ()
    assert [(each.row, each.name) for each in found.people] == [
        (1, "Ada"), (3, "Smith, Ben"), (4, "Cid Doe"),
    ]  # fmt: skip
    assert found.people[1].overrides == (Override("top.lettering.1.text", "Smith, Ben"),)


@pytest.mark.parametrize("text", ["Ada, Ben,Cid", "Ada\tBen\tCid\n", "\nAda; Ben; Cid;"])
def test_names_may_all_be_on_one_line(text: str) -> None:
    """As an e-mail has them, or a row of a spreadsheet."""
    assert [each.name for each in read_names(text, "names").people] == ["Ada", "Ben", "Cid"]


def test_a_name_that_cannot_be_printed_says_what_to_do() -> None:
    """Also of a character that is not seen."""
    (problem,) = read_names("Zo\u200de\nBen", "names").problems
    assert problem.advice == "leave it out"


@pytest.mark.parametrize("marks", [("1. ", "2. ", "10) "), ("• ", "- ", "  * ")])
def test_a_list_of_names_may_be_numbered(marks: tuple[str, ...]) -> None:
    """Its numbers are on no page and no cake; where not every line has one, they stay."""
    lines = [f"{mark}{name}" for mark, name in zip(marks, ("Ada", "Ben", "Cid"), strict=True)]
    names = [each.name for each in read_names("\n\n".join(lines), "names").people]
    assert names == ["Ada", "Ben", "Cid"]
    names = [each.name for each in read_names("\n".join([*lines, "3 Wishes"]), "names").people]
    assert names == [*(line.strip() for line in lines), "3 Wishes"]


def test_a_name_that_is_there_twice_is_reported_with_its_line() -> None:
    """The others are people all the same."""
    found = read_names("Ada\nBen\nada\n", "names")
    assert [each.name for each in found.people] == ["Ada", "Ben"]
    (problem,) = found.problems
    assert (problem.key, problem.found) == ((3, "name"), "“ada”, as in line 1")
    assert "different name" in problem.allowed
    assert str(CakeError([problem], RosterSource("names", LINE))).startswith(
        "Line 3 of the names\n"
    )


def test_a_list_in_the_older_encoding_of_windows_is_read() -> None:
    """As Excel saves plain CSV; the first texts with accents are shown, to be looked at."""
    text = "name,title\r\nAda,Café\r\nZoë O’Neill,8¼ in\r\nJosé,\r\nBjörn,\r\n"
    roster = read_roster(text.encode("cp1252"), "class.csv")
    assert [each.name for each in roster.people] == ["Ada", "Zoë O’Neill", "José", "Björn"]
    assert "“Café”, “Zoë O’Neill”, “8¼ in”." in roster.note
    assert "CSV UTF-8" in roster.note
    assert not read_roster(text.encode(), "class.csv").note


def test_usual_words_are_headings_too() -> None:
    """What a teacher writes for name, title, paper and unit, unless the list has that heading."""
    text = "Student,Cake,Page size,Units,bottom.size\nAda,Rose,letter,cm,25\n"
    (person,) = read_roster(text.encode(), "class.csv").people
    values = {"unit": "cm", "title": "Rose", "paper": "letter", "bottom.size": "25"}
    assert person.name == "Ada"
    assert {each.name: each.value for each in person.overrides} == values
    (other,) = read_roster(b"Name,Student\nAda,Ben\n", "class.csv").people
    assert (other.name, other.overrides) == ("Ada", (Override("Student", "Ben"),))
    assert [each.name for each in read_names("Pupil\nAda\nBen", "names").people] == ["Ada", "Ben"]


def test_usual_words_are_no_keys() -> None:
    """Each stands for one heading alone, whatever keys there are."""
    assert not {*USUAL_WORDS} & {*keys_of(Cake)}
    assert {*USUAL_WORDS.values()} <= {"name", *keys_of(Cake)}


def test_a_problem_names_the_heading_as_it_is_written() -> None:
    """So that whoever wrote Student finds it."""
    roster = read_roster(b"Student,paper\n,a4\n", "class.csv")
    (problem,) = roster.problems
    assert RosterSource("class.csv").where(problem.key) == "class.csv, row 2, column Student"


def test_pasted_rows_with_headings_are_a_list() -> None:
    """As a spreadsheet copies them, with tabs; a heading alone is above names alone."""
    assert read_names(LIST.replace(",", "\t"), "names").people == PEOPLE
    assert [each.name for each in read_names("Name\nAda\n", "names").people] == ["Ada"]


def test_pasted_rows_with_headings_have_the_names_on_the_cakes_too() -> None:
    """What is chosen for each name counts, unless a row has its own value there."""
    key = "top.lettering.1.text"
    found = read_names(f"Name\t{key}\nAda\t\nBen\tBenny\n", "names", [key]).people
    overrides = [each.overrides for each in found]
    assert overrides == [(Override(key, "Ada"),), (Override(key, "Benny"),)]


@pytest.mark.parametrize("text", ["", " \n\n", "name\n"])
def test_no_names_are_refused(text: str) -> None:
    """With what to write."""
    with pytest.raises(FileError, match="write"):
        read_names(text, "names")
