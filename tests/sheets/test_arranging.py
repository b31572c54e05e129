"""Windows on sheets: few, no slivers, what belongs together in a row."""

from __future__ import annotations

import math
from collections import defaultdict
from functools import cache

import pytest

from templates_gen import PAPERS
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box
from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from templates_gen.sheets.arranging import CORNER, ORDERS, arrange
from templates_gen.sheets.frame import Frame, frame_for
from templates_gen.sheets.lattice import GAP, NARROW
from templates_gen.sheets.layout import Layout, lay_out
from templates_gen.sheets.packing import pack_sheets
from templates_gen.sheets.register import arrows_on, joins
from templates_gen.sheets.ruler import ARROW, BASELINE, arrow_tips
from templates_gen.sheets.tiling import splits
from tests.cakes import SAMPLES, one_tier, sample, sample_plan

NAMES = [path.stem for path in SAMPLES]
MOST = {
    "golden-wedding": 9,
    "harbour-wedding": 5,
    "lantern-birthday": 1,
    "lighthouse-farewell": 5,
    "midsummer-tower": 11,
    "naming-day": 4,
    "paper-garden": 5,
    "ruby-wedding": 9,
    "starter": 3,
}
"""Sheets of pieces on A4: what the samples took when this was written."""


def frame(paper: str = "a4") -> Frame:
    """Return the frame of a paper with the usual margins."""
    return frame_for(PAPERS[paper], (), make_plan(one_tier()).margins)


@cache
def layout(name: str, paper: str = "a4", by_tier: bool = False) -> Layout:
    """Return a sample as it is laid out."""
    return lay_out(templates(sample_plan(name)), frame(paper), by_tier=by_tier)


def gaps(numbers: set[int]) -> int:
    """Return how many sheets lie between some that are not of them."""
    return max(numbers) - min(numbers) + 1 - len(numbers)


@pytest.mark.parametrize("name", NAMES)
def test_the_samples_take_few_sheets(name: str) -> None:
    """A change that takes more paper is seen."""
    assert len(layout(name).sheets) <= MOST[name]


@pytest.mark.parametrize("name", NAMES)
def test_few_pieces_go_without_what_to_do(name: str) -> None:
    """A piece has its instructions beside it, and not on the cover alone, where that can be."""
    silent = {"lighthouse-farewell": 1, "midsummer-tower": 2, "paper-garden": 2}
    made = layout(name)
    assert sum(each.is_silent for each in made.lattices) <= silent.get(name, 0)


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", NAMES)
def test_the_windows_of_a_piece_are_on_sheets_in_a_row(name: str, paper: str) -> None:
    """Whoever tapes a piece together leafs through no others.

    Of the two with the most pieces a few other sheets lie between those of some.
    """
    found = [gaps(set(places.values())) for places in layout(name, paper).places.values()]
    assert sum(found) <= (4 if name in ("midsummer-tower", "ruby-wedding") else 0)


@pytest.mark.parametrize("name", NAMES)
def test_no_slivers_and_no_sheet_for_a_corner(name: str) -> None:
    """No window is too narrow to tape well, unless that saves a sheet; none of a corner is alone.

    The last strip of a tape may be short: it costs no sheet.
    """
    made = layout(name)
    slivers = [
        each.piece.id
        for each in made.lattices
        if each.piece.size.height > NARROW and each.narrowest < NARROW
    ]
    if slivers:
        field = frame().field
        ways = [splits(each.piece, field.width + GAP, field.height + GAP) for each in made.lattices]
        clear = [[each for each in way if not each.slivers] or way for way in ways]
        assert arrange(clear, field, by_tier=False).sheets > len(made.sheets), slivers
    for sheet in made.sheets:
        shares = [
            (item.cell.box.width * item.cell.box.height)
            / (item.lattice.piece.size.width * item.lattice.piece.size.height)
            for item, _ in sheet.placed
        ]
        assert max(shares) >= CORNER


