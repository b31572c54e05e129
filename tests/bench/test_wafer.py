"""Petals and small pieces of wafer paper: sheets, no paste, no drying, cautions, a price."""

from __future__ import annotations

import csv
import io
import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.bench.rolled import Rolled
from templates_gen.bench.section import ASSUMPTIONS
from templates_gen.bench.shopping import as_csv, shopping
from templates_gen.bench.wafer import sheets
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.cut_from import WAFER
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.lengths import length_of
from templates_gen.errors import CakeError
from templates_gen.guides.decorated import build_stack
from templates_gen.pieces.cautions import cautions
from templates_gen.plan import make_plan
from templates_gen.views.scene import scene
from tests.cakes import cake

TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
PAPER = "material = 'wafer paper'\n"
TABLES = {
    "scatter": "[[tier.scatter]]\nsize = '16 mm'\ncount = 12\n",
    "cascade": "[[cascade]]\n",
    "petals": "[[flower]]\nkind = 'lily'\nwidth = '60 mm'\ncount = 3\n",
}
"""By the kind of its paper, a table of what can be cut from either; a lily has no middle."""
WIDE, TALL = 8 * 25.4, 11 * 25.4
"""The smaller of the sheets that are sold, mm: common practice, no source."""


def with_pieces(kind: str, lines: str = "") -> Cake:
    """Return a cake with a table of pieces, and more lines of it."""
    return cake(f"{TIER}{TABLES[kind]}{lines}")


def listed(kind: str, lines: str = "") -> dict[str, Any]:
    """Return the bench list of such a cake."""
    return bench(make_plan(with_pieces(kind, lines)))


def bought(found: dict[str, Any]) -> dict[str, Any]:
    """Return what is bought of wafer paper."""
    return {each["what"]: each for each in found["shopping"] if WAFER in each["what"]}


@pytest.mark.parametrize("kind", TABLES)
def test_no_paste_is_weighed_nor_coloured(kind: str) -> None:
    """What is cut from sheets leaves the paste of the cake as it is without the pieces."""
    keys = ("rolled", "paste", "paste_by_colour", "gum")
    without = bench(make_plan(cake(TIER)))
    paper, paste = listed(kind, PAPER), listed(kind)
    assert {key: paper[key] for key in keys} == {key: without[key] for key in keys}
    assert paste["gum"]
    assert not bought(paste)
    assert not any(WAFER in row["what"] for row in paste["pieces"])


@pytest.mark.parametrize("kind", TABLES)
def test_papers_and_steps_name_what_is_cut(kind: str) -> None:
    """The paper of the pieces, the cut list and the order of work agree; nothing is rolled."""
    (use,) = [each.use for each in make_plan(with_pieces(kind, PAPER)).pieces if each.kind == kind]
    assert "dry white wafer paper" in use
    assert "rolled" not in use
    found, stages = listed(kind, PAPER), ("small pieces ahead", "petals")
    said = [each["what"] for each in found["times"] if each["stage"] in stages]
    assert all("from wafer paper" in words and "thick" not in words for words in said)
    assert said
    rows = [row["what"] for row in found["pieces"] if WAFER in row["what"]]
    assert len(rows) >= 2
    assert all("mm" not in row for row in rows)


@pytest.mark.parametrize("kind", ["scatter", "cascade"])
def test_pieces_are_not_dried_and_not_set_with_icing(kind: str) -> None:
    """They are dry as they are sold; paste dries two days (published: 2 to 7)."""
    for lines, wait in ((PAPER, 0.0), ("", 48.0)):
        found = listed(kind, lines)
        (cut,) = [each for each in found["times"] if each["stage"] == "small pieces ahead"]
        (done,) = [each for each in found["times"] if each["stage"] in ("small pieces", "cascade")]
        assert cut["wait_h"] == wait
        assert ("piping gel or a little water" in done["what"]) == bool(lines)
        assert "icing" not in done["what"] or not lines


def test_petals_of_paper_are_misted_and_wires_go_under_strips() -> None:
    """Nothing is thinned; without wires they are set with gel, not with icing."""
    wired = " ".join(each["what"] for each in listed("petals", PAPER)["times"])
    assert "under strips of the paper, mist the parts lightly" in wired
    assert "no bare wire goes into the cake" in wired
    cup = " ".join(each["what"] for each in listed("petals", f"{PAPER}wired = false\n")["times"])
    assert "in a cup with piping gel or a little water" in cup
    assert "strips of the paper" not in cup
    assert "thin the edges" not in wired + cup


@given(st.integers(1, 300), st.integers(10, 200), st.integers(10, 200), st.integers(0, 10))
def test_like_pieces_take_the_sheets_of_a_grid(n: int, wide: int, high: int, gap: int) -> None:
    """So many columns times so many rows go on a sheet, all one way, whichever holds more."""
    ways = ((wide, high), (high, wide))
    grids = [int((WIDE + gap) / (w + gap)) * int((TALL + gap) / (h + gap)) for w, h in ways]
    estimates = Estimates(waste=0.0, cut_gap=length_of(gap))
    part = Rolled("a", "pack", WAFER, "white", 0.4, 1.0, 1.0, ((wide + gap, high + gap, n),))
    assert dict(sheets([part], estimates)) == {"white": math.ceil(n / max(grids))}


