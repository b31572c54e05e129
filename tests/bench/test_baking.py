"""What tiers of cake are baked and filled with, against published values."""

from __future__ import annotations

import math

import pytest

from templates_gen.bench import quantities
from templates_gen.bench.baking import advice, baking
from templates_gen.bench.bench_list import bench
from templates_gen.bench.inside import inner
from templates_gen.bench.steps import steps
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier

CUP = 236.588
GANACHE = {
    "round": {6: 525, 8: 825, 10: 1163, 12: 1538},
    "square": {6: 675, 8: 1050, 10: 1463, 12: 1988},
}
"""Grams of ganache, 2 parts dark : 1 cream, one filling and cover, cakes 4 in tall, by size in in:
bakewithsarah.com, ganache chart."""
THICK = 5.45
"""Mass over (two tops and the side) at 1.15 g/mL is 5.35 to 5.57 mm for all of them."""


def ganache(shape: str, inches: int) -> float:
    """Return the ganache of a cake 4 in tall in one thickness, one filling and cover, g."""
    inside = f"inside = {{ layers = 2, filling = 'ganache', filling_thickness = '{THICK} mm' }}\n"
    made = one_tier(
        f"shape = '{shape}'\ncover = 'none'\ncoating = '{THICK} mm'\n{inside}", f"{inches} in"
    )
    stack, estimates = build_stack(made), made.estimates
    (baked,) = baking(stack)
    coating = quantities.coating_volume(stack.tiers[0]) * FILLINGS["ganache"].density
    return baked.filling / (1 + estimates.waste / 100) + coating


def test_the_shape_of_a_chart_of_ganache() -> None:
    """Area × one thickness: over all eight sizes the ratio to the chart differs by under 7 %.

    The chart itself differs by 4 %, and takes no account of edges and corners, which weigh more
    on small cakes.
    """
    ratios = [
        ganache(shape, inches) / mass
        for shape, chart in GANACHE.items()
        for inches, mass in chart.items()
    ]
    assert max(ratios) / min(ratios) < 1.07
    assert all(0.97 < ratio < 1.09 for ratio in ratios), ratios


@pytest.mark.parametrize(
    ("inches", "cups"), [(6, 3.92), (8, 6.96), (9, 8.81), (10, 10.88), (12, 15.67), (14, 21.32)]
)
def test_a_tin_is_filled_by_half(inches: float, cups: float) -> None:
    """A tin 2 in deep, filled to its brim by butter cake, takes half its geometry of batter.

    Half to two thirds of a tin is filled: allrecipes, pan sizes; gretchensbakery.com. Cups to the
    brim by arithmetic (a US cup is 236.588 mL); specific gravity 0.85, American Society of Baking:
    0.80 to 0.90.
    """
    text = "inside = { layers = 1 }\n[estimates]\ntin = '2 in'\nlevel = '0 mm'\n"
    made = one_tier(text, f"{inches} in", "2 in")
    (baked,) = baking(build_stack(made))
    assert baked.inner.tins == 1
    ((count, deep),) = baked.in_tins
    assert count == 1
    assert deep == pytest.approx(25.4)
    assert baked.batter == pytest.approx(cups / 2 * CUP * 0.85, rel=2e-3)


def test_layers_and_fillings_fill_the_tier() -> None:
    """Three layers and two fillings of 10 mm are as deep as the tin; two tins of 3 in hold them."""
    made = one_tier("inside = { layers = 3, filling_thickness = '10 mm' }", "8 in", "4 in")
    found = inner(build_stack(made).tiers[0], made.estimates)
    assert found is not None
    assert 3 * found.layer_depth + 2 * found.filling_depth == pytest.approx(101.6)
    ((tin, area, high),) = [(bake.tin, bake.area, bake.risen) for bake in found.bakes]
    assert (found.tins, tin) == (2, "tin")
    assert area == pytest.approx(math.pi * 101.6**2)
    assert high == pytest.approx([64.4, 37.2])
    # two layers of 27.2 mm in one tin and one in the other, each with 10 mm that is levelled off
    assert [count for count, _ in found.in_tins] == [1, 1]
    assert [high for _, high in found.in_tins] == pytest.approx([64.4, 37.2])


