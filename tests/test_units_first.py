"""Lengths on paper: in the unit of the cake file first, the other one in brackets."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from templates_gen.bench.bench_list import bench
from templates_gen.bench.calendar import calendar
from templates_gen.bench.day_plan import as_html
from templates_gen.bench.report import sections
from templates_gen.bench.shopping import as_csv, shopping
from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.text_block import measure
from templates_gen.handout.contents import handout
from templates_gen.plan import make_plan
from templates_gen.sheets.pack import Pack
from templates_gen.terms import inches_first
from templates_gen.units import decimal, in_both, inch_fraction
from templates_gen.views.picture import picture
from tests.cakes import SAMPLES, cake, one_tier, pieces_of
from tests.prints import packed

MM_FIRST = re.compile(r"\d[ \u00a0]mm[ \u00a0]\([\d /⅛¼⅜½⅝¾⅞\u00a0]+in\)")
INCHES_FIRST = re.compile(r"[\d⅛¼⅜½⅝¾⅞][ \u00a0]in[ \u00a0]\(-?[\d.]+[ \u00a0]mm\)")
IN_MM = {"naming-day", "paper-garden", "ruby-wedding"}
STACK = """
[[tier]]
size = "{0}"
depth = "5 in"
name = "low"
cover = "panelled"
dummy = true
[tier.drips]
[tier.opening]
radius = "1 in"
[[tier]]
size = "{1}"
depth = "10 cm"
[[tier.design]]
kind = "swags"
"""


def texts(pack: Pack) -> Iterator[str]:
    """Yield every text on the sheets of a pack."""
    for sheet in pack.sheets:
        yield from (label.text for label in sheet.drawing.labels)
        for window in sheet.windows:
            yield from (label.text for label in window.piece.drawing.labels)
            yield window.piece.use


@pytest.mark.parametrize("name", [path.stem for path in SAMPLES])
def test_the_samples_have_their_own_unit_first_on_every_sheet(name: str) -> None:
    """Pieces, tapes, captions, cover and maps: not one length the other way about."""
    said = list(texts(packed(name, "a4")))
    wrong, right = (INCHES_FIRST, MM_FIRST) if name in IN_MM else (MM_FIRST, INCHES_FIRST)
    assert not [text for text in said if wrong.search(text)]
    assert sum(bool(right.search(text)) for text in said) > 10


@pytest.mark.parametrize(
    ("sizes", "inches"),
    [(("10 in", "6 in"), True), (("254 mm", "15 cm"), False), (("10 in", "150 mm"), False)],
)
def test_the_tiers_say_which_unit_is_first(sizes: tuple[str, str], inches: bool) -> None:
    """The unit that most tiers are given in, whatever that of other lengths; else mm."""
    said = list(texts(make_pack(make_plan(cake(STACK.format(*sizes))), PAPERS["a4"])))
    assert any(INCHES_FIRST.search(text) for text in said) == inches
    assert any(MM_FIRST.search(text) for text in said) != inches


@pytest.mark.parametrize(("size", "inches"), [("10 in", True), ("25 cm", False)])
def test_a_picture_has_the_unit_of_the_cake_first(size: str, inches: bool) -> None:
    """In a file of its own and on the page for students, as on the cover."""
    plan = make_plan(cake(STACK.format(size, "15 cm" if not inches else "6 in")))
    said = [label.text for label in picture(plan, 180.0, 240.0).drawing.labels]
    said += [words for step in handout(plan).steps for _, words in step.pieces]
    wrong, right = (MM_FIRST, INCHES_FIRST) if inches else (INCHES_FIRST, MM_FIRST)
    assert not [text for text in said if wrong.search(text)]
    assert sum(bool(right.search(text)) for text in said) > 3


@pytest.mark.parametrize(("size", "unit"), [("6 in", "in"), ("152 mm", "mm")])
def test_notes_on_a_collar_are_in_one_unit_where_both_have_no_room(size: str, unit: str) -> None:
    """That of the cake; on a larger cake the same notes are in both."""
    for wide, count in ((size, 1), (size.replace("6", "16").replace("152", "406"), 2)):
        design = "design = [{ kind = 'swags', width = '40 mm' }]\n"
        (collar,) = (one for one in pieces_of(one_tier(design, wide)) if one.kind == "collar")
        said = (label.text for label in collar.drawing.labels)
        (note,) = (text for text in said if "repeat width" in text)
        assert len(set(re.findall(r"\b(?:in|mm)\b", note))) == count
        assert re.search(rf"string length [^,a-z]+{unit}", note.replace("\u00a0", " "))


@pytest.mark.parametrize(("size", "word"), [("3 in", "inches"), ("76 mm", "mm")])
def test_a_narrow_ring_has_drips_in_the_unit_of_the_cake(size: str, word: str) -> None:
    """Numbers alone beside its marks, their unit in what it says to do."""
    pieces = pieces_of(one_tier("drips.guide = 'both'\n", size))
    (ring,) = (piece for piece in pieces if piece.kind == "top-edge-guide")
    (row,) = (tier.drip_row for tier in make_plan(one_tier("[tier.drips]", size)).stack.tiers)
    assert row is not None
    assert f"the length in {word} beside it" in ring.use
    numbers = {inch_fraction(mm) if word == "inches" else decimal(mm, 0) for mm in row.lengths}
    assert numbers <= {label.text for label in ring.drawing.labels}


def test_what_is_cut_is_as_thick_in_inches_first() -> None:
    """Fondant, boards and spacers of a cake in inches; no thickness in mm alone."""
    raised = "raised = '2 in'\nseparator.kind = 'spacer'\n[[tier.design]]"
    stack = STACK.format("10 in", "6 in").replace("[[tier.design]]", raised)
    plan = make_plan(cake(f"drum.fondant = '3 mm'\n{stack}"))
    (cuts,) = (part for part in sections(bench(plan), plan.terms) if part.title == "To cut")
    said = [row[1] for row in cuts.rows]
    assert sum(bool(INCHES_FIRST.search(text)) for text in said) > 5
    assert not [text for text in said if re.search(r"[^(\d.][\d.]+ mm", text)]


def test_a_length_turned_about_keeps_its_figures_and_its_blanks() -> None:
    """Both figures stay, what cannot be broken stays so, and a second time changes nothing."""
    assert inches_first(in_both(209.6)) == "8¼ in (209.6 mm)"
    whole = inches_first(measure(209.6))
    assert whole == "8¼ in (209.6 mm)".replace(" ", "\u00a0")
    assert inches_first(whole) == whole
    assert inches_first("2 mm of 3 mm (⅛ in) (thin)") == "2 mm of ⅛ in (3 mm) (thin)"


@pytest.mark.parametrize(("size", "inches"), [("10 in", True), ("25 cm", False)])
def test_lists_in_files_of_their_own_have_the_unit_of_the_cake_first(
    size: str, inches: bool
) -> None:
    """The shopping list as CSV, the plan by day as a page, the order of work as a calendar."""
    raised = "raised = '2 in'\nseparator.kind = 'spacer'\npaint.on = 'side'\n[[tier.design]]"
    stack = STACK.format(size, "6 in" if inches else "15 cm").replace("[[tier.design]]", raised)
    text = f"words = 'us'\n{stack}"
    plan = make_plan(cake(f"{text}[prices]\nboard = 2.0\n[work]\nready = 2027-06-19 14:00:00\n"))
    found = bench(plan)
    rows = shopping(found, plan.stack.estimates, plan.prices, plan.terms.place)
    said = [
        as_csv(rows, plan.terms).decode("utf-8-sig"),
        as_html(found, plan.terms),
        calendar(plan).decode().replace("\r\n ", ""),
    ]
    wrong, right = (MM_FIRST, INCHES_FIRST) if inches else (INCHES_FIRST, MM_FIRST)
    for each in said:
        assert right.search(each)
        assert not wrong.search(each)
        assert "colour" not in each
        assert "sugar paste" not in each


PIPED = """
words = "{place}"
unit = "{unit}"
[drum]
size = {drum}
ribbon = "15 mm"
[[tier]]
size = {size}
depth = {depth}
[[tier.design]]
kind = "{kind}"
top = "30 mm"
[[tier.lettering]]
text = "Oak"
"""
IN_METRES = {"m": 1.0, "in": 0.0254, "yd": 0.9144}
LONG = re.compile(r"([\d.]*)([¼½¾]?) (m|in|yd)(?: \(([\d.]*)([¼½¾]?) (m|in|yd)\))?")
QUARTERS = {"": 0.0, "¼": 0.25, "½": 0.5, "¾": 0.75}


SIZES: dict[str, dict[str, float]] = {
    "in": {"drum": 14, "size": 8, "depth": 4},
    "cm": {"drum": 35.56, "size": 20.32, "depth": 10.16},
}


@pytest.mark.parametrize("unit", SIZES)
@pytest.mark.parametrize("place", ["uk", "us"])
@pytest.mark.parametrize("kind", ["swags", "diamonds"])
def test_ribbon_and_piped_lines_are_in_the_unit_of_the_cake(
    unit: str, place: str, kind: str
) -> None:
    """Inches or yards first where its file is in inches, whatever its words; both are true."""
    plan = make_plan(cake(PIPED.format(unit=unit, place=place, kind=kind, **SIZES[unit])))
    found = bench(plan)
    cells = [cell for part in sections(found, plan.terms) for row in part.rows for cell in row]
    lines = [cell.split("if piped: ")[1] for cell in cells if "if piped: " in cell]
    true = [each["length_m"] for each in found["piping"]]
    assert len(lines) == len(true) == 2
    for said, length in zip(lines, true, strict=True):
        match = LONG.fullmatch(said)
        assert match is not None
        first, second = match.groups()[:3], match.groups()[3:]
        assert (first[2] == "m") == (unit == "cm")
        for number, quarter, of in (first, second):
            metres = (float(number or 0) + QUARTERS[quarter]) * IN_METRES[of]
            assert metres == pytest.approx(
                length, abs=0.51 * {"in": 0.0254, "yd": 0.2286}.get(of, 0.1)
            )
    assert ("1¼ yd (1.14 m)" in cells) == (unit == "in")
    assert ("1.14 m (1¼ yd)" in cells) == (unit == "cm")
