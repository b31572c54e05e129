"""Slanted sides: they lie flat without stretching, whatever the plan."""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import build_stack
from templates_gen.tiers.cone import side_between
from templates_gen.tiers.side import UprightSide
from templates_gen.tiers.slanted import SlantedSide
from tests.cakes import one_tier
from tests.shapes import CONVEX

FT = 12.0
TAPERS = st.floats(0.6, 1.5)


def unrolled_area(side: SlantedSide) -> float:
    """Return the area of the side laid flat, in square units of its outline."""
    sheet = Stroke(rectangle(Box(0, 0, side.girth, side.depth)), Role.CUT)
    return float(region(side.unroll(Drawing((sheet,))).strokes[0].path, 1e-3).area)


def test_a_cone_with_a_right_angle_at_its_apex_unrolls_to_254_6_degrees() -> None:
    """.7071 x 360 degrees. Source: anvilfire, cone layout."""
    side = side_between(SHAPES["round"](100), SHAPES["round"](300), 100)
    assert side.figures["angle_deg"] == pytest.approx(254.6, abs=0.05)
    turned = side.heading(side.girth - 1e-9) - side.heading(0)
    assert math.degrees(turned) == pytest.approx(254.6, abs=0.05)


def test_the_curved_surface_of_a_frustum_is_that_of_the_book() -> None:
    """15 ft 4 in and 26 ft 8 in across, 23 ft 9 in deep: 1611 square feet.

    Source: a 19th-century mensuration book, exercise 6 (Google Books 4mlaAAAAcAAJ, p. 76).
    """
    small, large, deep = 15 * FT + 4, 26 * FT + 8, 23 * FT + 9
    side = side_between(SHAPES["round"](small), SHAPES["round"](large), deep)
    assert unrolled_area(side) / FT**2 == pytest.approx(1611, abs=0.5)
    # lateral area = mean girth x slant: Longfield, Sheet Metal Drafting, p. 91
    mean = (side.rim.girth + side.foot.girth) / 2
    assert unrolled_area(side) == pytest.approx(mean * side.depth, rel=2e-6)


@given(CONVEX, TAPERS, st.floats(40, 200), st.floats(0, 1), st.floats(0, 1), st.floats(0, 7))
def test_lying_flat_stretches_nothing(
    outline: Outline, taper: float, depth: float, across: float, down: float, way: float
) -> None:
    """A short way on the side is as long on the paper as in space, in every direction."""
    side = SlantedSide(outline.scaled(taper), outline, depth)
    u, v = across * side.girth, down * side.depth
    step = 1e-3
    far = (u + step * math.cos(way), v + step * math.sin(way))
    assume(all(abs(u - corner) > 0.1 for corner in (0, side.girth, *side.rim.corners)))
    flat = math.dist(side.flat(u, v), side.flat(*far))
    space = math.dist(side.in_space(u, v), side.in_space(*far))
    assert flat == pytest.approx(space, rel=4e-3)


@settings(max_examples=10)
@given(CONVEX, TAPERS, st.floats(40, 200))
def test_the_area_laid_flat_is_that_of_the_side(
    outline: Outline, taper: float, depth: float
) -> None:
    """The area of the paper is that of the side, added up in space by triangles."""
    side = SlantedSide(outline.scaled(taper), outline, depth)
    steps = 720
    total = 0.0
    for index in range(steps):
        a, b = (side.girth * (index + k) / steps for k in (0, 1))
        p, q, r, s = (
            side.in_space(u, v) for u, v in ((a, 0), (b, 0), (b, side.depth), (a, side.depth))
        )
        total += _triangle(p, q, r) + _triangle(p, r, s)
    assert unrolled_area(side) == pytest.approx(total, rel=2e-3)


Vector = tuple[float, float, float]


def _triangle(a: Vector, b: Vector, c: Vector) -> float:
    x, y, z = (q - p for p, q in zip(a, b, strict=True))
    u, v, w = (q - p for p, q in zip(a, c, strict=True))
    return math.hypot(y * w - z * v, z * u - x * w, x * v - y * u) / 2