@pytest.mark.parametrize(
    ("kind", "per_ml"),
    [("jam", 20 / 14.787), ("lemon curd", 147 / 118.294), ("cream cheese", 232 / CUP)],
)
def test_published_fillings(kind: str, per_ml: float) -> None:
    """USDA Standard Reference 19297 (20 g/tbsp), 19331 (147 g per half cup), 01017 (232 g/cup)."""
    assert FILLINGS[kind].density == pytest.approx(per_ml, abs=0.01)
    assert "USDA" in FILLINGS[kind].source


def test_a_tier_deeper_than_one_cake_is_built_of_two() -> None:
    """Deeper than 6 in it takes a board and dowels between (common practice, no source)."""
    deep = make_plan(one_tier("cover = 'panelled'", "8 in", "8 in"))
    (said,) = advice(deep.stack)
    assert "write [tier.inside] inner_boards = 1" in said
    usual = make_plan(one_tier("cover = 'panelled'", "8 in", "6 in"))
    assert not list(advice(usual.stack))
    dummy = make_plan(one_tier("cover = 'panelled'\ndummy = true", "8 in", "8 in"))
    assert not list(advice(dummy.stack))
    assert bench(deep)["servings"][0]["portions"]["wedding"] == 2 * 24


def test_what_can_hardly_be_draped() -> None:
    """As deep as wide, or more than 2 kg of paste, and what panelling takes instead."""
    for size, depth, says in (("4 in", "4 in", "pleats"), ("14 in", "6 in", "alone")):
        plan = make_plan(one_tier("", size, depth))
        (said,) = advice(plan.stack)
        assert says in said
        assert "a disc and a wrap" in said
    plan = make_plan(one_tier("", "8 in", "4 in"))
    assert not list(advice(plan.stack))


def test_kinds_of_tiers_may_differ() -> None:
    """A fruit cake below a sponge: one has no filling, both their own batter."""
    text = (
        "[[tier]]\nsize='8 in'\ndepth='4 in'\ninside = { cake = 'fruit cake' }\n"
        "[[tier]]\nsize='6 in'\ndepth='4 in'\ninside = { cake = 'sponge', filling = 'jam' }\n"
    )
    made = cake(text)
    fruit, sponge = baking(build_stack(made))
    assert (fruit.inner.layers, fruit.filling) == (1, 0)
    assert sponge.inner.layers == 3
    for (count, deep), (number, high) in zip(sponge.in_tins, sponge.inner.in_tins, strict=True):
        assert count == number
        assert math.isclose(deep, high / 1.5)


ROUND = math.pi / 4
BALL = "shape = 'ball'\ncover = 'panelled'\n"


@pytest.mark.parametrize(
    ("text", "square_inches"),
    [
        ("[[letter_cake]]\ntext = '40'\n", 9 * 13),
        ("[[letter_cake]]\ntext = 'I'\nlayers = 3\n", 9 * 13),
        ("[[tier]]\nsize = '8 in'\ndepth = '5 in'\n", ROUND * 64),
        ("[[tier]]\nshape = 'square'\nsize = '7 in'\ndepth = '3 in'\n", 49),
        ("[[tier]]\nsize = '7 in'\ndepth = '5 in'\nshallowest_depth = '3 in'\n", ROUND * 64),
        ("[[tier]]\nsize = '10 in'\ntop_size = '8 in'\ndepth = '5 in'\n", ROUND * 100),
        ("[[tier]]\nsize = '8 in'\ntop_size = '9 in'\ndepth = '4 in'\n", ROUND * 100),
        (f"[[tier]]\n{BALL}size = '6 in'\ndepth = '6 in'\n", ROUND * 36),
        (f"[[tier]]\n{BALL}size = '8 in'\ndepth = '6 in'\n", ROUND * 64),
    ],
)
def test_batter_fills_its_tins_to_the_depth_that_is_given(text: str, square_inches: float) -> None:
    """Tins × area of a tin × depth of the batter × specific gravity is the batter: arithmetic.

    What is cut to a slope or a taper comes from straight cakes, as wide and as deep all over.
    """
    (baked,) = bench(make_plan(cake(text)))["baking"]
    deep = sum(each["tins"] * each["mm"] for each in baked["batter_in_tins"])
    assert sum(each["tins"] for each in baked["batter_in_tins"]) == baked["tins"]
    assert baked["batter_g"] == pytest.approx(square_inches * 645.16 * deep / 1000 * 0.85)


