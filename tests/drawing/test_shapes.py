"""Shapes against published values: girths, areas, sizes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.special import ellipe

from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import GeometryError
from templates_gen.geometry.outline import Outline
from tests.shapes import EVERY, PLAIN


@pytest.mark.parametrize(
    ("across", "girth", "area"),
    [
        (6, "18.84955", "28.27433"),
        (8, "25.13274", "50.26548"),
        (10, "31.41592", "78.53981"),
        (12, "37.69911", "113.09733"),
    ],
)
def test_circles_are_those_of_the_table(across: int, girth: str, area: str) -> None:
    """Source: The American House-Carpenter, Table of Circles (digits cut off, not rounded)."""
    outline = SHAPES["round"](float(across))
    assert f"{outline.girth:.12f}".startswith(girth)
    assert f"{outline.area:.12f}".startswith(area)


def test_the_girth_of_a_five_inch_circle() -> None:
    """Source: Tinman's Manual, 5 in across is 15.708 in round."""
    assert SHAPES["round"](5 * 25.4).girth / 25.4 == pytest.approx(15.708, abs=0.0005)


@pytest.mark.parametrize(
    ("k", "second"), [(0.5, 1.46746220933942715546), (0.78125, 1.29278684761591250569)]
)
def test_ovals_are_4_a_e_of_k_round(k: float, second: float) -> None:
    """Sources: Boost.Math test_ellint_2.hpp for E(k); DLMF 19.30(i) for the perimeter."""
    size = 300.0
    outline = SHAPES["oval"](size, size * math.sqrt(1 - k**2))
    assert outline.girth == pytest.approx(2 * size * second, abs=0.001)


@given(st.floats(80, 800), st.floats(0.3, 1))
def test_ovals_agree_with_scipy(size: float, ratio: float) -> None:
    """Scipy's E takes the parameter m = k squared; area is pi a b."""
    outline = SHAPES["oval"](size, size * ratio)
    assert outline.girth == pytest.approx(2 * size * ellipe(1 - ratio**2), abs=0.005)
    assert outline.area == pytest.approx(math.pi * size**2 * ratio / 4, rel=1e-5)


@given(st.floats(60, 600), st.floats(0.3, 1), st.floats(0, 1))
def test_rectangles_lose_at_each_corner_what_the_arc_cuts_off(
    size: float, ratio: float, roundness: float
) -> None:
    """Girth 2 (a + b) - (8 - 2 pi) r, area a b - (4 - pi) r squared (arithmetic)."""
    short = size * ratio
    r = short / 2 * roundness
    outline = SHAPES["rectangle"](size, short, r)
    assert outline.girth == pytest.approx(2 * (size + short) - (8 - math.tau) * r)
    assert outline.area == pytest.approx(size * short - (4 - math.pi) * r**2)
    assert (outline.bounds.width, outline.bounds.height) == pytest.approx((size, short), rel=1e-5)


@pytest.mark.parametrize("sides", range(3, 13))
def test_polygons_are_as_wide_across_flats_as_asked(sides: int) -> None:
    """Each side is half the size from the middle: n s tan(pi / n) round, flat at the front."""
    outline = SHAPES["polygon"](200.0, sides)
    assert outline.girth == pytest.approx(sides * 200 * math.tan(math.pi / sides))
    assert outline.area == pytest.approx(outline.girth * 100 / 2)
    assert outline.at(outline.girth / 2)[1] == pytest.approx(-100)
    assert len(outline.corners) == sides


@pytest.mark.parametrize("lobes", range(5, 13))
def test_petals_have_their_lobes_and_reach(lobes: int) -> None:
    """A tip at the front, half the size from the middle; as many valleys as lobes."""
    outline = SHAPES["petal"](200.0, lobes)
    assert outline.at(outline.girth / 2) == pytest.approx((0, -100), abs=1e-6)
    assert len(outline.corners) == lobes
    assert all(math.hypot(*outline.at(s)) < 95 for s in outline.corners)