@given(CONVEX, st.floats(40, 200), st.floats(0, 1), st.floats(-0.1, 1))
def test_a_taper_of_zero_is_an_upright_side(
    outline: Outline, depth: float, across: float, down: float
) -> None:
    """To a millionth of a mm, the front put where the upright side has it."""
    slanted, upright = SlantedSide(outline.scaled(1.0), outline, depth), UprightSide(outline, depth)
    u, v = across * outline.girth, down * depth
    (x0, y0), (x, y) = slanted.flat(0, 0), slanted.flat(u, v)
    assert (x - x0, y - y0) == pytest.approx(upright.flat(u, v), abs=1e-6)
    assert slanted.in_space(u, v) == pytest.approx(upright.in_space(u, v), abs=1e-6)
    assert slanted.depth == pytest.approx(depth, abs=1e-9)


@given(TAPERS, st.floats(0, 1), st.floats(0, 1))
def test_the_paper_goes_on_over_the_join(taper: float, across: float, down: float) -> None:
    """One turn on, the paper repeats itself, turned about the apex."""
    outline = SHAPES["square"](200, 20)
    side = SlantedSide(outline.scaled(taper), outline, 100)
    u, v = across * side.girth, down * side.depth
    one = math.dist(side.flat(u, v), side.flat(side.girth / 3, 10))
    other = math.dist(side.flat(u + side.girth, v), side.flat(side.girth / 3 + side.girth, 10))
    assert other == pytest.approx(one, abs=1e-6)
    near = math.dist(side.flat(side.girth - 1e-7, v), side.flat(side.girth + 1e-7, v))
    assert near < 1e-5


@pytest.mark.parametrize("shape", ["", "shape = 'square'\n", "shape = 'polygon'\nsides = 6\n"])
def test_layers_are_square_to_the_slanted_side(shape: str) -> None:
    """From the bare side to the covered one it is coating and paste, measured square to it."""
    lines = shape + "top_size = '5 in'\ncoating = '6 mm'\nfondant = '4 mm'"
    (tier,) = build_stack(one_tier(lines)).tiers
    bare, covered = tier.bare.side, tier.covered.side
    u = bare.girth / 2
    (_, y0, z0), (_, y1, z1) = bare.in_space(u, 0), bare.in_space(u, bare.depth)
    (_, y, z) = covered.in_space(covered.girth / 2, 30)
    cross = (y1 - y0) * (z - z0) - (z1 - z0) * (y - y0)
    assert abs(cross) / math.hypot(y1 - y0, z1 - z0) == pytest.approx(10, abs=1e-6)


@given(st.floats(60, 300), TAPERS, st.floats(40, 200), st.floats(-1.2, 2.2), st.floats(0, 1))
def test_a_cone_lies_on_the_paper_as_any_slanted_side_does(
    size: float, taper: float, depth: float, across: float, down: float
) -> None:
    """What is known of a cone alone agrees with what is found stretch by stretch."""
    rim, foot = SHAPES["round"](size * taper), SHAPES["round"](size)
    cone, side = side_between(rim, foot, depth), SlantedSide(rim, foot, depth)
    u, v = across * side.girth, down * side.depth
    at = side.flat(u, v)
    assert cone.flat(u, v) == pytest.approx(at, abs=1e-6)
    assert cone.heading(u) == pytest.approx(side.heading(u), abs=1e-9)
    assert cone.place_at(at, u + 5) == pytest.approx((u, v), abs=1e-6)
    assert cone.place_at(at, u + 5) == pytest.approx(side.place_at(at, u + 5), abs=1e-6)


@pytest.mark.parametrize("lobes", range(5, 13))
@pytest.mark.parametrize("across", [158.0, 255.0])
def test_the_ruling_in_a_corner_lies_between_those_beside_it(lobes: int, across: float) -> None:
    """Each hollow of a petal has one ruling: the fold there came out up to 5 mm aside at its foot.

    By the rounding of two sums the corner was before itself for the rim, beyond itself for its
    direction.
    """
    lines = f"shape = 'petal'\nlobes = {lobes}\ntop_size = '{1.09 * across} mm'\n"
    tier = build_stack(one_tier(lines, f"{across} mm", "52 mm")).tiers[0]
    for layer in (tier.coated, tier.covered):
        side = layer.side
        assert layer.rim.corners
        for u in layer.rim.corners:
            before, here, beyond = (side.flat(u + by, side.depth) for by in (-1e-6, 0.0, 1e-6))
            assert math.dist(before, here) < 1e-3
            assert math.dist(here, beyond) < 1e-3