@pytest.mark.parametrize(
    ("size", "lines", "tin"),
    [
        ("8 in", "top_size = '6 in'", "round 8 in tin"),
        ("7 in", "top_size = '5 in'", "round 8 in tin"),
        ("6 in", "top_size = '9 in'", "round 10 in tin"),
        ("7 in", "shape = 'square'\nshallowest_depth = '2 in'", "square 8 in tin"),
        ("8 in", "", "tin"),
    ],
)
def test_the_tin_of_a_tier_that_is_trimmed_is_named(size: str, lines: str, tin: str) -> None:
    """The smallest even inch that holds it: common practice, no source."""
    found = bench(make_plan(one_tier(lines, size)))
    bakes = [each["what"] for each in found["times"] if each["stage"] == "bake"]
    assert bakes
    assert all(f" {tin}" in each for each in bakes)
    assert all(("in tin" in each) == (tin != "tin") for each in bakes)


def test_each_bake_says_what_goes_in() -> None:
    """Three tins, two at once, are a bake of two and a bake of one; of sheet cakes one has room."""
    deep = one_tier("inside = { layers = 3 }\n[estimates]\ntin = '2 in'\n", depth="5 in")
    number = cake("[[letter_cake]]\ntext = 'I'\nlayers = 3\n")
    for made, tins in ((deep, ["2 tins", "1 tin"]), (number, ["1 sheet cake"] * 3)):
        words = [
            each["what"] for each in bench(make_plan(made))["times"] if each["stage"] == "bake"
        ]
        counts = [each.removeprefix("Weigh, mix and bake ").split(",")[0] for each in words]
        assert counts == tins


@pytest.mark.parametrize(
    ("size", "lines", "together"),
    [
        # a shelf of 45 by 36 cm with 2 cm between: common practice, no source
        ("4 in", "", 9),
        ("6 in", "", 4),
        ("7 in", "", 2),
        ("8 in", "", 2),
        ("9 in", "", 1),
        ("14 in", "", 1),
        ("14 in", "estimates.tins_at_once = 3\n", 3),
        ("14 in", "estimates.shelf_width = '80 cm'\n", 2),
    ],
)
def test_as_many_tins_bake_together_as_lie_on_the_shelf(
    size: str, lines: str, together: int
) -> None:
    """Two of 14 in have no room in an oven at home; of no size is less than one baked."""
    own, _, rest = lines.partition("estimates.")
    text = f"{own}inside = {{ layers = 12 }}\n[estimates]\ntin = '20 mm'\n{rest}"
    found = bench(make_plan(one_tier(text, size, "6 in")))
    words = [each["what"] for each in found["times"] if each["stage"] == "bake"]
    counts = [int(each.removeprefix("Weigh, mix and bake ").split()[0]) for each in words]
    assert counts[0] == together
    assert sum(counts) == found["baking"][0]["tins"] == 12


def test_tins_of_several_sizes_bake_apart() -> None:
    """One of 10 in at a time, then two of 8 in and the last of them."""
    lines = "top_size = '7 in'\ncarving = { tins = 'round' }\ninside = { layers = 6 }\n"
    found = bench(make_plan(one_tier(f"{lines}[estimates]\ntin = '1 in'\n", "8 in")))
    words = [each["what"] for each in found["times"] if each["stage"] == "bake"]
    counts = [each.removeprefix("Weigh, mix and bake ").split(",")[0] for each in words]
    assert counts == ["1 round 10 in tin"] * 3 + ["2 round 8 in tins", "1 round 8 in tin"]


def test_a_tin_too_large_for_the_oven_is_told() -> None:
    """16 in, 406 mm, is deeper than a shelf of 36 cm; 14 in is not, unless carved from 16 in."""
    for lines, size, is_told in (
        ("", "16 in", True),
        ("dummy = true\n", "16 in", False),
        ("", "14 in", False),
        ("[estimates]\nshelf_depth = '42 cm'\n", "16 in", False),
        ("top_size = '8 in'\n[tier.carving]\n", "14 in", True),
    ):
        said = " ".join(bench(make_plan(one_tier(lines, size)))["advice"])
        assert ("oven shelf of 450 mm (17 11/16 in) ×" in said) == is_told


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("inside = { layers = 3 }\n", "Level and split into 3 layers, fill twice"),
        ("inside = { layers = 2 }\n", "Level, fill once"),
        ("inside = { cake = 'fruit cake' }\n", "Level the 2 cakes and set them on each other."),
        ("inside = { cake = 'fruit cake' }\n[estimates]\ntin = '4 in'\n", "Turn the cake over"),
        (
            "inside = { cake = 'fruit cake' }\ncoating = '0 mm'\n[estimates]\ntin = '4 in'\n",
            "Level the cake.",
        ),
    ],
)
def test_what_was_baked_apart_is_not_split(lines: str, words: str) -> None:
    """A layer from a tin of its own is not split, and cakes of one deep layer are set together."""
    times = bench(make_plan(one_tier(lines)))["times"]
    (filled,) = (each["what"] for each in times if each["stage"] == "fill")
    assert filled.startswith(words)


