"""One design for many, on the page: on other tins, and for a class."""

from __future__ import annotations

import base64
import json
import re
import zipfile
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from pikepdf import Pdf
from playwright.sync_api import Page, expect

from templates_gen.cakefile.overrides import overridden
from templates_gen.cakefile.reading import cake_from
from templates_gen.classroom.roster import read_roster
from templates_gen.units import NO_BREAK
from templates_gen.web.answer import PDF
from templates_gen.web.class_list import MOST_PEOPLE
from templates_gen.web.files import opened
from templates_gen.web.jobs import run
from tests.cakes import SAMPLES
from tests.classroom.test_class import CAKE, LIST
from tests.cli.command import ask
from tests.judges import run as judged
from tests.web.conftest import settle, start_from

(HARBOUR,) = (path for path in SAMPLES if path.stem == "harbour-wedding")
LARGER = "12x5, 9x6, 6x5, 4x4"


def answer(job: str, text: str, **body: Any) -> tuple[int, Any]:  # noqa: ANN401
    """Return status and data of the answer to a job about the cake of a file."""
    found = run(job, json.dumps({"cake": opened(text, "a.toml"), **body}).encode(), {})
    return found.status, json.loads(found.content)


def listed(text: str) -> str:
    """Return a list of people as a request has it."""
    return base64.b64encode(text.encode()).decode()


@pytest.mark.parametrize(("place", "word"), [("uk", "mould"), ("us", "mold")])
def test_the_calendar_is_in_the_words_of_the_cake(place: str, word: str) -> None:
    """As that of the command line."""
    cake = opened(HARBOUR.read_text("utf-8"), "a.toml") | {"words": place}
    found = run("calendar", json.dumps({"cake": cake}).encode(), {}).content.decode()
    assert word in found.replace("\r\n ", "")


def test_other_tins_are_those_of_the_command_line(tmp_path: Path) -> None:
    """The same cake, and the same is said of what has changed."""
    said = ask("resize", HARBOUR, "--to", LARGER, "-o", tmp_path / "new.toml")
    status, data = answer("resize", HARBOUR.read_text("utf-8"), line=LARGER)
    assert status == 200
    assert data["cake"] == opened((tmp_path / "new.toml").read_text("utf-8"), "new.toml")
    assert data["changes"] == [each.strip() for each in said.splitlines() if "→" in each]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("12, 9", "2 sizes for 4 tiers"),
        ("6, 9, 8, 4", "lies inside what it stands on"),
        ("12x5x4, 9, 6, 4", "12x5x4"),
        ("x", "no length"),
    ],
)
def test_tins_that_cannot_be_used_are_refused(line: str, words: str) -> None:
    """With what would do."""
    status, data = answer("resize", HARBOUR.read_text("utf-8"), line=line)
    assert status == 422
    assert words in data["message"]
    assert data["problems"][0]["allowed"]


def test_a_class_has_the_files_of_the_command_line(tmp_path: Path) -> None:
    """Every file of the ZIP has the bytes of the command's, and none is missing."""
    (tmp_path / "regatta.toml").write_text(CAKE, encoding="utf-8")
    (tmp_path / "class.csv").write_text(LIST, encoding="utf-8")
    out = tmp_path / "out"
    ask("class", tmp_path / "regatta.toml", tmp_path / "class.csv", "--out", out)
    status, data = answer("class", CAKE, list=listed(LIST), name="class.csv")
    assert status == 200
    assert data["problems"] == []
    assert [each["name"] for each in data["people"]] == ["Ada", "Ben", "Cid", "Dora", "Eve"]
    with zipfile.ZipFile(BytesIO(base64.b64decode(data["zip"]))) as archive:
        packed = {name: archive.read(name) for name in archive.namelist()}
    written = {
        path.relative_to(out).as_posix(): path.read_bytes()
        for path in out.rglob("*")
        if path.is_file()
    }
    assert packed == written


def test_problems_of_a_list_are_reported_with_row_and_column() -> None:
    """All at once, in what is read and in what is planned; the others are made."""
    rows = "name,bottom.size,paper,bottom.panels.mould\nAda,8\nBen,huge\nCid,8,a9\nDora,8,,900 mm\n"
    status, data = answer("class", CAKE, list=listed(rows), name="class.csv")
    assert status == 200
    assert [each["name"] for each in data["people"]] == ["Ada"]
    places = " ".join(each["place"] for each in data["problems"])
    for row, column in ((3, "bottom.size"), (4, "paper")):
        assert f"row {row}, column {column}" in places
    assert "row 5, column bottom.panels.mould" in places


