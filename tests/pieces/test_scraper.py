"""Scrapers: the edge of the card, and what it leaves of the coating, against areas of ellipses."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from templates_gen.bench import quantities
from templates_gen.bench.bench_list import bench
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.mirror import merged_contours
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier, pieces_of

SOFT = "cover = 'none'\ncoating = '10 mm'\nboard_thickness = '4 mm'\n"
DEEP: dict[str, Callable[[float], float]] = {
    "stripes": lambda z: float(0.25 < z < 0.75),
    "waves": lambda z: (1 - math.cos(math.tau * z)) / 2,
    "scallops": lambda z: 1 - math.sqrt(1 - (2 * z - 1) ** 2),
}
"""How deep each edge reaches, from 0 to 1 over a tooth: by what its name says."""


def scraper(lines: str, tier: str = SOFT, depth: str = "4 in") -> Piece:
    """Return the scraper of an 8 in tier."""
    found = pieces_of(one_tier(f"{tier}[tier.comb]\n{lines}", depth=depth))
    (piece,) = [piece for piece in found if piece.kind == "scraper"]
    return piece


@pytest.mark.parametrize(
    ("profile", "share"), [("stripes", 0.5), ("waves", 0.5), ("scallops", 1 - math.pi / 4)]
)
def test_what_is_scraped_off(profile: str, share: float) -> None:
    """Half of the groove for stripes and sines, outside half an ellipse for scallops."""
    piece = scraper(f"profile = '{profile}'\ngroove = '6 mm'\n")
    off, _ = integrate.quad(
        lambda z: math.pi * (111.6**2 - (111.6 - 6 * DEEP[profile](z)) ** 2), 0, 1, limit=200
    )
    millilitres = off * (101.6 + 10) / 1000
    assert piece.values["scraped_off_ml"] == pytest.approx(millilitres, rel=2e-3)
    card = 60 * (101.6 + 10 + 4 + 15) + share * 6 * (101.6 + 10)
    assert piece.area.area == pytest.approx(card, rel=1e-3)


@pytest.mark.parametrize("profile", DEEP)
def test_what_is_scraped_off_is_not_carried(profile: str) -> None:
    """The tier weighs less by it, as the rings of a groove added up one by one weigh."""
    plain, combed = (
        make_plan(one_tier(f"{SOFT}{comb}", "8 in", "4 in"))
        for comb in ("", f"[tier.comb]\nprofile = '{profile}'\ngroove = '6 mm'\n")
    )
    parts, wide, tall = 20_000, 111.6, 111.6
    depths = [6 * DEEP[profile]((number + 0.5) / parts) for number in range(parts)]
    rings = sum(math.pi * (2 * wide - deep) * deep * tall / parts for deep in depths)
    stacks = [plan.stack for plan in (plain, combed)]
    less = [quantities.weight(stack.tiers[0], stack.estimates) for stack in stacks]
    assert less[0] - less[1] == pytest.approx(rings / 1000 * 1.0, rel=2e-3)
    (row,) = bench(combed)["coating"]
    assert row["scraped_off_g"] == pytest.approx(less[0] - less[1])
    assert row["mass_g"] == bench(plain)["coating"][0]["mass_g"]


@given(st.floats(2, 100), st.floats(0.5, 9), st.floats(1, 12))
@settings(max_examples=25)
def test_teeth_fit_evenly_and_reach_no_deeper(pitch: float, groove: float, depth: float) -> None:
    """Teeth close on the side, as near to the pitch as they can; none is deeper than said."""
    lines = f"profile = 'waves'\npitch = '{pitch} mm'\ngroove = '{groove} mm'\n"
    piece = scraper(lines, depth=f"{depth} in")
    height, count = depth * 25.4 + 10, int(str(piece.values["grooves"]))
    assert count * float(str(piece.values["pitch_mm"])) == pytest.approx(height)
    assert count == max(1, round(height / pitch))
    assert piece.size.width == pytest.approx(60 + groove)
    assert piece.values["groove_across_mm"] == pytest.approx(223.2 - 2 * groove)


def test_a_contour_is_low_where_the_line_is_low() -> None:
    """A line that falls to the right, the base, leaves the tier widest at its top edge."""
    piece = scraper("profile = 'contour'\nline = 'M0 0 L 100 50'\ngroove = '8 mm'\n")
    for share in (0.1, 0.5, 0.9):
        y = 4 + (101.6 + 10) * share
        (start, end) = spans_on(piece.area, (0.0, y), (100.0, y))[0]
        assert end[0] - start[0] == pytest.approx(60 + 8 * (1 - share), abs=0.05)


def test_the_card_stands_on_what_the_board_stands_on() -> None:
    """Below the base of the tier the card goes on by the board, above its top by 15 mm."""
    piece = scraper("")
    assert piece.values["base_allowance_mm"] == 4.0
    assert piece.size.height == pytest.approx(4 + 101.6 + 10 + 15)
    # the first ridge is a quarter of a tooth tall and stands on the base
    tooth = (101.6 + 10) / round((101.6 + 10) / 10)
    below, above = (4 + tooth / 4 + step for step in (-0.01, 0.01))
    widths = [spans_on(piece.area, (0.0, y), (99.0, y))[0][1][0] for y in (2.0, below, above)]
    assert widths == pytest.approx([60.0, 60.0, 63.0])


def test_combing_is_a_step_and_shows_on_pictures() -> None:
    """It follows the coat at once; grooves are on the tier, and not on a collar."""
    plan = make_plan(one_tier(f"{SOFT}[tier.comb]\npitch = '20 mm'\n"))
    steps = [each["step"] for each in bench(plan)["times"]]
    assert "coat and comb" in steps
    assert "coat" not in steps
    (tier,) = plan.stack.tiers
    (guide,) = tier.marked
    tooth = (101.6 + 10) / 6
    levels = sorted(stroke.path.bounds.y0 for stroke in guide.drawing.strokes)
    # stripes are deep from a quarter to three quarters of a tooth
    assert [round((level / tooth) % 1, 3) for level in levels] == [0.75] * 6
    collar = next(piece for piece in plan.pieces if piece.kind == "collar")
    assert "comb" not in str(collar.values)


@pytest.mark.parametrize(("foot", "rim"), [(200.0, 150.0), (150.0, 200.0), (180.0, 180.0)])
def test_a_card_that_stands_on_its_foot_lies_along_the_side(foot: float, rim: float) -> None:
    """With its foot level the edge leans as the cone does, and starts where the cake does.

    Where the side leans out, a card square to its edge stood on its outer corner, 17 mm too high.
    """
    top = f"top_size = '{rim} mm'\n" if rim != foot else ""
    tier = f"[[tier]]\nsize = '{foot} mm'\ndepth = '90 mm'\n{top}{SOFT}comb.profile = 'scallops'\n"
    (piece,) = [each for each in pieces_of(cake(tier)) if each.kind == "scraper"]
    ((edges, _),) = merged_contours(piece.outline)
    outer, inner, base = (edge[0] for edge in edges[:3])
    across, along = math.dist(outer, inner), math.dist(inner, base)
    level = ((inner[0] - outer[0]) / across, (inner[1] - outer[1]) / across)
    up = -level[1], level[0]
    towards, rise = (
        (base[0] - inner[0]) * way[0] + (base[1] - inner[1]) * way[1] for way in (level, up)
    )
    assert rise == pytest.approx(4.0, abs=1e-6)
    assert towards / rise == pytest.approx((foot - rim) / 2 / 90, abs=1e-6)
    assert along == pytest.approx(math.hypot(towards, rise))