def test_a_fruit_cake_is_baked_as_deep_as_its_tin() -> None:
    """It hardly rises and is turned over, not levelled: common practice, no source."""
    made = cake("[[tier]]\nsize = '8 in'\ndepth = '3 in'\ninside = { cake = 'fruit cake' }\n")
    (fruit,) = baking(build_stack(made))
    ((tins, deep),) = fruit.in_tins
    assert tins == 1
    assert deep == pytest.approx(76.2 / 1.1)
    assert fruit.batter == pytest.approx(math.pi * 10.16**2 * 7.62 / 1.1 * 1.15)


@pytest.mark.parametrize(
    ("lines", "is_said"),
    [("cover = 'none'", True), ("", False), ("cover = 'none'\ncoating = '0 mm'", False)],
)
def test_bare_almond_paste_is_spoken_of(lines: str, is_said: bool) -> None:
    """Royal icing over it is not planned, and takes days: common practice, no source."""
    made = one_tier(f"{lines}\ninside = {{ cake = 'fruit cake' }}", "8 in", "3 in")
    said = " ".join(advice(build_stack(made)))
    assert ("allow a day for each of three coats" in said) == is_said


def test_the_filling_of_a_letter_cake_is_weighed() -> None:
    """Filling as heavy as buttercream weighs more than the cake that it takes the place of."""
    text = "[[letter_cake]]\ntext = 'I'\nfondant = '0 mm'\ncoating = '0 mm'\n"
    filled, plain = (cake(f"{text}filling = '{deep} mm'\n") for deep in (12, 0))
    (area,) = (each["area_mm2"] for each in bench(make_plan(filled))["letter_cakes"])
    weights = [bench(make_plan(made))["carrying"][0]["mass_g"] for made in (filled, plain)]
    assert weights[0] - weights[1] == pytest.approx(area * 12 / 1000 * (1.0 - 0.46))


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        (
            "depth = '4 in'\nshallowest_depth = '3 in'\nslopes_down_to = 'left'",
            "the top to its slope",
        ),
        ("depth = '4 in'\ntop_size = '6 in'", "the side to its taper"),
        (f"{BALL}depth = '8 in'", "to a ball 203.2 mm (8 in) wide"),
    ],
)
def test_what_is_no_straight_cake_is_cut_once_it_is_firm(lines: str, words: str) -> None:
    """Filled, chilled, cut with a knife, then coated: common practice, no source."""
    tier = f"[[tier]]\nsize = '8 in'\n{lines}\n"
    found = steps(make_plan(cake(f"{tier}[estimates.waits]\nfilling = 5.0\n")))
    by_name = {step.name: step for step in found}
    assert words in by_name["trim"].words
    assert by_name["trim"].after == ("tier 1: fill",)
    assert by_name["fill"].wait == 5
    assert by_name["crumb coat"].after == ("tier 1: trim",)
    straight = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
    for text in (f"{tier}dummy = true\n", f"{tier}[tier.carving]\n", straight):
        others = steps(make_plan(cake(text)))
        assert all(step.name != "trim" for step in others)


def test_layers_are_carved_before_they_are_filled() -> None:
    """A guide lies on its layer: nothing can be on it by then."""
    found = steps(make_plan(one_tier("top_size = '6 in'\n[tier.carving]\n", depth="6 in")))
    by_name = {step.name: step for step in found}
    assert by_name["fill"].after == ("tier 1: carve",)
    assert by_name["level"].words == "Level and split into 5 layers; chill until firm."
    assert by_name["carve"].words.startswith("Carve each layer to its guide")
    assert by_name["carve"].after == ("tier 1: level",)
    assert "Stack the 5 layers, front over front; fill 4 times" in by_name["fill"].words