def test_problems_of_a_list_come_in_the_order_of_its_rows() -> None:
    """Be they of the list itself, of a cell, of a cake that cannot be made, or of a heading."""
    rows = (
        "name,bottom.size,bottom.panels.mould,bottom size\nAda,8\nBen,8,900 mm\nCid,huge\n"
        ",9\nAda,9\nDora,-9\nEve,9,,8\n"
    )
    _, data = answer("class", CAKE, list=listed(rows), name="class.csv")
    found = [re.findall(r"row (\d+)", each["place"]) for each in data["problems"]]
    assert found == [["1"], ["3"], ["4"], ["5"], ["6"], ["7"]]


def test_problems_of_a_list_have_the_words_of_the_page() -> None:
    """What is said of a cell is said as at its field; a heading is called by its own words."""
    rows = "name,bottom.depth,bottom.sise\nAda,huge,\nBen,,8\n"
    _, data = answer("class", CAKE, list=listed(rows), name="class.csv")
    cell, heading = data["problems"]
    assert cell["advice"] == "write for example “4 in”"
    assert heading["advice"] == "did you mean “size”?"


def test_the_list_to_fill_in_makes_the_cake_for_everybody() -> None:
    """It comes with headings for the cake and its values, and is a list as it comes."""
    body = {"cake": opened(LETTERED, "a.toml")}
    blank = run("class-list", json.dumps(body).encode(), {})
    rows = blank.content.decode("utf-8-sig").splitlines()
    assert rows[0] == "name,paper,bottom.size,bottom.depth,bottom.lettering.1.text"
    assert rows[1] == "First person,a4,8,4,Ada"
    status, data = answer("class", LETTERED, list=base64.b64encode(blank.content).decode())
    assert (status, data["problems"]) == (200, [])
    assert [each["name"] for each in data["people"]] == ["First person", "Second person"]


def test_the_list_to_fill_in_has_the_names_that_were_typed() -> None:
    """Who typed them types none again for the people whose tins differ."""
    body = {"cake": opened(CAKE, "a.toml"), "names": "Ada\n\n  Ben \n"}
    blank = run("class-list", json.dumps(body).encode(), {}).content
    assert [each.name for each in read_roster(blank, "class.csv").people] == ["Ada", "Ben"]


def test_all_pages_of_a_class_are_one_pdf_for_each_paper() -> None:
    """It is the first thing to download, and says how many pages it has."""
    _, data = answer("class", CAKE, list=listed(LIST), name="class.csv")
    with zipfile.ZipFile(BytesIO(base64.b64decode(data["zip"]))) as archive:
        together = {name for name in archive.namelist() if name.startswith("all-")}
        assert {each["name"] for each in data["prints"]} == together
        for each in data["prints"]:
            pdf = base64.b64decode(each["pdf"])
            assert pdf == archive.read(each["name"])
            with Pdf.open(BytesIO(pdf)) as made:
                assert each["pages"].startswith(f"{len(made.pages)} ")


def test_whatever_is_on_a_cake_can_have_a_column() -> None:
    """Every column that is offered, in the words of the page, is read back from the list."""
    for path in SAMPLES:
        body = {"cake": opened(path.read_text("utf-8"), "a.toml")}
        offered = json.loads(run("class-columns", json.dumps(body).encode(), {}).content)
        headings = [each["heading"] for each in offered["columns"]]
        labels = [each["label"] for each in offered["columns"]]
        assert not any("_" in each or "." in each for each in labels)
        whole = run("class-list", json.dumps(body | {"columns": headings}).encode(), {}).content
        row, _ = read_roster(whole, "class.csv").people
        assert len(row.overrides) >= len(headings)
        made, _ = overridden(body["cake"], row.overrides)
        assert cake_from(made) == cake_from(body["cake"]), path.name


