"""The command pack: which files it writes, what they hold together, and what it says."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from templates_gen.resources import folder
from tests.cakes import SAMPLES, sample
from tests.cli.command import TIER, ask, process, snapshot

NAMES = [path.stem for path in SAMPLES]


def sample_file(name: str) -> Path:
    """Return the file of a sample."""
    return folder("samples") / f"{name}.toml"


def manifest(path: Path) -> Any:  # noqa: ANN401 (as json has it)
    """Return a manifest."""
    return json.loads(path.read_text("utf-8"))


def windows(path: Path) -> list[list[tuple[str, str]]]:
    """Return piece and code of each window, sheet by sheet."""
    return [
        [(window["piece"], window["code"]) for window in sheet["windows"]]
        for sheet in manifest(path)["sheets"]
    ]


def page_count(path: Path) -> int:
    """Count the pages of a PDF."""
    with pikepdf.open(path) as pdf:
        return len(pdf.pages)


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in an empty folder but for one small cake file."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "cake.toml").write_text(f"title = 'Tea Time'\n{TIER}")
    return tmp_path


@pytest.mark.parametrize("name", NAMES)
def test_sample(name: str, tmp_path: Path) -> None:
    """Every sample makes a pack: a PDF, its manifest beside it, and each printed piece as SVG."""
    printed = ask("pack", sample_file(name), "--out", tmp_path)
    figures = json.loads(ask("figures", sample_file(name), "--json"))
    (pdf,) = tmp_path.glob("*.pdf")
    cake = sample(name)
    # the circle guide gives the circle of a draped tier, unless it is asked for
    circles = {
        name for name, tier in zip(cake.names, cake.tier, strict=True) if tier.rolling_out_circle
    }
    pieces = sorted(
        piece["id"]
        for piece in figures["pieces"]
        if piece["kind"] != "rolling-out-circle" or piece["tier"] in circles
    )
    assert set(snapshot(tmp_path)) == {
        pdf.name,
        pdf.with_suffix(".json").name,
        "pieces",
        "pieces/pack-check-square.svg",
        *(f"pieces/{piece.replace('/', '-')}.svg" for piece in pieces),
    }
    sheets = windows(pdf.with_suffix(".json"))
    assert page_count(pdf) == len(sheets)
    shown = {piece for sheet in sheets for piece, _ in sheet}
    assert shown == {each.id for each in templates(make_plan(cake)) if each.printed}
    # what is marked in one place of a side or ledge, or once for all repeats, is a part of a piece
    wholes = {re.sub(r"-((repeat|place)-\d+|cascade)$", "", piece) for piece in shown}
    assert wholes <= {*pieces}
    paper = pdf.stem.rpartition("-")[2]
    words = f"{figures['title']}: {len(shown)} pieces on {len(sheets)} {paper.capitalize()} pages"
    assert printed.startswith(f"{words}\n")


FOLDED = {"unfold", "whole_mm"}
"""What a manifest says of a part of a template on the fold besides."""


@pytest.mark.parametrize("name", NAMES)
def test_manifest(name: str, tmp_path: Path) -> None:
    """A manifest has the keys its readers rely on, and its maps take each mark to its place."""
    ask("pack", sample_file(name), "--out", tmp_path, "--format", "pdf")
    (path,) = tmp_path.glob("*.json")
    document = manifest(path)
    assert document.keys() == {"name", "title", "pack_mark", "paper", "files", "sheets"}
    assert document["paper"].keys() == {"width_mm", "height_mm"}
    assert [sheet["number"] for sheet in document["sheets"]] == [
        number + 1 for number in range(len(document["sheets"]))
    ]
    marks = 0
    for sheet in document["sheets"]:
        assert sheet.keys() == {"number", "windows"}
        for window in sheet["windows"]:
            assert window.keys() - FOLDED == {"piece", "code", "box_mm", "to_sheet", "marks"}
            assert re.fullmatch("[A-HJ-NP-Z]+[1-9][0-9]*", window["code"])
            a, b, c, d, e, f = window["to_sheet"]
            for mark in window["marks"]:
                (x, y), on_sheet = mark["piece_mm"], mark["sheet_mm"]
                assert on_sheet == pytest.approx([a * x + c * y + e, b * x + d * y + f])
                marks += 1
    assert marks >= 4, "samples have pieces larger than a sheet"


def test_folder(desk: Path) -> None:
    """Without --out the folder has the cake's name; with it, folders are made as needed."""
    ask("pack", "cake.toml", "--format", "pdf")
    ask("pack", "cake.toml", "--format", "pdf", "--out", "a/b")
    whole = set(snapshot(desk))
    assert whole == {
        "cake.toml",
        *("tea-time", "tea-time/tea-time-a4.pdf", "tea-time/tea-time-a4.json"),
        *("a", "a/b", "a/b/tea-time-a4.pdf", "a/b/tea-time-a4.json"),
    }


def test_paper_of_the_file(desk: Path) -> None:
    """The cake file's paper is used unless the command line names another."""
    (desk / "cake.toml").write_text(f"paper = 'letter'\n{TIER}")
    ask("pack", "cake.toml", "--out", "own")
    ask("pack", "cake.toml", "--out", "other", "--paper", "A3")
    assert [path.name for path in (desk / "own").glob("*.pdf")] == ["cake-letter.pdf"]
    assert [path.name for path in (desk / "other").glob("*.pdf")] == ["cake-a3.pdf"]


