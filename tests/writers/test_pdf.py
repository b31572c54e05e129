"""The PDF of a pack as qpdf, pikepdf, PDFium and Poppler read it."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import numpy as np
import pikepdf
import pypdfium2
import pytest
import shapely

from templates_gen import PAPERS, write_pdf
from templates_gen.cakefile.papers import Paper, parse_paper
from templates_gen.cover.pack import make_pack
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier
from tests.judges import run
from tests.pdf_content import forms_shown, made, operator, placed, rewritten
from tests.prints import BOTH, OWN, Job, Print, packed, printed
from tests.raster import FAINT, Raster, affine, by_pdfium

ROOT = Path(__file__).parents[2]
SHARED = [job for job in BOTH if job.sample == "naming-day"]
ALL = OWN + SHARED

# W3C CSS Paged Media Level 3, "Page size"; an inch is 25.4 mm
W3C = {
    "a4": (210, 297),
    "a3": (297, 420),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "legal": (8.5 * 25.4, 14 * 25.4),
    "tabloid": (11 * 25.4, 17 * 25.4),  # there called ledger
}
SIDES, ENDS = 7.0, 15.0
"""What a home printer leaves blank at the long and the short edges, mm (common practice)."""
HAIR = 0.1
"""How far a letter may reach beyond the width it is set with, mm."""
BOXES = ("Crop", "Bleed", "Trim", "Art")
TEXT = {"BT", "ET", "Tj", "TJ", "'", '"', "Tf", "Tm", "Td"}


@pytest.fixture(params=ALL, ids="/".join)
def pack(request: pytest.FixtureRequest) -> Print:
    """Every sample on its own paper, and one on the paper that A4 and Letter share."""
    job: Job = request.param
    return printed(job)


SMALL = 150_000
"""What a pack of four tiers may take, bytes: a message with it goes through any mail server."""


@pytest.fixture
def document(pack: Print) -> Iterator[pikepdf.Pdf]:
    """Open the PDF of the pack in pikepdf."""
    with pikepdf.open(BytesIO(pack.pdf)) as opened:
        yield opened


def test_qpdf_finds_nothing_wrong(pack: Print, tmp_path: Path) -> None:
    """``qpdf --check`` has neither errors nor warnings."""
    (tmp_path / "pack.pdf").write_bytes(pack.pdf)
    assert "No syntax or stream encoding errors found" in run(
        "qpdf", "--check", tmp_path / "pack.pdf"
    )


def test_qpdf_finds_a_damaged_file(tmp_path: Path) -> None:
    """The same check fails on a pack with a byte lost."""
    pdf = printed(OWN[0]).pdf
    (tmp_path / "pack.pdf").write_bytes(pdf[:2000] + pdf[2001:])
    with pytest.raises(AssertionError, match="qpdf"):
        run("qpdf", "--check", tmp_path / "pack.pdf")


@pytest.mark.parametrize("sample", ["harbour-wedding", "midsummer-tower"])
def test_a_pack_of_four_tiers_or_five_is_a_small_file(sample: str) -> None:
    """Streams are bytes, lines have no more points and figures no more places than paper shows."""
    pdf = write_pdf(packed(sample, "a4"))
    assert len(pdf) <= SMALL
    with pikepdf.open(BytesIO(pdf)) as opened:
        streams = [each for each in opened.objects if isinstance(each, pikepdf.Stream)]
        assert streams
        assert not [each for each in streams if "/ASCII85Decode" in str(each.get("/Filter"))]


def test_the_printer_is_told_not_to_scale(document: pikepdf.Pdf) -> None:
    """PDF 1.7 asks for no scaling and one side (PrintScaling: Arlington PDF model, from 1.6)."""
    assert document.pdf_version == "1.7"
    assert document.Root.ViewerPreferences.PrintScaling == "/None"
    assert document.Root.ViewerPreferences.Duplex == "/Simplex"


def test_language_and_title_are_given(document: pikepdf.Pdf, pack: Print) -> None:
    """The document has its language and the cake's title, which viewers show."""
    assert document.Root.Lang == "en"
    assert document.docinfo.Title == pack.pack.title
    assert document.Root.ViewerPreferences.DisplayDocTitle


def test_the_outline_leads_to_each_piece(pack: Print) -> None:
    """There is an entry for each printed piece, and it opens the first sheet that shows it."""
    first: dict[str, int] = {}
    for number, window in pack.windows:
        first.setdefault(window["piece"], number)
    titles = {piece.id: piece.title for piece in pack.pieces if piece.printed}
    assert first.keys() == titles.keys()
    opened = pypdfium2.PdfDocument(pack.pdf)
    entries = [(mark.get_title(), mark.get_dest().get_index() + 1) for mark in opened.get_toc()]
    expected = {("Cover", 1), *((titles[piece], number) for piece, number in first.items())}
    assert len(entries) == len(expected)
    assert set(entries) == expected


def test_pages_are_labelled_with_sheet_numbers(document: pikepdf.Pdf, pack: Print) -> None:
    """A viewer shows the same number as the sheet and the manifest."""
    numbers = [str(sheet["number"]) for sheet in pack.manifest["sheets"]]
    assert [page.label for page in document.pages] == numbers


