"""The command class: a pack for each person, all in one PDF, and a register."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pikepdf
import pytest

from templates_gen.cakefile.reading import parse_data, read_text
from templates_gen.classroom.orders import Student, orders, students
from templates_gen.classroom.roster import RosterSource, read_roster
from templates_gen.plan import make_plan
from tests.cakes import SAMPLES
from tests.cli.command import ask, call, snapshot
from tests.judges import run

CAKE = """
title = "Regatta"
unit = "in"
[[tier]]
name = "bottom"
size = 8
depth = 4
fondant = "4 mm"
cover = "panelled"
[tier.panels]
mould = "60 mm"
height = "30 mm"
"""
LIST = """name,paper,unit,bottom.size
Ada,,cm,20
Ben,letter,,
Cid,,,
Dora,,in,7
Eve,letter,,8
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return a folder with a cake file and a list."""
    (tmp_path / "regatta.toml").write_text(CAKE, encoding="utf-8")
    (tmp_path / "class.csv").write_text(LIST, encoding="utf-8")
    return tmp_path


def made(folder: Path, *options: str | Path) -> str:
    """Run the command on the files of the folder."""
    return ask(
        "class", folder / "regatta.toml", folder / "class.csv", "--out", folder / "out", *options
    )


def test_a_persons_pack_is_the_pack_of_their_cake(folder: Path) -> None:
    """The sheets of a row have the bytes of a pack with the same values set."""
    made(folder)
    options = ["--set", "title=Ada · Regatta", "--set", "unit=cm", "--set", "bottom.size=20"]
    ask("pack", folder / "regatta.toml", "--format", "pdf", "--out", folder / "one", *options)
    for name in ("ada-regatta-a4.pdf", "ada-regatta-a4.json"):
        assert (folder / "out/ada" / name).read_bytes() == (folder / "one" / name).read_bytes()


def test_all_packs_are_in_one_file_for_each_paper(folder: Path) -> None:
    """Page by page what the packs have, in the order of the class, labelled with the name."""
    made(folder)
    for paper, people in (("a4", ("ada", "cid", "dora")), ("letter", ("ben", "eve"))):
        joined = folder / f"out/all-{paper}.pdf"
        assert "No syntax or stream encoding errors" in run("qpdf", "--check", joined)
        with pikepdf.open(joined) as whole:
            contents, labels = [], []
            for person in people:
                pack = folder / f"out/{person}/{person}-regatta-{paper}.pdf"
                with pikepdf.open(pack) as own:
                    contents += [page.Contents.read_bytes() for page in own.pages]
                    numbers = range(1, len(own.pages) + 1)
                    labels += [f"{person.title()} {number}" for number in numbers]
            assert [page.Contents.read_bytes() for page in whole.pages] == contents
            assert [page.label for page in whole.pages] == labels
            with whole.open_outline() as outline:
                assert [item.title for item in outline.root] == [p.title() for p in people]


def test_people_with_the_same_cake_have_the_same_pack_mark(folder: Path) -> None:
    """Ben and Eve asked for the same in other words; the register says so."""
    made(folder)
    text = (folder / "out/register.csv").read_text(encoding="utf-8-sig")
    rows = {row["name"]: row for row in csv.DictReader(io.StringIO(text))}
    assert rows["Ben"]["pack mark"] == rows["Eve"]["pack mark"]
    assert rows["Ben"]["pack mark"] != rows["Dora"]["pack mark"]
    # covered: 2 x (5 + 4) mm across more than the tin
    assert float(rows["Ben"]["round, mm"]) == pytest.approx(3.14159265 * 221.2, abs=0.05)
    assert float(rows["Ada"]["round, mm"]) == pytest.approx(3.14159265 * 218.0, abs=0.05)
    with pikepdf.open(folder / "out/ben/ben-regatta-letter.pdf") as pack:
        assert int(rows["Ben"]["sheets"]) == len(pack.pages)


def test_two_runs_write_the_same_bytes(folder: Path) -> None:
    """Neither the processes nor the order in which they end change anything."""
    made(folder)
    first = snapshot(folder / "out")
    made(folder)
    assert snapshot(folder / "out") == first


FAULTY = """name,paper,unit,bottom.size,bottom.sise
Ada,,cm,20,
Ben,a99,,,
Cid,,,8 miles,
Dora,,,7,3
,,,7,
Eve,,,1 mm,
"""


def test_every_fault_is_found_with_row_and_column(folder: Path) -> None:
    """Nothing is written, and one look at the list is enough to mend it."""
    (folder / "class.csv").write_text(FAULTY, encoding="utf-8")
    done = call("class", folder / "regatta.toml", folder / "class.csv", "--out", folder / "out")
    assert done.exit_code == 1
    for place in (
        "class.csv, row 3, column paper",
        "class.csv, row 4, column bottom.size",
        "class.csv, row 5, column bottom.sise",
        "class.csv, row 6, column name",
        "class.csv, row 7, column bottom.size",
    ):
        assert place in done.output, done.output
    assert "row 2" not in done.output
    assert not (folder / "out").exists()


@pytest.mark.parametrize(
    ("heading", "words"),
    [
        ("Size", "of which tier? write for example bottom.size"),
        ("botom.size", "did you mean “bottom”"),
        ("bottom.lettering", "write for example bottom.lettering.1.text"),
        ("bottom.lettering.1.text", "put it on the cake first"),
    ],
)
def test_a_heading_that_the_cake_lacks_is_named_once(
    folder: Path, heading: str, words: str
) -> None:
    """At row 1, whoever has a value below it, and nobody has a pack."""
    second = "[[tier]]\nsize = 6\ndepth = 4\n"
    (folder / "regatta.toml").write_text(CAKE + second, encoding="utf-8")
    rows = "".join(f"{name},8 in\n" for name in ("Ada", "Ben", "Cid"))
    (folder / "class.csv").write_text(f"name,{heading}\n{rows}", encoding="utf-8")
    options = ("--skip-faulty", "--out", folder / "out")
    done = call("class", folder / "regatta.toml", folder / "class.csv", *options)
    assert done.exit_code == 1
    assert done.output.count("problem") == 1, done.output
    assert f"class.csv, row 1, column {heading}" in done.output
    assert words.casefold() in done.output.casefold(), done.output


@pytest.mark.parametrize(
    ("rows", "said"),
    [
        ("Ada,8,4\nBen,9,3 in\n", "“8” has no unit, and so in 2 more cells\n"),
        ("Ada,8 in,4 in\nBen,9 in,3\n", "“3” has no unit\n"),
    ],
    ids=["several", "one"],
)
def test_cells_without_a_unit_are_one_message(rows: str, said: str, folder: Path) -> None:
    """It names the first, and what to do for all; another fault keeps its own."""
    (folder / "regatta.toml").write_text(
        CAKE.replace('unit = "in"', "").replace(
            "size = 8\ndepth = 4", "size = '8 in'\ndepth = '4 in'"
        )
    )
    (folder / "class.csv").write_text(f"name,bottom.size,bottom.depth\n{rows}Cid,900 in,\n")
    message = call("class", folder / "regatta.toml", folder / "class.csv").stderr
    assert message.count("has no unit") == 1
    assert said in message
    assert message.count("give the list a column “unit” with in, cm or mm in every row") == 1
    assert "row 4, column bottom.size" in message


def test_the_others_are_made_when_asked(folder: Path) -> None:
    """Who is left out is named, with what to do."""
    (folder / "class.csv").write_text(FAULTY, encoding="utf-8")
    done = call(
        "class",
        folder / "regatta.toml",
        folder / "class.csv",
        "--skip-faulty",
        "--out",
        folder / "out",
    )
    assert done.exit_code == 0
    assert "row 4, column bottom.size" in done.output
    assert sorted(path.name for path in (folder / "out").iterdir() if path.is_dir()) == ["ada"]


def test_a_list_as_a_teacher_has_it(folder: Path) -> None:
    """With headings of their own, saved by Excel as plain CSV: the names are shown to check."""
    list_text = "Student,Cake,bottom.size\r\nZoë,Café,10 in\r\n"
    (folder / "class.csv").write_bytes(list_text.encode("cp1252"))
    said = made(folder)
    assert "Check that this is right: “Zoë”, “Café”" in said
    assert [path.name for path in (folder / "out").iterdir() if path.is_dir()] == ["zoë"]


def test_a_class_without_anyone_who_can_be_served_is_an_error(folder: Path) -> None:
    """Leaving all out is no success."""
    (folder / "class.csv").write_text("name,bottom.size\nAda,8 miles\n", encoding="utf-8")
    done = call("class", folder / "regatta.toml", folder / "class.csv", "--skip-faulty")
    assert done.exit_code == 1


def test_a_cake_that_does_not_fit_their_tin_is_a_fault_of_the_row(folder: Path) -> None:
    """What is found when the cake is planned has its row too, and the line of the cake file."""
    text = CAKE + '[tier.opening]\nradius = "60 mm"\n'
    text = text.replace("depth = 4", "depth = 6\ndummy = true").replace("size = 8", "size = 10")
    (folder / "regatta.toml").write_text(text, encoding="utf-8")
    (folder / "class.csv").write_text("name,bottom.size\nAda,10\nBen,4\n", encoding="utf-8")
    done = call("class", folder / "regatta.toml", folder / "class.csv", "--out", folder / "out")
    assert done.exit_code == 1
    assert "class.csv, row 3 (Ben): regatta.toml, line" in done.output, done.output


def test_no_spreadsheet_computes_a_name(folder: Path) -> None:
    """A name that looks like a formula is text in the register."""
    (folder / "class.csv").write_text("name\n=1+1\n", encoding="utf-8")
    made(folder)
    assert "\n'=1+1," in (folder / "out/register.csv").read_text(encoding="utf-8-sig")


@pytest.mark.parametrize("name", ["missing.csv", "."])
def test_a_list_that_cannot_be_read_is_named(name: str, folder: Path) -> None:
    """A wrong name, a folder: the message says which."""
    done = call("class", folder / "regatta.toml", folder / name)
    assert done.exit_code == 1
    assert "cannot be read" in done.output


def test_the_sample_class_can_be_made() -> None:
    """Twelve people with three papers and two units have fewer cakes than people."""
    file = SAMPLES[0].parent / "evening-class.csv"
    design = read_text(SAMPLES[0].parent / "starter.toml")
    roster = read_roster(file.read_bytes(), file.name)
    found = list(students(roster.people, parse_data(design), design, RosterSource(file.name)))
    own = [each for each in found if isinstance(each, Student)]
    assert len(own) == len(roster.people) == 12
    assert not roster.problems
    assert {each.cake.paper for each in own} == {"a4", "letter", "a3"}
    assert {each.cake.unit for each in own} == {"in", "cm"}
    made = orders(own)
    assert len(made) < 12
    for order in made:
        assert make_plan(order.cake).pieces
