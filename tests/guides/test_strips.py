"""Strips of ruffles, pleats, fringe, lace and bows: their lengths, against circles and cones."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.strips import Strip
from templates_gen.plan import make_plan
from tests.cakes import one_tier

LAP = 5.0
BARE = "cover = 'none'\ncoating = '0 mm'\n"


def strips_of(lines: str, tier: str = BARE, size: str = "8 in") -> tuple[Strip, ...]:
    """Return the strips of the one design of a tier 4 in deep."""
    made = one_tier(f"{tier}[[tier.design]]\n{lines}", size)
    (guide,) = build_stack(made).tiers[0].guides
    return guide.strips


@given(st.floats(1, 6), st.floats(40, 1500), st.floats(60, 600))
def test_strips_reach_round_gathered_and_are_as_few_as_can_be(
    fullness: float, longest: float, size: float
) -> None:
    """Less their laps they are girth × fullness long; none is too long to roll; one less is."""
    lines = f"kind = 'ruffles'\nrows = 1\nfullness = {fullness}\nstrip = '{longest} mm'\n"
    (found,) = strips_of(lines, size=f"{size} mm")
    flat = math.pi * size * fullness
    assert found.count * (found.length - LAP) == pytest.approx(flat)
    assert found.length <= longest + 1e-6
    assert found.count == 1 or flat / (found.count - 1) + LAP > longest - 1e-6


def test_rows_of_a_taper_follow_its_cone() -> None:
    """Each row is as long as the circle of the cone at its level, by similar triangles."""
    cone = BARE + "top_size = '100 mm'\n"
    found = strips_of("kind = 'ruffles'\nrows = 4\nfullness = 1\nstrip = '1500 mm'\n", cone)
    girths = [math.pi * (203.2 + (100 - 203.2) * row / 4) for row in range(4)]
    assert [each.length - LAP for each in found] == pytest.approx(girths)
    slant = math.hypot(101.6, (203.2 - 100) / 2)
    assert [each.width for each in found] == pytest.approx([slant / 4 + 6] * 4)


def test_pleats_lie_threefold() -> None:
    """A knife pleat shows its width and lies twice under itself: three times the length round."""
    (found,) = strips_of("kind = 'pleats'\nwidth = '20 mm'\nstrip = '400 mm'\n")
    count = round(math.pi * 203.2 / 20)
    pleat = math.pi * 203.2 / count
    assert found.count * (found.length - LAP) == pytest.approx(count * (pleat + 2 * pleat))


def test_mats_of_lace_are_counted_and_what_is_left() -> None:
    """An 8 in round is 638.4 mm round: two mats of 394 mm, of which 149.6 mm are left."""
    (found,) = strips_of("kind = 'lace'\nstrip = '394 mm'\nheight = '60 mm'\nbottom = '60 mm'\n")
    assert (found.count, found.length) == (2, 394.0)
    assert found.width == pytest.approx(60.0)
    assert found.left == pytest.approx(2 * 394 - math.pi * 203.2)


def test_bows_are_cut_from_strips_that_go_out_and_back() -> None:
    """A bow 60 mm wide takes a strip of 120 mm and a seam of 10 for its loops, and two tails."""
    found = strips_of("kind = 'bows'\ncount = 5\nbreadth = '60 mm'\ndrop = '50 mm'\n")
    assert [(each.name, each.count) for each in found] == [("loops", 5), ("knot", 5), ("tail", 10)]
    assert found[0].length == pytest.approx(130.0)


def test_strips_are_cut_and_weighed() -> None:
    """Rows alike are one line to cut; their fondant is weighed; lace is made in its mat."""
    frills = "kind = 'ruffles'\nrows = 2\nthickness = '2 mm'\ncolour = 'rose'\n"
    plan = make_plan(one_tier(f"{BARE}[[tier.design]]\n{frills}[[tier.design]]\nkind = 'lace'\n"))
    found = bench(plan)
    rows = [each for each in found["pieces"] if "design" in each["what"]]
    ruffles, lace = rows
    assert ruffles["what"] == "ruffles (design 1): 2 rows, 5 strips each"
    assert ruffles["number"] == 10
    lies = ruffles["number"] * math.prod(ruffles["sizes_mm"]) * 2 / 1000
    (paste,) = [each for each in found["paste"] if each["colour"] == "rose"]
    assert paste["on_cake_g"] == pytest.approx(lies * 1.35)
    assert lace["what"].startswith("lace (design 2): 3 rows, 3 strips each")


def test_rows_of_different_lengths_stand_each_in_its_line() -> None:
    """On a taper each row is shorter than the one above it."""
    lines = f"top_size = '10 in'\n{BARE}[[tier.design]]\nkind = 'ruffles'\nrows = 2\n"
    rows = [each["what"] for each in bench(make_plan(one_tier(lines)))["pieces"]]
    assert [each for each in rows if "ruffles" in each] == ["ruffles: row 1", "ruffles: row 2"]