def test_fonts_are_embedded_and_subset(document: pikepdf.Pdf) -> None:
    """Every font is a subset with its outlines and its characters in the file; no Helvetica."""
    fonts = [
        each
        for each in document.objects
        if isinstance(each, pikepdf.Dictionary) and each.get("/Type") == "/Font"
    ]
    assert len(fonts) >= 2
    for font in fonts:
        name = str(font.BaseFont)
        assert len(name.partition("+")[0]) == len("/ABCDEF"), name
        assert "SourceSans3" in name
        assert "/FontFile2" in font.FontDescriptor
        assert "/ToUnicode" in font


def test_poppler_finds_every_font_embedded(pack: Print, tmp_path: Path) -> None:
    """``pdffonts`` lists each font as embedded, subset and mapped to Unicode."""
    (tmp_path / "pack.pdf").write_bytes(pack.pdf)
    rows = run("pdffonts", tmp_path / "pack.pdf").splitlines()[2:]
    assert rows
    assert all(row.split()[-5:-2] == ["yes", "yes", "yes"] for row in rows)


def test_each_paper_has_an_independent_size() -> None:
    """Every named paper is in the table of the W3C, and has its size."""
    assert W3C.keys() <= PAPERS.keys()
    for name, paper in ((name, PAPERS[name]) for name in W3C):
        assert (paper.width, paper.height) == pytest.approx(W3C[name], abs=1e-9)


@pytest.mark.parametrize(
    ("paper", "size"),
    [
        *((PAPERS[name], size) for name, size in W3C.items()),
        (parse_paper("8 1/4 in x 13 in"), (8.25 * 25.4, 13 * 25.4)),
    ],
    ids=lambda value: getattr(value, "name", ""),
)
def test_pages_have_the_size_of_the_paper(paper: Paper, size: tuple[float, float]) -> None:
    """The media box is the paper to 0.01 pt, upright, with no other box, turn or unit."""
    spec = one_tier()
    pdf = write_pdf(make_pack(make_plan(spec), paper))
    with pikepdf.open(BytesIO(pdf)) as document:
        for page in document.pages:
            box = [float(each) for each in page.MediaBox]
            assert box == pytest.approx([0, 0, size[0] / 25.4 * 72, size[1] / 25.4 * 72], abs=0.01)
            assert all(page.get(f"/{name}Box", page.MediaBox) == page.MediaBox for name in BOXES)
            assert "/UserUnit" not in page
            assert page.get("/Rotate", 0) == 0


def test_each_piece_is_one_form_shown_once_in_each_window(
    document: pikepdf.Pdf, pack: Print
) -> None:
    """A page shows the forms its windows name, where they say, through a clip; no form is spare."""
    form_of: dict[str, tuple[int, int]] = {}
    for page, sheet in zip(document.pages, pack.manifest["sheets"], strict=True):
        for shown, window in zip(forms_shown(page), sheet["windows"], strict=True):
            assert form_of.setdefault(window["piece"], shown.form.objgen) == shown.form.objgen
            assert np.allclose(shown.to_page, affine(*window["to_sheet"]), rtol=0, atol=1e-3)
            assert shown.clipped
    forms = {
        each.objgen
        for each in document.objects
        if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Form"
    }
    assert len(set(form_of.values())) == len(form_of)
    assert set(form_of.values()) == forms


def test_no_text_is_in_a_form_or_under_a_clip(document: pikepdf.Pdf) -> None:
    """Text is drawn on the pages, where it shows, and never in the invisible mode."""
    for page in document.pages:
        for instruction, _, clipped in placed(page):
            assert not (clipped and operator(instruction) in TEXT)
            assert operator(instruction) != "Tr"
        for shown in forms_shown(page):
            drawn = {operator(each) for each in pikepdf.parse_content_stream(shown.form)}
            assert drawn.isdisjoint(TEXT)


def characters(
    page: pypdfium2.PdfPage, *, turned: bool = True
) -> Iterator[tuple[str, list[float]]]:
    """Yield the characters PDFium finds on a page, with the boxes of their outlines in mm.

    Without ``turned``, only those that stand upright or are turned by quarters.
    """
    text = page.get_textpage()
    for place in range(text.count_chars()):
        char = text.get_text_range(place, 1)
        angle = pypdfium2.raw.FPDFText_GetCharAngle(text, place)
        if char.strip() and (turned or abs(math.sin(2 * angle)) < 1e-3):
            yield char, [side / 72 * 25.4 for side in text.get_charbox(place)]


def text_faults(pdf: bytes, paper: Paper) -> set[str]:
    """Return what is wrong with a character of a PDF: out of the printable area, or not seen."""
    found = set()
    for page, raster in zip(pypdfium2.PdfDocument(pdf), by_pdfium(pdf), strict=True):
        for _, (left, foot, right, top) in characters(page):
            across = SIDES - HAIR <= left < right <= paper.width - SIDES + HAIR
            if not (across and ENDS - HAIR <= foot < top <= paper.height - ENDS + HAIR):
                found.add("outside")
            elif not seen(raster, left, foot, right, top):
                found.add("hidden")
    return found