def test_a_class_of_letters_alone_has_a_list_and_the_packs_of_the_command_line(
    tmp_path: Path,
) -> None:
    """The list to fill in has text and height; filled in, page and command make the same files."""
    (tmp_path / "age.toml").write_text(LETTERS, encoding="utf-8")
    body = {"cake": opened(LETTERS, "age.toml")}
    blank = run("class-list", json.dumps(body).encode(), {})
    heading, first, *_ = blank.content.decode("utf-8-sig").splitlines()
    assert heading == "name,paper,letter_cake.1.text,letter_cake.1.cap_height"
    assert first == "First person,a4,1,8 in"
    rows = f"{heading}\nAda,a4,7,21 cm\nBen,letter,,\nCid,,i,30 cm\n"
    (tmp_path / "class.csv").write_text(rows, encoding="utf-8")
    out = tmp_path / "out"
    ask("class", tmp_path / "age.toml", tmp_path / "class.csv", "--out", out)
    status, data = answer("class", LETTERS, list=listed(rows), name="class.csv")
    assert (status, data["problems"]) == (200, [])
    with zipfile.ZipFile(BytesIO(base64.b64decode(data["zip"]))) as archive:
        for name in archive.namelist():
            assert archive.read(name) == (out / name).read_bytes()
    register = (out / "register.csv").read_text("utf-8-sig").splitlines()
    assert [row.split(",")[0] for row in register[1:]] == ["Ada", "Ben", "Cid"]
    for person, char in (("ada", "7"), ("ben", "1"), ("cid", "i")):
        (pack,) = (out / person).glob("*.pdf")
        words = judged("pdftotext", "-layout", pack, "-")
        assert f"{person.title()} · Cake" in words
        assert f"letter cake 1: {char}" in words
    assert "board, 12 mm" in (out / "shopping.csv").read_text("utf-8-sig")


LETTERS = "[[letter_cake]]\ntext = '1'\ncap_height = '8 in'\n"
LETTERED = f"{CAKE}\n[[tier.lettering]]\ntext = 'Ada'\n"


@pytest.mark.parametrize(("job", "words"), [("handout", "Take care"), ("chart", "10 in round")])
def test_a_paper_for_the_class_comes_from_the_page(job: str, words: str, tmp_path: Path) -> None:
    """The handout and the wall chart, as PDF, with what they are for."""
    found = run(job, json.dumps({"cake": opened(CAKE, "a.toml")}).encode(), {})
    assert (found.status, found.kind) == (200, PDF)
    (tmp_path / "made.pdf").write_bytes(found.content)
    said = judged("pdftotext", "-layout", tmp_path / "made.pdf", "-")
    assert words in said.replace(NO_BREAK, " ")


@pytest.mark.parametrize(
    ("content", "status", "words"),
    [
        (listed("name\n" + "".join(f"P{n}\n" for n in range(MOST_PEOPLE + 1))), 422, "up to 40"),
        (listed("who,size\nAda,8\n"), 422, "no heading “name”"),
        ("?", 400, "base64"),
        (None, 400, "base64"),
    ],
)
def test_what_is_no_list_for_the_page_is_refused(
    content: str | None, status: int, words: str
) -> None:
    """In words, before anything is made."""
    found, data = answer("class", CAKE, list=content, name="class.csv")
    assert found == status
    assert words in data["message"]


def test_a_list_opens_no_file(tmp_path: Path) -> None:
    """A name of a file in a cell is refused, whether it is there or not."""
    for name in (str(HARBOUR), str(tmp_path / "no.ttf"), "../samples/harbour-wedding.toml"):
        cake = CAKE + '[[tier.lettering]]\ntext = "Ada"\n'
        rows = f"name,bottom.lettering.1.font\nAda,{name}\n"
        _, data = answer("class", cake, list=listed(rows), name="class.csv")
        assert data["people"] == []
        assert data["problems"]


def test_a_cake_opens_on_other_tins_beside_the_first(page: Page) -> None:
    """The new one is shown with what changed, and the first is kept."""
    page.locator("#other-tins").click()
    expect(page.locator("#tins-line")).to_have_value("10 x 5, 8 x 6, 6 x 5, 4 x 4")
    page.locator("#tins-line").fill("6, 9")
    page.keyboard.press("Enter")
    expect(page.locator("#tins-problem")).to_contain_text("2 sizes for 4 tiers")
    page.locator("#tins-line").fill(LARGER)
    page.keyboard.press("Enter")
    expect(page.locator("#tins-changes")).to_contain_text("→")
    page.locator("#tins .close").click()
    settle(page)
    page.locator("[id='go-tier.0']").click()
    assert page.locator("#f-tier-0-size").input_value().startswith("12")
    page.locator("#my-cakes").click()
    expect(page.locator("#cakes-list li")).to_have_count(2)


