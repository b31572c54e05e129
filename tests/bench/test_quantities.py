"""Quantities against packs of the trade, published values, and volumes reckoned apart."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from templates_gen.bench import quantities
from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import grams, millilitres
from templates_gen.cakefile.estimates import CAKES, Estimates
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.shapes import SHAPES
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.guides.drips import FOOT, drip_row
from templates_gen.plan import Plan, make_plan
from templates_gen.tiers.solid import Layer
from templates_gen.tiers.volume import volume
from tests.cakes import cake, one_tier, sample
from tests.strategies import any_plans

WASTE = 0.15
"""The waste that practice reckons with, 10 to 15 %: from memory, no source."""
PLAIN = "coating = '0 mm'\n"
PLANS = st.sampled_from(
    (
        {},
        {"shape": "oval", "short": "130 mm"},
        {"shape": "square", "corner": "0 mm"},
        {"shape": "rectangle", "short": "90 mm", "corner": "20 mm"},
        {"shape": "polygon", "sides": 5},
    )
)
"""Plans without hollows."""


def solid(lines: str, size: str = "8 in", depth: str = "4 in") -> DecoratedTier:
    """Return the one tier of a cake."""
    return build_stack(one_tier(lines, size, depth)).tiers[0]


def paste_mass(lines: str, size: str, depth: str) -> float:
    """Return the paste of one tier without waste, g."""
    made = one_tier(PLAIN + lines, size, depth)
    (found,) = quantities.paste(build_stack(made), made.estimates)
    return found.net


@pytest.mark.parametrize(
    ("pack", "lines", "size", "depth"),
    [
        (1000, "fondant = '3.0 mm'", "10 in", "6 in"),
        (500, "fondant = '2.3 mm'", "6 in", "6 in"),
        (1000, "cover = 'panelled'\nfondant = '5 mm'", "8 in", "8 in"),
    ],
)
def test_packs_of_the_trade(pack: float, lines: str, size: str, depth: str) -> None:
    """A pack that practice takes for a tier is what is reckoned, within the waste.

    Packs, 3.0 mm and 2.3 mm, and 5 mm spacers for a panelled side: common practice, no source.
    """
    assert abs(paste_mass(lines, size, depth) - pack) <= WASTE * pack


def test_a_draped_tier_by_hand() -> None:
    """A 22 in circle 3 mm thick: 380.13 sq in, from the table of circles of the House-Carpenter.

    *The American House-Carpenter*, Table of Circles: 11 in across holds 95.03317 sq in, four times
    as much has a circle twice as wide.
    """
    by_hand = 4 * 95.03317 * 25.4**2 * 3.0 / 1000 * 1.35
    assert paste_mass("fondant = '3 mm'", "10 in", "6 in") == pytest.approx(by_hand, rel=1e-6)


@settings(max_examples=20)
@given(PLANS, st.sampled_from(["top", "side"]))
def test_the_paste_rolled_for_a_panelled_tier_is_what_lies_on_it(
    plan: dict[str, Any], first: str
) -> None:
    """Top and side are as much paste as there is between the coated and the covered surface.

    For plans without hollows: area and girth of what is offset are Steiner's.
    """
    spec = {"size": "200 mm", "depth": "90 mm", "cover": "panelled", "first": first} | plan
    tier = build_stack(cake_from({"tier": [spec | {"fondant": "6 mm"}]})).tiers[0]
    layer = volume(tier, tier.covered) - volume(tier, tier.coated)
    assert quantities.covering_area(tier) * 6 == pytest.approx(layer, rel=1e-6)


def test_waste_and_packs() -> None:
    """Waste is added, and packs are whole ones of the size that was asked for."""
    text = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\ncolour = 'ivory'\n[estimates]\n"
    found = bench(make_plan(cake(f"{text}waste = 10.0\npack = 250\n")))["paste"][0]
    assert found["mass_g"] == pytest.approx(found["net_g"] * 1.1)
    assert found["packs"] == math.ceil(found["mass_g"] / 250)
    assert found["colour"] == "ivory"
    assert quantities.packs(2000.0, Estimates()) == 2
    assert quantities.packs(2000.1, Estimates()) == 3


def test_colours_share_packs() -> None:
    """Packs of one colour are counted over the whole cake too, where parts share one."""
    text = "[[tier]]\nsize='6 in'\ndepth='3 in'\n[[tier]]\nsize='4 in'\ndepth='3 in'\n"
    found = bench(make_plan(cake(text)))
    assert [each["packs"] for each in found["paste"]] == [1, 1]
    assert found["paste_by_colour"] == [
        {
            "colour": "white",
            "mass_g": pytest.approx(sum(each["mass_g"] for each in found["paste"])),
            "packs": 1 if sum(each["mass_g"] for each in found["paste"]) <= 1000 else 2,
        }
    ]


def test_kitchen_measures() -> None:
    """A teaspoon is 5 mL and an ounce 28 g: 21 CFR 101.9(b)(5)(viii), as quoted."""
    assert millilitres(15.0) == "15 mL (3 tsp)"
    assert grams(280.0) == "280 g (10 oz)"


def test_gum() -> None:
    """A level teaspoon of gum to 250 g, to the next quarter: common practice, no source."""
    assert [quantities.gum_teaspoons(mass) for mass in (0, 1, 250, 251, 600)] == [
        0,
        0.25,
        1,
        1.25,
        2.5,
    ]
    lines = "[tier.panels]\ncount = 10\nheight = '50 mm'\nthickness = '5 mm'"
    tier = solid(lines)
    girth = tier.covered.rim.girth
    assert quantities.panels_volume(tier) == pytest.approx(girth * 50 * 5)


def test_sponge() -> None:
    """Kelkar, Boushey and Okos, J. Food Eng. 159 (2015), Table 5: 0.343 measured, 0.277 by scan."""
    assert CAKES["sponge"].value == 0.343
    assert CAKES["sponge by scan"].value == 0.277
    assert all("Kelkar" in CAKES[name].source for name in ("sponge", "sponge by scan"))
    text = "[[tier]]\nsize='20 cm'\ndepth='10 cm'\ncover='none'\ncoating='0 mm'\n[estimates]\n"
    made = cake(f"{text}cake = 'sponge'\n")
    tier = build_stack(made).tiers[0]
    # pi / 4 x 20^2 x 10 cm3
    assert quantities.weight(tier, made.estimates) == pytest.approx(3141.5926 * 0.343)
    told = {each["name"]: each for each in bench(make_plan(made))["estimates"]}
    assert told["cake"]["value"] == 0.343
    assert "Kelkar" in told["cake"]["source"]
    assert told["paste"]["source"] == "an estimate, no source"


def test_coating_against_quadrature() -> None:
    """The coating is the coated tier less the bare one, integrated layer by layer."""
    tier = solid("coating = '8 mm'", "8 in", "4 in")
    r, h = 101.6, 101.6
    side, _ = integrate.quad(lambda z: math.pi * ((r + 8) ** 2 - r * r), 0, h)
    top, _ = integrate.quad(lambda z: math.pi * (r + 8) ** 2, h, h + 8)
    assert quantities.coating_volume(tier) == pytest.approx((side + top) / 1000)


def test_frustum() -> None:
    """15 ft 4 in and 26 ft 8 in across, 23 ft 9 in deep: 1611 sq ft; its volume by quadrature.

    A 19th-century mensuration book, exercise 6 (Google Books 4mlaAAAAcAAJ p. 76).
    """
    rim, foot, rise = SHAPES["round"](15 + 4 / 12), SHAPES["round"](26 + 8 / 12), 23.75
    widens = (foot.across - rim.across) / 2 / rise
    layer = Layer("covered", rim, foot, rise)
    assert layer.side.area == pytest.approx(1611, abs=0.5)
    by_quadrature, _ = integrate.quad(
        lambda z: math.pi * (foot.across / 2 - widens * z) ** 2, 0, rise
    )
    assert volume(solid(""), layer) == pytest.approx(by_quadrature)


def test_drips_are_about_as_large_as_their_runs() -> None:
    """The area of a drip is that of its run, and a little for root and foot."""
    lines = "[tier.drips]\npattern = 'even'\nwidth = '10 mm'\nlongest = '50 mm'"
    tier = solid(lines)
    assert tier.spec.drips is not None
    row = drip_row(tier, tier.spec.drips, tier.openings)
    runs = sum(10 * length for length in row.lengths)
    assert runs < quantities.drips_area(tier) < 1.15 * runs * 2 * FOOT


def test_paint() -> None:
    """Two coats on a side take its area, twice the film; half is dust (1 : 1, common practice)."""
    lines = "[tier.paint]\non = 'side'\ncoats = 2"
    (found,) = bench(make_plan(one_tier(lines)))["paint"]
    tier = solid(lines)
    millilitres_in_all = tier.covered.rim.girth * tier.covered.depth * 2 * 0.05 / 1000
    assert found["dust_ml"] == found["alcohol_ml"] == pytest.approx(millilitres_in_all / 2)


@settings(max_examples=20, deadline=None)
@given(any_plans())
def test_weights_add_up(plan: Plan) -> None:
    """What dowels bear is the weight of all above; every quantity is a number and not negative."""
    found = bench(plan)
    weights = [quantities.weight(tier, plan.estimates) for tier in plan.stack.tiers]
    for index, dowels in enumerate(found["dowels"]):
        assert dowels["bears_g"] == pytest.approx(sum(weights[index + 1 :]))
        assert dowels["bears_each_g"] * dowels["count"] == pytest.approx(dowels["bears_g"])
    assert all(weight > 0 for weight in weights)
    for key in ("paste", "coating", "icing"):
        assert all(each["mass_g"] > 0 for each in found[key])


def test_a_dummy_weighs_little() -> None:
    """A dummy weighs what its density says, no cake."""
    made = sample("harbour-wedding")
    bottom = build_stack(made).tiers[0]
    assert bottom.spec.dummy
    bare = volume(bottom, bottom.bare) / 1000 * 0.03
    paste = (volume(bottom, bottom.covered) - volume(bottom, bottom.bare)) / 1000 * 1.35
    panels = quantities.panels_volume(bottom) / 1000 * 1.35
    weight = quantities.weight(bottom, made.estimates)
    assert weight == pytest.approx(bare + paste + panels)


def test_small_pieces_and_toppers_are_weighed() -> None:
    """A circle's area is pi r^2; a tab of 12 by 25 mm comes on top of what it reaches into."""
    text = (
        "[[tier]]\nsize = '20 cm'\ndepth = '10 cm'\n"
        "[[tier.scatter]]\nshape = 'circle'\nsize = '20 mm'\ncount = 10\nthickness = '3 mm'\n"
        "colour = 'blush'\n[[topper]]\nshape = 'circle'\nheight = '80 mm'\ncount = 2\n"
        "colour = 'gold'\n"
    )
    found = {each["colour"]: each for each in bench(make_plan(cake(text)))["paste"]}
    small = 10 * math.pi * 10**2 * 3 / 1000 * 1.35
    assert found["blush"]["net_g"] == pytest.approx(small, rel=2e-3)
    large = 2 * math.pi * 40**2 * 5 / 1000 * 1.35
    assert found["gold"]["net_g"] == pytest.approx(large, rel=2e-3)
    assert {found[colour]["kind"] for colour in ("blush", "gold")} == {quantities.MODELLING}
    tabbed = {
        each["colour"]: each for each in bench(make_plan(cake(f"{text}stick = 'tab'\n")))["paste"]
    }
    more = tabbed["gold"]["net_g"] - found["gold"]["net_g"]
    assert more == pytest.approx(2 * 12 * 25 * 5 / 1000 * 1.35, rel=0.2)


def test_panels_may_have_a_colour_of_their_own() -> None:
    """Paste is told by colour, and left out it is that of the tier."""
    text = "[[tier]]\nsize='8 in'\ndepth='4 in'\ncolour='ivory'\n[tier.panels]\nheight='4 cm'\n"
    assert [each["colour"] for each in bench(make_plan(cake(text)))["paste"]] == ["ivory", "ivory"]
    gilded = bench(make_plan(cake(f"{text}colour = 'gold'\n")))["paste"]
    assert [(each["kind"], each["colour"]) for each in gilded] == [
        (quantities.SUGAR, "ivory"),
        (quantities.MODELLING, "gold"),
    ]
