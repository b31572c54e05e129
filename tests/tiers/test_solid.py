"""Layers and sides of a tier, and how tiers stand on each other."""

from __future__ import annotations

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.unused_keys import unused_keys
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.shapes.round import disc
from templates_gen.errors import Problem, key_text
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import build_stack
from templates_gen.tiers.side import UprightSide
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.stack_problems import stack_problems
from tests.cakes import cake, one_tier


def solid(lines: str = "", size: str = "8 in", depth: str = "4 in") -> Solid:
    """Return the one tier of a cake as a solid."""
    return build_stack(one_tier(lines, size, depth)).tiers[0]


def test_layers_of_paste_on_an_eight_inch_tier() -> None:
    """5 mm of paste: bare 638.4, mid-paste 654.1, covered 669.8 mm round (by arithmetic)."""
    tier = solid("coating = 0\ncover = 'panelled'\nfondant = '5 mm'")
    girths = [layer.rim.girth for layer in (tier.bare, tier.wrapped, tier.covered)]
    assert girths == pytest.approx([638.4, 654.1, 669.8], abs=0.05)


def test_a_hoop_is_as_long_as_its_middle() -> None:
    """A hoop 7/8 in thick and 16 1/2 in outside: mean 15.625 in across, 49.087 in long.

    Source: a 19th-century workshop book (Google Books mzoDAAAAQAAJ), which gives 4 ft 1 in.
    """
    bare = "14 3/4 in"  # outside less twice the thickness
    tier = solid("coating = 0\ncover = 'panelled'\nfondant = '7/8 in'", size=bare)
    assert tier.wrapped.rim.across / 25.4 == pytest.approx(15.625)
    assert tier.wrapped.side.girth / 25.4 == pytest.approx(49.087, abs=0.0005)
    assert tier.wrapped.side.girth / 25.4 == pytest.approx(4 * 12 + 1, abs=0.1)


@pytest.mark.parametrize(
    ("first", "depth", "across"), [("top", 111.6, 213.2), ("side", 106.6, 223.2)]
)
def test_the_order_of_work_decides_depth_of_the_wrap_and_size_of_the_top(
    first: str, depth: float, across: float
) -> None:
    """Top first: the wrap stands up to the disc's upper face. Common practice, no source."""
    tier = solid(f"cover = 'panelled'\nfirst = '{first}'")
    assert tier.wrapped.depth == pytest.approx(depth)
    assert tier.top.rim.across == pytest.approx(across)


@pytest.mark.parametrize(
    ("lines", "coated", "covered"),
    [
        ("", 213.2, 221.2),
        ("dummy = true", 203.2, 211.2),
        ("dummy = true\ncoating = '2 mm'", 207.2, 215.2),
        ("cover = 'none'", 213.2, 213.2),
        ("cover = 'panelled'", 213.2, 223.2),
    ],
)
def test_layers_left_out_are_the_usual_ones(lines: str, coated: float, covered: float) -> None:
    """5 mm of coating, none on a dummy; 4 mm draped, 5 mm panelled. Common practice, no source."""
    tier = solid(lines)
    assert tier.coated.rim.across == pytest.approx(coated)
    assert tier.covered.rim.across == pytest.approx(covered)


SIDES = st.builds(UprightSide, st.builds(disc, st.floats(50, 600)), st.floats(20, 300))


@given(SIDES, st.floats(0, 1), st.floats(0, 1))
def test_flat_and_space_keep_the_same_lengths(side: UprightSide, one: float, other: float) -> None:
    """A short step on the paper is as long as the same step on the tier."""
    u, v = one * side.girth, other * side.depth
    for du, dv in ((1e-3, 0.0), (0.0, 1e-3), (6e-4, 8e-4)):
        flat = math.dist(side.flat(u, v), side.flat(u + du, v + dv))
        space = math.dist(side.in_space(u, v), side.in_space(u + du, v + dv))
        assert flat == pytest.approx(space, rel=1e-4)


@given(SIDES)
def test_the_flat_side_has_the_area_of_the_solid_side(side: UprightSide) -> None:
    """Girth times depth: the mean girth rule of Longfield, Sheet Metal Drafting, p. 91."""
    sheet = Stroke(rectangle(Box(0, 0, side.girth, side.depth)), Role.CUT)
    box = side.unroll(Drawing((sheet,))).strokes[0].path.bounds
    radius = side.outline.across / 2
    assert box.width * box.height == pytest.approx(math.tau * radius * side.depth, rel=1e-9)


def test_labels_stay_readable_when_a_side_is_unrolled() -> None:
    """A label lies where its place on the side lies, and is not mirrored or turned."""
    side = UprightSide(disc(200), 100)
    label = Label("front", (side.girth / 2, 30))
    (flat,) = side.unroll(Drawing(labels=(label,))).labels
    assert flat.at == pytest.approx((side.girth / 2, -30))
    assert flat.turn == 0


def test_rim_and_foot_lie_at_the_top_and_at_the_ground() -> None:
    """V = 0 is the rim, v = depth the foot; the front faces -y."""
    side = UprightSide(disc(200), 100)
    assert side.in_space(side.girth / 2, 0) == pytest.approx((0, -100, 100))
    assert side.in_space(0, 100) == pytest.approx((0, 100, 0))


def test_the_drum_is_four_inches_larger_than_the_bottom_tier() -> None:
    """14 in under 10 in. Common practice, no source."""
    assert build_stack(one_tier(size="10 in")).seats[0].outline.across == pytest.approx(14 * 25.4)


