"""The chart: every figure is that of a pack, on one page, as CSV or for a browser."""

from __future__ import annotations

import csv
import io
import json
import math
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import html

from templates_gen.bench.figures import figures
from templates_gen.cakefile.lengths import Length, length_of, parse_length
from templates_gen.cakefile.papers import PAPERS
from templates_gen.cakefile.reading import cake_from
from templates_gen.chart.files import LEAST, chart_pdf
from templates_gen.chart.table import Chart, chart, length_text, mass_text
from templates_gen.chart.tins import SIZES, Layers, Tin, tins
from templates_gen.errors import FileError
from templates_gen.plan import make_plan
from templates_gen.units import NO_BREAK
from tests.cli.command import ask, call
from tests.judges import run

DEEP = Layers(parse_length("4 in"))


def row(size: Length, shape: str = "round", layers: Layers = DEEP) -> Tin:
    """Return the row of one tin."""
    (found,) = tins([size], [shape], layers)
    return found


@settings(max_examples=6, deadline=None)
@given(
    st.floats(101.6, 400),
    st.sampled_from(["round", "square"]),
    st.floats(60, 160),
    st.floats(0, 12),
    st.floats(2, 8),
)
def test_every_figure_is_that_of_a_pack(
    size: float, shape: str, depth: float, coating: float, paste: float
) -> None:
    """A tier alone with these layers has the same wrap, disc and circle."""
    lengths = [length_of(round(each, 1)) for each in (size, depth, coating, paste)]
    found = row(lengths[0], shape, Layers(*lengths[1:]))
    tier = dict(zip(("size", "depth", "coating", "fondant"), lengths, strict=True))
    values: dict[str, Any] = {}
    for cover in ("panelled", "drape"):
        plan = make_plan(cake_from({"tier": [{**tier, "shape": shape, "cover": cover}]}))
        values |= {each["kind"]: each["values"] for each in figures(plan)["pieces"]}
    assert found.strip == values["wrap"]["finished_length_mm"]
    assert found.disc == values["disc"]["across_mm"]
    assert found.rolling_out == values["rolling-out-circle"]["across_mm"]


@pytest.mark.parametrize("size", SIZES, ids=str)
def test_round_tins_by_hand(size: Length) -> None:
    """Wrap and ribbon are pi times the width at mid-thickness and outside: by arithmetic."""
    found = row(size, layers=Layers(*map(parse_length, ("4 in", "5 mm", "5 mm"))))
    assert found.strip == pytest.approx(math.pi * (size.mm + 15))
    assert found.ribbon == pytest.approx(math.pi * (size.mm + 20))
    assert found.disc == pytest.approx(size.mm + 10)
    # across, twice the depth with both layers, and 15 mm of trim on each side
    assert found.rolling_out == pytest.approx(size.mm + 10 + 2 * (101.6 + 5 + 5) + 30, abs=21)
    assert found.drum == pytest.approx(size.mm + 101.6)


def test_square_tins_make_the_published_portions() -> None:
    """1 x 2 in from n inches square: floor(n^2 / 2), as bakewithsarah.com servings has it."""
    found = [row(size, "square").portions for size in SIZES[1:]]
    assert found == [18, 32, 50, 72, 98]


def test_round_tins_make_the_published_portions() -> None:
    """1 x 2 in from rounds of 6 to 14 in: bakewithsarah.com servings; huppahsblog 2010/12."""
    assert [row(size).portions for size in SIZES[1:]] == [12, 24, 38, 56, 76]


def test_the_strip_that_practice_uses(tmp_path: Path) -> None:
    """24 in go round a 6 in tin and not round one of 8 in."""
    out = tmp_path / "chart.html"
    ask("chart", "--sizes", "4,6,8,10", "--shape", "round", "-o", out)
    words = out.read_text(encoding="utf-8").replace(NO_BREAK, " ")
    assert "A strip of 24 in goes round round tins up to 6 in, with 3 5/16 in" in words


@pytest.mark.parametrize(
    ("mm", "unit", "text"),
    [
        (203.2, "in", "8 in (20.3 cm)"),
        (203.2, "cm", "20.3 cm (8 in)"),
        (685.6, "in", "27 in (68.6 cm)"),
    ],
)
def test_lengths_have_both_units(mm: float, unit: str, text: str) -> None:
    """The chosen one first, and no line ends within either."""
    assert length_text(mm, unit).replace(NO_BREAK, " ") == text