def seen(raster: Raster, left: float, foot: float, right: float, top: float) -> bool:
    """Tell whether there is ink in a box of a page, mm."""
    (x0, y1, _), (x1, y0, _) = (raster.from_mm @ (*at, 1) for at in ((left, foot), (right, top)))
    part = raster.ink[int(y0) : int(y1) + 2, int(x0) : int(x1) + 2]
    return bool(part.max() >= FAINT)


def inked_margins(pdf: bytes) -> int:
    """Count the pixels drawn where a printer cannot print, beyond half the width of a line."""
    count = 0
    for raster in by_pdfium(pdf):
        x = int((SIDES - 0.25) * raster.from_mm[0, 0])
        y = int((ENDS - 0.25) * -raster.from_mm[1, 1])
        count += int(np.count_nonzero(raster.ink) - np.count_nonzero(raster.ink[y:-y, x:-x]))
    return count


def test_text_is_printable_and_seen(pack: Print) -> None:
    """Every character found on a page lies in the printable area, and has ink in its place."""
    assert not text_faults(pack.pdf, pack.pack.paper)


def test_margins_stay_blank(pack: Print) -> None:
    """Nothing is drawn where a home printer cannot print."""
    assert inked_margins(pack.pdf) == 0


def test_sheets_out_of_place_and_text_painted_over_are_caught() -> None:
    """The checks of margins and text fail on sheets moved 3 mm, and under a white patch."""
    pack = printed(OWN[1])
    moved = rewritten(pack.pdf, lambda _, page: [made("cm", 1, 0, 0, 1, 8.5, 0), *page])
    assert inked_margins(moved)
    assert text_faults(moved, pack.pack.paper) == {"outside"}
    patch = [made("g", 1), made("re", 0, 0, 210, 297), made("f")]
    white = rewritten(pack.pdf, lambda _, page: page + patch)
    assert text_faults(white, pack.pack.paper) == {"hidden"}


def test_no_letter_lies_on_another() -> None:
    """No two letters of a sheet, upright or turned by quarters, share more than a hair's breadth.

    A letter turned otherwise is left out: an upright box round it is larger than it is. Letters of
    the face reach over their neighbours (“ff”, “YY”) by 0.07 mm at the most.
    """
    for job in OWN:
        for page in pypdfium2.PdfDocument(printed(job).pdf):
            boxes = [shapely.Polygon.from_bounds(*box) for _, box in characters(page, turned=False)]
            for one, other in shapely.STRtree(boxes).query(boxes, "intersects").T:
                left, foot, right, top = boxes[one].intersection(boxes[other]).bounds
                assert one == other or min(right - left, top - foot) < 0.075


SAME_BYTES = """
from hashlib import sha256
from tests.prints import OWN, printed
from templates_gen.writers.manifest import write_manifest
pack = printed(OWN[0])
files = [pack.pdf, write_manifest(pack.pack), *map(pack.svg, pack.shown)]
print(*[sha256(file).hexdigest() for file in files])
"""


def test_same_bytes_in_two_processes() -> None:
    """Another process with another hash seed writes the same bytes of every file."""
    found = {
        subprocess.run(
            [sys.executable, "-c", SAME_BYTES],
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(found) == 1
    assert found.pop().strip()


@pytest.mark.parametrize("sample", sorted({job.sample for job in BOTH}))
def test_both_gives_everyone_the_same_sheets(sample: str) -> None:
    """On A4 and Letter each sheet has the same number, windows and codes, moved as one."""
    a4, letter = (printed(Job(sample, "both", paper)) for paper in ("a4", "letter"))
    assert len(a4.windows) == len(letter.windows)
    # half of what the papers differ by: both are printed about the middle
    aside, up = (8.5 * 25.4 - 210) / 2, (11 * 25.4 - 297) / 2
    for (one, on_a4), (other, on_letter) in zip(a4.windows, letter.windows, strict=True):
        assert one == other
        assert all(on_a4[key] == on_letter[key] for key in ("piece", "code", "box_mm"))
        moved = np.subtract(on_letter["to_sheet"], on_a4["to_sheet"])
        assert moved == pytest.approx([0, 0, 0, 0, aside, up], abs=1e-9)


def test_a_title_in_any_script_is_read_back(tmp_path: Path) -> None:
    """Latin with accents, Greek, Cyrillic and brackets are found by a search, and in the title."""
    title = r"Žluťoučký (50 %) \ Γάμος – Свадьба"
    spec = cake(f"title = '{title}'\n[[tier]]\nsize = '6 in'\ndepth = '4 in'")
    pdf = write_pdf(make_pack(make_plan(spec), PAPERS["a4"]))
    (tmp_path / "pack.pdf").write_bytes(pdf)
    assert title in run("pdftotext", "-layout", tmp_path / "pack.pdf", "-")
    with pikepdf.open(BytesIO(pdf)) as document:
        assert document.docinfo.Title == title