def test_names_alone_make_a_class_on_the_page(page: Page) -> None:
    """Everybody makes the cake, with their own name on it where that is ticked."""
    page.locator("#new").click()
    start_from(page, "golden-wedding")
    page.locator("[data-view=print]").first.click()
    page.locator("#for-class").click()
    page.locator("#class-names").fill("Ada\nBen\nAda")
    page.locator("#class-texts input").first.check()
    page.locator("#class-make").click()
    expect(page.locator("#class-answer tbody th")).to_have_text(["Ada", "Ben"], timeout=60_000)
    expect(page.locator("#class-answer .mend")).to_contain_text("Line 3 of the names")
    expect(page.locator(".class-print")).to_be_in_viewport()
    with page.expect_download() as download:
        page.locator("#class-list").click()
    rows = Path(download.value.path()).read_text("utf-8-sig").splitlines()
    assert [each.split(",")[0] for each in rows] == ["name", "Ada", "Ben", "Ada"]


def test_a_name_on_the_cake_is_that_of_its_person() -> None:
    """What is ticked has the name of each; the rest is the cake of everybody."""
    offered = answer("class-columns", LETTERED)[1]["texts"]
    assert [(each["heading"], each["value"]) for each in offered] == [
        ("bottom.lettering.1.text", "Ada")
    ]
    written = [offered[0]["heading"]]
    _, data = answer("class", LETTERED, names="Bo\nCid\n", written=written)
    rows = f"name,{written[0]}\nBo,Bo\nCid,Cid\n"
    _, same = answer("class", LETTERED, list=listed(rows), name="names.csv")
    packed = [
        {name: archive.read(name) for name in archive.namelist() if name.endswith(".pdf")}
        for zipped in (data["zip"], same["zip"])
        for archive in [zipfile.ZipFile(BytesIO(base64.b64decode(zipped)))]
    ]
    assert packed[0]
    assert packed[0] == packed[1]


def test_a_class_is_made_on_the_page(page: Page, tmp_path: Path) -> None:
    """A list is chosen, who has how many pages is seen with what is wrong, and a ZIP comes."""
    file = tmp_path / "class.csv"
    file.write_text("name,paper\nAda,letter\nBen,a9\n", encoding="utf-8")
    page.locator("[data-view=print]").first.click()
    page.locator("#for-class").click()
    page.locator("#class-more summary").click()
    page.get_by_label("Drip pattern, Drips, top tier").check()
    with page.expect_download() as download:
        page.locator("#class-list").click()
    filled = Path(download.value.path()).read_text("utf-8-sig")
    assert filled.startswith("name,paper,bottom.size")
    assert "top.drips.pattern" in filled
    page.locator("#class-file").set_input_files(file)
    expect(page.locator("#class-answer tbody th")).to_have_text(["Ada"], timeout=60_000)
    expect(page.locator("#class-answer tbody td").first).to_contain_text("pages (Letter)")
    expect(page.locator("#class-answer .mend")).to_contain_text("row 3, column paper")
    expect(page.locator("#said")).to_contain_text("Some rows have errors")
    with page.expect_download() as download:
        page.get_by_role("button", name="Download one PDF to print for the one").click()
    assert download.value.suggested_filename == "all-letter.pdf"
    printed = Path(download.value.path()).read_bytes()
    with page.expect_download() as download:
        page.locator("#class-download").click()
    assert download.value.suggested_filename == "class.zip"
    with zipfile.ZipFile(Path(download.value.path())) as archive:
        assert {"register.csv", "shopping.csv"} <= set(archive.namelist())
        assert archive.read("all-letter.pdf") == printed
    file.write_bytes("name\nZoë\n".encode("cp437"))
    with page.expect_file_chooser() as chooser:  # again under its name
        page.locator("#class-file").click()
    chooser.value.set_files(file)
    expect(page.locator("#class-problem")).to_have_text(re.compile(r"^class\.csv, row 2: not UTF"))
    older = tmp_path / "older.csv"
    older.write_bytes("Student\nZoë\n".encode("cp1252"))  # as Excel saves plain CSV
    page.locator("#class-file").set_input_files(older)
    expect(page.locator("#class-answer tbody th")).to_have_text(["Zoë"], timeout=60_000)
    expect(page.locator("#class-answer .warnings")).to_contain_text(
        "Check that this is right: “Zoë”"
    )