boxes = st.lists(
    st.tuples(st.floats(4, 200), st.floats(4, 200), st.integers(0, 40)), min_size=1, max_size=5
)


@given(boxes)
def test_a_mix_takes_no_less_than_its_area_and_no_more_than_one_by_one(
    mix: list[tuple[float, float, int]],
) -> None:
    """Two bounds of any way to lay rectangles out, and more waste takes no fewer sheets."""
    part = Rolled("a", "pack", WAFER, "white", 0.4, 1.0, 1.0, tuple(mix))
    plain, more = (
        dict(sheets([part], Estimates(waste=waste, cut_gap=length_of(0))))["white"]
        for waste in (0.0, 15.0)
    )
    area = sum(wide * high * count for wide, high, count in mix)
    assert area / (WIDE * TALL) - 1e-6 <= plain <= sum(count for *_, count in mix)
    assert plain <= more


def test_sheets_are_counted_colour_by_colour_with_waste() -> None:
    """With a calculator: 50 mm with 4 mm beside go 3 across and 5 down, 15 on a sheet.

    13 and 15 % are 15, one sheet; 14 are 17, two. Twice as many of one colour share sheets; those
    of another colour have their own.
    """
    estimates = Estimates()
    for count, number, twice in ((13, 1, 2), (14, 2, 3)):
        part = Rolled("a", "pack", WAFER, "white", 0.4, 1.0, 1.0, ((54.0, 54.0, count),))
        other = Rolled("b", "pack", WAFER, "sage", 0.4, 1.0, 1.0, ((54.0, 54.0, 1),))
        assert dict(sheets([part, other], estimates)) == {"white": number, "sage": 1}
        assert dict(sheets([part, part], estimates)) == {"white": twice}


def test_sheets_are_bought_and_paid_by_the_piece() -> None:
    """One line for each colour, with its price, in the list, its costs and as CSV."""
    lines = f"{PAPER}leaf_colour = 'sage'\n[prices]\nwafer_paper = 0.75\n"
    found = listed("petals", lines)
    names = [f"sheet of wafer paper, {colour}, A4 or 8 × 11 in" for colour in ("white", "sage")]
    rows = bought(found)
    assert list(rows) == names
    assert all(each["cost"] == 0.75 * each["quantity"] for each in rows.values())
    assert found["cost"]["bought"] == sum(each["cost"] for each in rows.values())
    plan = make_plan(with_pieces("petals", lines))
    written = as_csv(shopping(found, plan.stack.estimates, plan.prices, plan.terms.place)).decode()
    cells = {row[0]: row for row in csv.reader(io.StringIO(written))}
    for name in names:
        number = rows[name]["quantity"]
        assert cells[name][1:] == [f"{number}", f"{number}", "", "", f"{0.75 * number:.2f}"]
    (says,) = [part.notes for part in sections(found) if part.title == ASSUMPTIONS]
    assert "8 × 11 in, which A4 holds" in " ".join(says)


@pytest.mark.parametrize("kind", TABLES)
def test_the_caution_is_there_with_wafer_paper_alone(kind: str) -> None:
    """Paper curls where it is moist; of wires the usual caution stays."""
    for lines, has in ((PAPER, True), ("", False)):
        said = " ".join(cautions(build_stack(with_pieces(kind, lines))))
        assert ("curls in moist air" in said) == has
        assert ("No wire goes into a cake" in said) == (kind == "petals")


def test_a_piece_larger_than_a_sheet_is_refused() -> None:
    """200 mm go on a sheet 203 mm wide whichever way; paste can be rolled larger."""
    tall = TIER.replace("4 in", "16 in") + "[[tier.scatter]]\ncount = 1\nsize = '{} mm'\n"
    for size, lines in ((200, PAPER), (201, "")):
        make_plan(cake(tall.format(size) + lines))
    with pytest.raises(CakeError) as caught:
        cake(tall.format(201) + PAPER)
    (problem,) = caught.value.problems
    assert problem.key == ("tier", 0, "scatter", 0, "material")
    assert "200 mm" in problem.allowed


def test_it_is_thin_on_the_picture() -> None:
    """Wafer paper is 0.3 to 0.6 mm thick, common practice, no source; paste as it is rolled."""
    for lines, least, most in ((PAPER, 0.3, 0.6), ("thickness = '3 mm'\n", 3, 3)):
        seen = scene(build_stack(with_pieces("scatter", lines)))
        (raised,) = [mark.raised for body in seen.bodies for mark in body.on_side]
        assert least <= raised <= most