@pytest.mark.parametrize(
    ("grams", "unit", "text"),
    [
        (1, "cm", "5 g (¼ oz)"),
        (994, "cm", "1 kg (2 lb 3 oz)"),
        (1111, "in", "2 lb 8 oz (1.12 kg)"),  # 1120 / 28.349523 = 39.5
        (453, "in", "1 lb (460 g)"),  # 460 / 28.349523 = 16.2
        (100, "in", "3½ oz (100 g)"),
    ],
)
def test_weights_are_those_of_the_bench_list(grams: float, unit: str, text: str) -> None:
    """Rounded up as a kitchen weighs; the one that goes with the unit first. NIST SP 430."""
    assert mass_text(grams, unit).replace(NO_BREAK, " ") == text


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_page_is_one_sheet_across(paper: str, tmp_path: Path) -> None:
    """All words lie on it, none smaller than 8 pt."""
    out = tmp_path / "chart.pdf"
    ask("chart", "--paper", paper, "--mould", "138mm", "--sizes", "4,8", "-o", out)
    assert "No syntax or stream encoding errors" in run("qpdf", "--check", out)
    document = pypdfium2.PdfDocument(out)
    assert len(document) == 1
    page = document[0]
    width, height = page.get_size()
    assert width > height
    text = page.get_textpage()
    for index in range(text.count_chars()):
        x0, y0, x1, y1 = text.get_charbox(index, loose=True)
        assert 0 < x0 <= x1 < width
        assert 0 < y0 <= y1 < height
    assert LEAST * 72 / 25.4 >= 8
    assert "not structural advice" in text.get_text_bounded().replace("\r\n", " ")


def test_more_than_a_page_is_refused() -> None:
    """A chart that would need smaller letters says what to do."""
    full = Chart("Tins", "", ("tin",), (("8 in round",),) * 60, ())
    with pytest.raises(FileError, match="no room on one page of a4: choose fewer sizes"):
        chart_pdf(full, PAPERS["a4"])


def test_all_files_say_the_same(tmp_path: Path) -> None:
    """CSV and the page for a browser have the rows of the sheet."""
    for ending in ("csv", "html"):
        ask("chart", "--unit", "cm", "--sizes", "15, 20", "-o", tmp_path / f"chart.{ending}")
    rows = list(csv.reader(io.StringIO((tmp_path / "chart.csv").read_text(encoding="utf-8-sig"))))
    page = html.fromstring((tmp_path / "chart.html").read_bytes())
    cells = [[cell.text or "" for cell in line] for line in page.iter("tr")]
    assert cells == rows
    tins_of = ["15 cm round", "20 cm round", "15 cm square", "20 cm square"]
    assert [line[0] for line in rows] == ["tin", *tins_of]