def test_a_heart_is_a_square_and_a_round() -> None:
    """Its girth is that of a round and two sides, its area that of a round and a square."""
    outline = SHAPES["heart"](200.0)
    side = 200 / (1 + math.sqrt(0.5))
    assert outline.bounds.width == pytest.approx(200, abs=1e-3)
    assert outline.girth == pytest.approx(math.pi * side + 2 * side)
    assert outline.area == pytest.approx(math.pi * side**2 / 4 + side**2)


def test_an_own_outline_is_as_wide_as_asked() -> None:
    """Path data is scaled to the size, whatever its units."""
    data = "M0 0 h80 v40 h-80 z"
    assert SHAPES["custom"](data, 80.0).girth == pytest.approx(240)
    assert SHAPES["custom"](data, 160.0).girth == pytest.approx(480)


@pytest.mark.parametrize("size", [25.0, 254.0, 762.0, 1500.0])
@pytest.mark.parametrize("half", ["A 50 50 0 0 1 ", "A 5 5 30 1 1 "], ids=["radius", "too small"])
def test_arcs_of_an_own_outline_are_arcs(size: float, half: str) -> None:
    """A circle of two arcs is the round; radii too small for it are grown (SVG 1.1, F.6.6)."""
    outline = SHAPES["custom"](f"M0 50 {half} 100 50 {half} 0 50 Z", size)
    assert outline.girth == pytest.approx(math.pi * size, abs=1e-4)
    assert outline.area == pytest.approx(math.pi * size**2 / 4, rel=1e-7)


def test_arcs_of_an_own_outline_may_be_elliptic() -> None:
    """Four of them, turned by a right angle, make the oval; its girth is that of the table."""
    data = "M40 0 A 60 40 90 0 1 0 60 A 60 40 90 0 1 -40 0 A 60 40 90 0 1 0 -60 A60 40 90 0 1 40 0Z"
    outline = SHAPES["custom"](data, 300.0)
    assert outline.girth == pytest.approx(SHAPES["oval"](300.0, 200.0).girth, abs=0.002)
    assert outline.bounds.size == pytest.approx((200, 300), abs=1e-3)


def test_an_arc_without_a_radius_is_a_line() -> None:
    """As SVG has it (F.6.6): a square of such arcs has the girth of a square."""
    outline = SHAPES["custom"]("M0 0 A 0 9 0 0 1 80 0 A 9 0 0 0 1 80 80 A 0 0 0 0 1 0 80 Z", 80.0)
    assert outline.girth == pytest.approx(320)


@pytest.mark.parametrize("data", ["M0 0 h80 v40 h-80 z", "M0 0 h40 v80 h-40 z"])
def test_size_is_the_longer_way_of_an_own_outline(data: str) -> None:
    """Lying or standing, the same drawing comes out the same size."""
    assert max(SHAPES["custom"](data, 160.0).bounds.size) == pytest.approx(160)


@pytest.mark.parametrize(
    "data",
    [
        "",
        "hello",
        "M0 0 L10 0 L10 10",
        "M0 0 L10 0 L10 10 Z M20 20 L30 20 L30 30 Z",
        "M0 0 L10 10 L10 0 L0 10 Z",
        "M0 0 Z",
        "M0 0 L 1e9 0 L 0 1e9 Z",
        "M nan 0 L 10 0 L 0 10 Z",
        "M0 0 " + "L10 0 L0 10 " * 5000 + "Z",
    ],
    ids=["empty", "words", "open", "two", "crossing", "point", "vast", "nan", "endless"],
)
def test_a_path_that_is_no_simple_closed_curve_is_refused(data: str) -> None:
    """Each is a clear error of geometry, never a traceback of another kind."""
    with pytest.raises(GeometryError):
        SHAPES["custom"](data, 100.0)


@given(EVERY)
def test_the_box_of_a_shape_is_centred(outline: Outline) -> None:
    """Left and right are alike about the y axis for every shape of the table but an own one."""
    box = outline.bounds
    assert box.x0 + box.x1 == pytest.approx(0, abs=1e-2)


def test_every_shape_has_a_strategy() -> None:
    """The laws run over the whole table."""
    assert set(PLAIN) == set(SHAPES)