def test_clearance_is_half_the_difference_of_widths() -> None:
    """10 in on a 14 in drum, 9 mm of layers: (355.6 - 272) / 2 = 41.8 mm, by arithmetic."""
    (seat,) = build_stack(one_tier(size="10 in")).seats
    assert seat.clearance == pytest.approx(41.8, abs=0.01)


@pytest.mark.parametrize(
    ("lower", "upper", "key"),
    [
        ("6 in", "size = '8 in'", "tier 2, size"),
        ("8 in", "size = '8 in'\nfondant = '6 mm'", "tier 2, size"),
        ("8 in", "size = '6 in'\nboard = '9 in'", "tier 2, board"),
    ],
    ids=["upper larger", "upper covered larger", "board larger"],
)
def test_what_reaches_over_is_an_error_at_its_key(lower: str, upper: str, key: str) -> None:
    """A tier or board larger than what it stands on cannot be made."""
    text = f"[[tier]]\nsize = '{lower}'\ndepth = '4 in'\n[[tier]]\ndepth = '4 in'\n{upper}"
    assert key in [key_text(problem.key) for problem in stack_problems(build_stack(cake(text)))]


@pytest.mark.parametrize(
    ("below", "above"),
    [
        ("", ""),
        ("shape = 'square'", ""),
        ("", "shape = 'square'"),
        ("shape = 'heart'", "shape = 'oval'\nshort = '3 in'"),
        ("shape = 'petal'\nlobes = 6", "shape = 'polygon'\nsides = 6"),
        ("top_size = '7 in'", "top_size = '3 in'"),
    ],
)
def test_the_tin_advised_stands_on_the_tier_below(below: str, above: str) -> None:
    """What the message says would fit does, whatever the shapes; a tin 1 mm larger does not."""

    def problems(size: str) -> list[Problem]:
        tiers = (("8 in", below), (size, above))
        text = "".join(
            f"[[tier]]\nsize = '{each}'\ndepth = '4 in'\n{more}\n" for each, more in tiers
        )
        return [each for each in stack_problems(build_stack(cake(text))) if each.key[-1] == "size"]

    (problem,) = problems("10 in")
    advised = re.search(r"use a tin up to ([0-9.]+) mm", problem.advice)
    assert advised, problem.advice
    assert problems(f"{advised[1]} mm") == []
    assert problems(f"{float(advised[1]) + 1} mm")


def test_equal_tiers_may_stand_on_each_other() -> None:
    """Two tiers of one covered size make a taller tier: no clearance, no error."""
    text = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n" * 2
    assert build_stack(cake(text)).seats[1].clearance == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize("way", ["front", "back", "left", "right"])
@pytest.mark.parametrize("cover", ["drape", "panelled"])
def test_layers_over_a_sloped_top_are_as_steep_as_the_tier(way: str, cover: str) -> None:
    """150 to 90 mm over 200 mm: every surface falls by 0.3 mm a mm, towards where it is lowest."""
    tier = solid(
        f"shallowest_depth = '90 mm'\nslopes_down_to = '{way}'\ncover = '{cover}'\n",
        "200 mm",
        "150 mm",
    )
    share = {"front": 0.5, "back": 0.0, "left": 0.25, "right": 0.75}[way]
    for layer in (tier.bare, tier.coated, tier.wrapped, tier.covered):
        side = layer.side
        low, high = (side.in_space((share + turn) % 1 * side.girth, 0) for turn in (0.0, 0.5))
        assert (high[2] - low[2]) / math.dist(high[:2], low[:2]) == pytest.approx(0.3)
    assert tier.bare.side.in_space(share * tier.bare.side.girth, 0)[2] == pytest.approx(90)


@pytest.mark.parametrize("first", ["top", "side"])
def test_top_and_side_have_thicknesses_of_their_own(first: str) -> None:
    """A 3 mm disc and a 5 mm wrap: 3 mm more depth, 5 mm more radius, girth at mid-wrap.

    By hand for a 200 mm round, 100 mm deep, without coating.
    """
    keys = {"fondant": "4 mm", "fondant_top": "3 mm", "fondant_side": "5 mm", "coating": "0 mm"}
    data = {"size": "200 mm", "depth": "100 mm", "cover": "panelled", "first": first, **keys}
    tier = build_stack(cake_from({"tier": [data]})).tiers[0]
    assert tier.covered.depth == pytest.approx(103)
    assert tier.covered.rim.girth == pytest.approx(math.pi * 210)
    assert tier.wrapped.side.girth == pytest.approx(math.pi * 205)
    assert tier.wrapped.depth == pytest.approx(103 if first == "top" else 100)


def test_one_sheet_and_gores_have_one_thickness() -> None:
    """Top and side of a draped tier and of a ball are of one paste, whatever else is written."""
    keys = {"size": "100 mm", "depth": "60 mm", "fondant_top": "2 mm", "fondant_side": "6 mm"}
    for more in ({"cover": "drape"}, {"cover": "panelled", "shape": "ball"}):
        made = cake_from({"tier": [{**keys, **more}]})
        assert made.tier[0].paste_top_mm == made.tier[0].paste_side_mm == made.tier[0].paste_mm
        found = [warning.key[-1] for warning in unused_keys(made)]
        assert {"fondant_top", "fondant_side"} <= set(found)