@pytest.mark.parametrize(
    ("options", "code", "words"),
    [
        (["--sizes", "8 miles"], 2, ("unknown unit", "6,8,10")),
        (["--sizes", ""], 2, ("no length",)),
        (["--depth", "9 miles"], 2, ("depth",)),
        (["--sizes", "0.1"], 1, ("size",)),
        (["--paper", "a99"], 2, ("--paper",)),
        (["-o", "chart.docx"], 2, (".pdf, .csv, .html",)),
        (["--unit", "ft"], 2, ("in", "cm")),
    ],
)
def test_what_cannot_be_made_is_said(
    options: list[str],
    code: int,
    words: tuple[str, ...],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Nothing is written, and the message names the option."""
    monkeypatch.chdir(tmp_path)
    done = call("chart", *options)
    assert done.exit_code == code, done.output
    assert all(word in done.output for word in words), done.output
    assert not list(tmp_path.iterdir())


def test_forty_tins_by_arithmetic() -> None:
    """Wraps of rounds and squares of 4 to 13.5 in: straight sides, and a whole turn of arcs."""
    sizes = [parse_length(f"{half / 2} in") for half in range(8, 28)]
    layers = Layers(parse_length("4 in"), parse_length("4 mm"), parse_length("3 mm"))
    found = list(tins(sizes, ["round", "square"], layers))
    assert len(found) == 40
    for tin in found:
        wide, straight = tin.size.mm + 2 * 4, 0.0 if tin.shape == "round" else 4 * tin.size.mm
        bend = 4 + 3 / 2 + (tin.size.mm / 2 if tin.shape == "round" else 0)
        around = straight + 2 * math.pi * bend
        assert tin.strip == pytest.approx(around, abs=0.05), (tin.shape, tin.size)
        assert tin.disc == pytest.approx(wide, abs=0.05), (tin.shape, tin.size)


FORTY = [
    (half / 2, shape, depth)
    for shape in ("round", "square")
    for depth, halves in ((3, range(8, 28, 4)), (4, range(9, 29, 2)), (5.5, range(10, 30, 4)))
    for half in halves
]
"""Inches across, shape and depth of forty tins."""


@pytest.mark.parametrize("depth", [3, 4, 5.5])
def test_forty_tins_by_their_packs(depth: float, tmp_path: Path) -> None:
    """Every figure of the chart is what ``figures`` and ``bench`` say of a pack of that tier."""
    assert len(FORTY) == 40
    mine = [each for each in FORTY if each[2] == depth]
    for inches, shape, _ in mine:
        found = row(parse_length(f"{inches} in"), shape, Layers(parse_length(f"{depth} in")))
        packs = {}
        for cover in ("panelled", "drape"):
            file = tmp_path / "tin.toml"
            tier = f"shape = '{shape}'\ndepth = '{depth} in'\ncover = '{cover}'\n"
            sizes = [inches] + [inches - 2] * (inches >= 4)
            tiers = (f"[[tier]]\nname = 't{size}'\nsize = '{size} in'\n{tier}" for size in sizes)
            file.write_text("".join(tiers), encoding="utf-8")
            packs[cover] = [
                json.loads(ask(command, file, "--json")) for command in ("figures", "bench")
            ]
        name = f"t{inches}"
        (figured, listed), (draped, draped_list) = packs["panelled"], packs["drape"]
        own = {each["kind"]: each for each in figured["pieces"] if each["tier"] == name}
        over = {each["kind"]: each for each in draped["pieces"] if each["tier"] == name}
        covered = next(each for each in figured["tiers"] if each["name"] == name)["covered"]
        said = {
            "strip": own["wrap"]["values"]["finished_length_mm"],
            "disc": own["disc"]["width_mm"],
            "rolling_out": over["rolling-out-circle"]["width_mm"],
            "panelled": sum(each["mass_g"] for each in listed["paste"] if each["tier"] == name),
            "draped": sum(each["mass_g"] for each in draped_list["paste"] if each["tier"] == name),
            "coating": sum(each["mass_g"] for each in listed["coating"] if each["tier"] == name),
            "ribbon": covered["girth_mm"],
            "drum": next(each for each in listed["pieces"] if each["tier"] == "drum")["sizes_mm"][
                0
            ],
        }
        for figure, value in said.items():
            assert getattr(found, figure) == pytest.approx(value), (inches, shape, figure)
        dowels = [each["count"] for each in listed["dowels"] if each["tier"] == name]
        assert found.dowels == (dowels[0] if dowels else None)
        served = next(each for each in listed["servings"] if each["tier"] == name)
        assert found.portions == served["portions"]["wedding"]


def test_words_of_the_us(tmp_path: Path) -> None:
    """No word of the UK is left, in any of the files, and figures are the same."""
    said = {}
    for words in ("uk", "us"):
        for ending in (".csv", ".html"):
            out = tmp_path / f"{words}{ending}"
            ask("chart", "--sizes", "6,8", "--mould", "60 mm", "--words", words, "-o", out)
            said[words, ending] = out.read_text("utf-8")
        assert ("panelled" in said[words, ".csv"]) == (words == "uk")
        assert ("panelled" in said[words, ".html"]) == (words == "uk")
    assert said["us", ".csv"] == said["uk", ".csv"].replace("panelled", "paneled")


def test_a_square_tin_is_draped_with_a_square() -> None:
    """A circle as wide as its sheet would not reach the corners of the base, by Pythagoras."""
    layers, size = Layers(parse_length("4 in")), parse_length("8 in")
    (found,) = tins([size], ["square"], layers)
    corner = size.mm * math.sqrt(2) / 2 + 101.6
    assert found.rolling_out / 2 < corner
    plan = make_plan(cake_from({"tier": [{"size": size, "depth": "4 in", "shape": "square"}]}))
    (sheet,) = [piece for piece in plan.pieces if piece.kind == "rolling-out-circle"]
    assert sheet.area.area > 1.1 * math.pi / 4 * found.rolling_out**2
    shown = chart([found], layers, "in", parse_length("24 in"))
    assert "sheet to roll out" in shown.headings
    assert "a square sheet for a square one" in shown.notes[0]
