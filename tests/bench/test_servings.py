"""Portions against published charts, and stacks of tins for a number of them."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.bench.section import PORTIONS
from templates_gen.bench.servings import SIZES, STEPS, of_tin, proposals, servings
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier, sample
from tests.cli.command import ask, call


@pytest.mark.parametrize(("inches", "count"), [(6, 12), (8, 24), (10, 38), (12, 56), (14, 76)])
def test_rounds(inches: int, count: int) -> None:
    """Wedding portions, 1 × 2 in: bakewithsarah.com, servings; huppahsblog 2010/12.

    None promises more than the area holds.
    """
    (found,) = servings(build_stack(one_tier("", f"{inches} in")))
    assert found.portions["wedding"] == count == of_tin(inches, "round", "wedding")
    assert count <= math.pi * inches**2 / 4 / 2


@pytest.mark.parametrize(
    ("inches", "count"), [(6, 18), (8, 32), (10, 50), (12, 72), (14, 98), (16, 128)]
)
def test_squares(inches: int, count: int) -> None:
    """floor(n²/2): bakewithsarah.com, servings."""
    (found,) = servings(build_stack(one_tier("shape = 'square'", f"{inches} in")))
    assert found.portions["wedding"] == count == inches**2 // 2
    assert found.portions["coffee"] == inches**2
    assert found.portions["party"] == inches**2 // 4


@pytest.mark.parametrize("share", [0.5, 0.7, 0.9, 1.0])
def test_a_ball_promises_no_more_than_it_holds(share: float) -> None:
    """Sections of a ball, added up by quadrature, over its depth: the area of a mean one."""
    size, depth = 240.0, 240.0 * share
    (found,) = servings(build_stack(one_tier("shape = 'ball'", f"{size} mm", f"{depth} mm")))
    held, _ = integrate.quad(lambda z: math.pi * (120**2 - (z - depth + 120) ** 2), 0, depth)
    # 95 in a hundred of it, from each cake up to 6 in deep
    count = math.floor(held / depth / 25.4**2 * 0.95)
    assert found.portions["coffee"] == math.ceil(depth / 152.4) * count


@pytest.mark.parametrize("shape", ["round", "square"])
def test_a_sloped_tier_promises_no_more_than_it_holds(shape: str) -> None:
    """From 4 in down to 2 in it holds three quarters of one that is 4 in deep all over."""
    lines = f"shape = '{shape}'\nshallowest_depth = '2 in'\nslopes_down_to = 'front'\n"
    (found,) = servings(build_stack(one_tier(lines)))
    taken = 0.95 * math.pi / 4 if shape == "round" else 1.0
    by_hand = {"wedding": 2, "coffee": 1, "party": 4}
    assert found.portions == {
        size: math.floor(0.75 * 64 * taken / inches) for size, inches in by_hand.items()
    }


def test_dummies_are_not_eaten() -> None:
    """A dummy has no portions."""
    found = {each.tier: each for each in servings(build_stack(sample("harbour-wedding")))}
    assert not found["bottom"].edible
    assert set(found["bottom"].portions.values()) == {0}
    assert found["third"].portions["wedding"] == 12


@given(st.integers(1, 280), st.sampled_from(("round", "square")), st.sampled_from(list(SIZES)))
def test_proposals_are_enough_and_can_be_stacked(wanted: int, shape: str, size: str) -> None:
    """Each makes the portions that it says, of even tins that stand on each other."""
    for each in proposals(wanted, shape, size):
        assert each.portions == sum(of_tin(tin, shape, size) for tin in each.tins) >= wanted
        assert all(tin % 2 == 0 for tin in each.tins)
        steps = {below - above for below, above in zip(each.tins, each.tins[1:], strict=False)}
        assert steps <= set(STEPS)


def test_a_number_of_portions() -> None:
    """The command lists stacks for 120; the one of 12, 10, 8 and 6 in makes 130."""
    said = ask("portions", "120")
    assert "130 portions: 12 in (56) + 10 in (38) + 8 in (24) + 6 in (12), 10 to spare" in said
    assert "party" not in ask("portions", "20", "--size", "party", "--shape", "square")


@pytest.mark.parametrize("number", ["0", "-3", "2001", "many", "1.5", ""])
def test_no_number_of_portions(number: str) -> None:
    """What is no whole number of portions is a usage error."""
    assert call("portions", "--", number).exit_code == 2


def test_too_many_for_any_stack() -> None:
    """More than the largest stack makes is said, with how many that is."""
    done = call("portions", "1999")
    assert done.exit_code == 1
    assert "289" in done.stderr


def test_a_ball_is_no_round() -> None:
    """A chart of rounds says nothing of it: twice as many small portions as long ones."""
    text = "[[tier]]\nshape = 'ball'\nsize = '6 in'\ndepth = '6 in'\ncover = 'panelled'\n"
    (found,) = servings(build_stack(cake(text)))
    assert found.portions["coffee"] // 2 == found.portions["wedding"] < 12


def test_portions_of_a_shallow_tier_are_said_to_be_low() -> None:
    """A tier of 1 or 3 in serves as many by its area as one of 4 in, but not as much."""
    for depth, says in (
        ("1 in", ", but of tier 1 25.4 mm (1 in): allow more of those;"),
        ("3 in", ", but of tier 1 76.2 mm (3 in): allow more of those;"),
        ("4 in", ";"),
    ):
        made = sections(bench(make_plan(one_tier(depth=depth))))
        (part,) = (each for each in made if each.title == PORTIONS)
        assert any(f"about 4 in tall{says}" in line for line in part.assumptions)


def test_portions_of_a_letter_cake_are_said_to_be_low() -> None:
    """They are as tall as it is: 2 in, half of what charts count with."""
    made = sections(bench(make_plan(cake("[[letter_cake]]\ntext = '4'\ndepth = '2 in'\n"))))
    (part,) = (each for each in made if each.title == PORTIONS)
    assert any("but of letter cake 1 50.8 mm (2 in):" in line for line in part.assumptions)
