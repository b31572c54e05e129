"""Packs on a roll: pieces whole on as much of it as they need, words on ordinary paper."""

from __future__ import annotations

import pytest

from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_packs
from templates_gen.plan import make_plan
from tests.cakes import one_tier, sample_plan


@pytest.mark.parametrize("paper", ["roll 610 mm", "roll 914 mm"])
def test_pieces_are_whole_and_words_beside(paper: str) -> None:
    """No piece of a sample is in parts; the cover is on A4, its sheets are counted first."""
    plan = sample_plan("harbour-wedding")
    roll, cover = make_packs(plan, [paper])
    windows = [window for sheet in roll.sheets for window in sheet.windows]
    assert len(windows) == len({window.piece.id for window in windows})
    assert not any(sheet.windows for sheet in cover.sheets)
    a4 = PAPERS["a4"]
    assert (cover.paper.width, cover.paper.height) == (a4.width, a4.height)
    numbers = [sheet.number for pack in (cover, roll) for sheet in pack.sheets]
    assert numbers == list(range(1, len(numbers) + 1))
    assert roll.pack_mark == cover.pack_mark
    assert roll.name != cover.name
    assert "Sheet 1 of 3" in {label.text for label in cover.sheets[0].drawing.labels}


def test_no_more_of_a_roll_is_used_than_is_needed() -> None:
    """A small cake takes a short length, a longer wrap a longer one, the width is the roll's."""
    lengths = []
    for size in ("5 in", "9 in"):
        spec = one_tier("print = 'whole'\ncover = 'panelled'", size=size, depth="5 in")
        roll, _ = make_packs(make_plan(spec), ["roll 610 mm"])
        assert roll.paper.width == 610
        reached = min(
            window.box.transformed(window.to_sheet).y0
            for sheet in roll.sheets
            for window in sheet.windows
        )
        # the lowest piece lies near the foot of what can be printed
        assert reached - roll.area.y0 < 60
        lengths.append(roll.paper.height)
    assert 250 <= lengths[0] < lengths[1] < 1200


def test_what_is_longer_than_a_page_can_be_is_parted() -> None:
    """A roll that is narrower than a piece both ways shows it in parts, as any paper does."""
    spec = one_tier("print = 'whole'\nrolling_out_circle = true", size="12 in")
    roll, _ = make_packs(make_plan(spec), ["roll 250 mm"])
    windows = [window for sheet in roll.sheets for window in sheet.windows]
    assert len(windows) > len({window.piece.id for window in windows})