@pytest.mark.parametrize("name", ["harbour-wedding", "midsummer-tower"])
def test_by_tier_no_sheet_has_pieces_of_two(name: str) -> None:
    """Each tier starts on a new sheet, and takes the sheets that follow each other."""
    tiers: dict[str, set[int]] = defaultdict(set)
    made = layout(name, by_tier=True)
    for number, sheet in enumerate(made.sheets):
        (tier,) = {item.lattice.piece.tier for item, _ in sheet.placed}
        tiers[tier].add(number)
    assert all(gaps(numbers) == 0 for numbers in tiers.values())
    assert len(made.sheets) >= len(layout(name).sheets)


@pytest.mark.parametrize("name", ["harbour-wedding", "naming-day"])
def test_what_is_tried_is_never_worse_than_one_order(name: str) -> None:
    """The best of all tries takes no more sheets than the plain orders of the handiest windows."""
    field = frame().field
    width, height = field.width + GAP, field.height + GAP
    pieces = [each for each in templates(sample_plan(name)) if each.printed]
    ways = [splits(piece, width, height) for piece in pieces]
    found = arrange(ways, field, by_tier=False)
    sizes = [cell.size for way in ways for cell in way[0].cells]
    plain = min(
        1 + max(spot.sheet for spot in pack_sheets(sizes, items, width, height))
        for items in (sorted(range(len(sizes)), key=lambda n: order(sizes[n])) for order in ORDERS)
    )
    assert found.sheets <= plain
    assert len(found.spots) == sum(len(lattice.cells) for lattice in found.lattices)


def test_the_sheets_are_the_same_each_time() -> None:
    """Nothing is left to chance."""
    one, other = (
        lay_out(templates(make_plan(sample("starter"))), frame()).places for _ in range(2)
    )
    assert one == other


@pytest.mark.parametrize("name", ["harbour-wedding", "lantern-birthday", "starter"])
def test_a_long_strip_has_a_long_line_to_lay_a_ruler_on(name: str) -> None:
    """At each join of a narrow strip arrows stand 60 mm apart or more, on its straight edge.

    One is on either window, so that a ruler along both makes them one strip.
    """
    seen = 0
    for lattice in layout(name).lattices:
        if ": tape" not in lattice.piece.title:
            continue
        for join in joins(lattice):
            assert math.dist(*join.marks) < BASELINE
            first, second = join.tips
            assert second[0] - first[0] >= BASELINE - 1e-6
            assert first[1] == second[1] == pytest.approx(lattice.piece.size.y1)
            assert lattice.tile(join.first).x0 < first[0] < join.start[0]
            assert join.start[0] < second[0] < lattice.tile(join.second).x1
            seen += 1
    assert seen >= 2


def test_no_arrow_stands_on_a_tick() -> None:
    """It would hide it, and be taken for a part of it; the ruler may lie a little farther along."""
    left, right = Box(0.0, 0.0, 250.0, 22.0), Box(250.0, 0.0, 500.0, 22.0)
    edge, ticks = ((0.0, 22.0), (500.0, 22.0)), (209.0, 290.0)
    lines = [edge, *(((x, 22.0), (x, 14.0)) for x in ticks)]
    usual = [x for x, _ in arrow_tips(left, right, (250.0, 22.0), [edge])]
    tips = [x for x, _ in arrow_tips(left, right, (250.0, 22.0), lines)]
    for tip, before, tick in zip(tips, usual, ticks, strict=True):
        assert abs(before - tick) < ARROW / 3
        assert abs(tip - tick) > ARROW / 3
        assert abs(tip - before) <= 5


def test_arrows_say_that_a_ruler_is_laid_there() -> None:
    """On a collar in parts each says so, also in a drip; a tape says it in its own words."""
    plan = sample_plan("starter")
    strips = [each for each in (*plan.pieces, *templates(plan)) if each.kind == "collar"]
    seen = set()
    for lattice in lay_out([each for each in strips if each.printed], frame()).lattices:
        found = [join for join in joins(lattice) if join.tips]
        taken = Taken(each.path for each in lattice.piece.drawing.strokes)
        use = lattice.piece.use
        for join in found:
            for cell in (join.first, join.second):
                words = [label.text for label in arrows_on([join], cell, taken, use).labels]
                assert bool(words) == ("triangle to triangle" not in use)
                assert all("ruler" in text for text in words)
                seen.add(bool(words))
    assert seen == {True, False}
