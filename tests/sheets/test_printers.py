"""Packs for a measured printer: what it does to lengths is undone, and all stays in its reach."""

from __future__ import annotations

import math
from functools import cache

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen import PAPERS, write_pdf
from templates_gen.cakefile.papers import Margins, Paper
from templates_gen.cakefile.printers import LEAST, MOST, Printer
from templates_gen.cover.pack import make_pack, make_packs
from templates_gen.cover.printer_check import printer_check
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Box
from templates_gen.plan import Plan, make_plan
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.pack import Pack, Sheet
from tests.cakes import one_tier

SCALE = st.floats(LEAST, MOST)
PRINTER = st.builds(Printer, st.just("kitchen"), SCALE, SCALE)
PLACE = st.tuples(st.floats(0, 1), st.floats(0, 1))
KITCHEN = Printer("kitchen", 0.985, 1.012)


def printed(printer: Printer, paper: Paper, anchor: tuple[float, float], box: Box) -> Box:
    """Return where a box of a page comes out: lengths grow from the anchor, a share of the page."""
    x, y = anchor[0] * paper.width, anchor[1] * paper.height
    across, up = printer.across, printer.up
    return Box(
        x + (box.x0 - x) * across,
        y + (box.y0 - y) * up,
        x + (box.x1 - x) * across,
        y + (box.y1 - y) * up,
    )


@given(PRINTER, PLACE, st.sampled_from(list(PAPERS.values())))
def test_the_scale_of_the_file_undoes_the_printer(
    printer: Printer, anchor: tuple[float, float], paper: Paper
) -> None:
    """Scale in the file times error of the printer is 1 each way; all lies within its margins.

    In the file and on the paper, from whatever point of the page the printer stretches it.
    """
    frame = frame_for(paper, (), Margins(), printer)
    pack = Pack("Cake", "", paper, frame.area, (), printer)
    assert pack.to_page[0] * printer.across == pytest.approx(1, abs=1e-12)
    assert pack.to_page[3] * printer.up == pytest.approx(1, abs=1e-12)
    in_file = frame.area.transformed(pack.to_page)
    on_paper = printed(printer, paper, anchor, in_file)
    assert on_paper.size == pytest.approx(frame.area.size, abs=1e-9)
    reach = Box(7, 15, paper.width - 7, paper.height - 15).expanded(1e-9)
    assert reach.contains(in_file)
    assert reach.contains(on_paper)


@cache
def plan() -> Plan:
    """Return a cake of one tier."""
    return make_plan(one_tier())


def test_nothing_is_scaled_without_a_printer() -> None:
    """The same bytes as ever; a printer gives others, another pack mark and another file name."""
    one, own = make_pack(plan(), PAPERS["a4"]), make_pack(plan(), PAPERS["a4"], printer=KITCHEN)
    assert tuple(one.to_page) == (1, 0, 0, 1, 0, 0)
    assert own.pack_mark != one.pack_mark
    assert own.name == f"{one.name}-kitchen"
    other = make_pack(plan(), PAPERS["a4"], printer=Printer("kitchen", 0.985, 1.011))
    assert other.pack_mark != own.pack_mark
    again = make_pack(plan(), PAPERS["a4"], printer=KITCHEN)
    assert write_pdf(again) == write_pdf(own)


def words(sheet: Sheet) -> str:
    """Return all words of a sheet."""
    return " ".join(label.text.replace("\u00a0", " ") for label in sheet.drawing.labels)


@pytest.mark.parametrize("name", ["a4", "letter", "both", "150 mm x 210 mm"])
def test_every_sheet_names_its_printer_and_what_the_bars_must_read(name: str) -> None:
    """The head of each sheet has the printer's name, its foot the length of the bars."""
    for pack in make_packs(plan(), [name], printer=KITCHEN):
        for sheet in pack.sheets:
            assert "for the printer “kitchen” only" in words(sheet)
            assert "Both bars must read 1" in words(sheet)
        assert "98.5 % across" in words(pack.sheets[0])


def test_a_plan_that_names_a_printer_needs_it() -> None:
    """Without its values there are no sheets, rather than sheets that are not true."""
    named = make_plan(one_tier().model_copy(update={"printer": "kitchen"}))
    with pytest.raises(CakeError, match="kitchen"):
        make_pack(named, PAPERS["a4"])
    assert make_pack(named, PAPERS["a4"], printer=KITCHEN).printer == KITCHEN


@pytest.mark.parametrize("name", ["a4", "letter", "legal", "a3"])
def test_the_check_sheet_has_steps_to_each_edge(name: str) -> None:
    """Steps run from 1 to 20 mm from each edge; all else keeps farther from it than the steps."""
    paper = PAPERS[name]
    drawing = printer_check(paper).sheets[0].drawing
    whole = Box(0, 0, paper.width, paper.height)
    inner = whole.expanded(-20)
    for side in range(4):
        lines = [stroke.path.bounds for stroke in drawing.strokes]
        distance = [abs(line[side] - whole[side]) for line in lines]
        steps = {round(each) for each in distance if each < 20.5 and math.isclose(each % 1, 0)}
        assert steps >= set(range(1, 21))
    others = [label.box for label in drawing.labels if not label.text.isdigit()]
    assert all(inner.contains(box) for box in others)


def test_a_small_paper_has_no_check_sheet() -> None:
    """Bars of 150 mm have no room on it."""
    with pytest.raises(CakeError, match="too small"):
        printer_check(Paper("own", 148, 210))