@pytest.mark.parametrize(
    ("spec", "made"),
    [
        (["a3", "legal"], ["a3", "legal"]),
        (["a4", "A4", "297 mm x 210 mm"], ["210x297mm", "a4"]),
        (["both"], ["a4", "letter"]),
        (["both", "tabloid"], ["a4", "letter", "tabloid"]),
        (["20 cm × 12 in"], ["200x304.8mm"]),
    ],
)
@pytest.mark.usefixtures("desk")
def test_several_papers(spec: list[str], made: list[str]) -> None:
    """Each paper asked for makes a PDF and a manifest of that size, once."""
    options = [word for paper in spec for word in ("--paper", paper)]
    printed = ask("pack", "cake.toml", "--out", "out", *options)
    assert sorted(path.name for path in Path("out").glob("*.pdf")) == [
        f"tea-time-{paper}.pdf" for paper in made
    ]
    for paper in made:
        path = Path("out") / f"tea-time-{paper}.pdf"
        size = manifest(path.with_suffix(".json"))["paper"]
        with pikepdf.open(path) as pdf:
            for page in pdf.pages:
                corners = [float(corner) for corner in page.mediabox]
                expected = [0, 0, size["width_mm"] / 25.4 * 72, size["height_mm"] / 25.4 * 72]
                assert corners == pytest.approx(expected, abs=0.01)
        assert f"{page_count(path)} {paper.capitalize()} pages\n" in printed


@pytest.mark.parametrize("name", NAMES)
def test_both(name: str, tmp_path: Path) -> None:
    """With --paper both, each sheet of A4 shows what the same sheet of Letter shows."""
    ask("pack", sample_file(name), "--out", tmp_path, "--paper", "both", "--format", "pdf")
    a4, letter = sorted(tmp_path.glob("*.json"))
    assert windows(a4) == windows(letter)
    assert page_count(a4.with_suffix(".pdf")) == page_count(letter.with_suffix(".pdf"))


@pytest.mark.parametrize(
    ("form", "folders", "pdf"),
    [
        ("pdf", set(), True),
        ("svg", {"pieces", "sheets"}, False),
        ("both", {"pieces"}, True),
        ("dxf", {"pieces"}, False),
    ],
)
def test_format(form: str, folders: set[str], pdf: bool, desk: Path) -> None:
    """--format chooses sheets, pieces or both; beside pieces lies the check square."""
    said = ask("pack", "cake.toml", "--out", "out", "--format", form)
    assert ("A4 page" in said) == (form != "dxf")
    out = desk / "out"
    assert {path.name for path in out.iterdir() if path.is_dir()} == folders
    assert (out / "tea-time-a4.pdf").exists() == pdf
    sheets = len(manifest(out / "tea-time-a4.json")["sheets"])
    ending = "dxf" if form == "dxf" else "svg"
    assert (out / "pieces" / f"pack-check-square.{ending}").exists() == ("pieces" in folders)
    if form == "svg":
        assert sorted(path.name for path in (out / "sheets").iterdir()) == [
            f"tea-time-a4-{number + 1:02}.svg" for number in range(sheets)
        ]


def test_summary(desk: Path) -> None:
    """The summary names sheets, pieces, every file or folder, warnings, and how to print."""
    strip = "cover = 'panelled'\nstrip = '24 in'\n"
    (desk / "cake.toml").write_text(f"title = 'Tea Time'\n{TIER}{strip}")
    first, *lines = ask("pack", "cake.toml", "--out", "out").splitlines()
    assert re.fullmatch(r"Tea Time: \d+ pieces on \d+ A4 pages", first)
    count = len(list((desk / "out" / "pieces").iterdir()))
    assert lines[:3] == [
        f"  {Path('out', 'tea-time-a4.pdf')}",
        f"  {Path('out', 'tea-time-a4.json')}",
        f"  {Path('out', 'pieces')} ({count} SVG files)",
    ]
    assert [line for line in lines if line.startswith("Warning (") and "24 in" in line]
    assert "actual size" in lines[-1]


def test_standard_input(desk: Path) -> None:
    """A cake file from standard input makes the same files as from a file."""
    ask("pack", "cake.toml", "--out", "from-file")
    ask("pack", "-", "--out", "from-input", stdin=(desk / "cake.toml").read_text())
    assert snapshot(desk / "from-file") == snapshot(desk / "from-input")


def test_byte_order_mark(desk: Path) -> None:
    """A byte order mark, as some editors put it first, is no part of the cake."""
    ask("pack", "cake.toml", "--out", "plain")
    (desk / "cake.toml").write_bytes(b"\xef\xbb\xbf" + (desk / "cake.toml").read_bytes())
    ask("pack", "cake.toml", "--out", "marked")
    assert snapshot(desk / "plain") == snapshot(desk / "marked")


def test_again(desk: Path) -> None:
    """A second run replaces the files by the same bytes and leaves others alone."""
    ask("pack", "cake.toml", "--out", "out")
    (desk / "out" / "mine.txt").write_text("keep me")
    before = snapshot(desk)
    ask("pack", "cake.toml", "--out", "out")
    assert snapshot(desk) == before


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "utf-8"])
def test_other_script(encoding: str, desk: Path) -> None:
    """A Cyrillic title names the files, also where the screen cannot show it."""
    (desk / "cake.toml").write_text(f"title = 'Торт'\n{TIER}", "utf-8")
    screen = {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "1"}
    done = process("pack", "cake.toml", "--format", "pdf", cwd=desk, environment=screen)
    assert (done.returncode, done.stderr) == (0, b"")
    assert (desk / "торт" / "торт-a4.pdf").is_file()
    assert b": 1 piece on " in done.stdout
    if encoding == "latin-1":
        assert done.stdout.startswith(rb"\u0422\u043e\u0440\u0442: ")
    if encoding == "utf-8":
        assert done.stdout.startswith("Торт: ".encode())
