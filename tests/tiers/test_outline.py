"""Plan outlines: each is checked against published tables and by general laws."""

from __future__ import annotations

import math
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from templates_gen.cake.model import Tier
from templates_gen.tiers.outline import SHAPES, Round

ACROSS = st.floats(20, 1500)


@pytest.mark.parametrize(
    ("across", "girth"), [(6, "18.84955"), (8, "25.13274"), (10, "31.41592"), (12, "37.69911")]
)
def test_girths_are_those_of_the_table_of_circles(across: int, girth: str) -> None:
    """Source: The American House-Carpenter, Table of Circles (digits cut off, not rounded)."""
    assert f"{Round(across).girth:.12f}".startswith(girth)


def test_the_girth_of_a_five_inch_circle() -> None:
    """Source: Tinman's Manual, 5 in across is 15.708 in round."""
    assert Round(5 * 25.4).girth / 25.4 == pytest.approx(15.708, abs=0.0005)


@given(ACROSS, st.floats(0, 30))
def test_a_layer_adds_two_pi_to_the_girth_for_each_mm(across: float, layer: float) -> None:
    """For a convex plan the girth grows by 2 pi a mm (Steiner's formula)."""
    grown = Round(across).grown(layer)
    assert grown.girth - Round(across).girth == pytest.approx(math.tau * layer, abs=1e-6)


@given(ACROSS)
def test_arc_length_runs_from_the_back_to_the_right_as_seen_from_outside(across: float) -> None:
    """Back, left, front and right as seen from above follow each other counter-clockwise."""
    outline = Round(across)
    quarters = [outline.at(share * outline.girth) for share in (0, 0.25, 0.5, 0.75)]
    radius = across / 2
    wanted = [(0, radius), (-radius, 0), (0, -radius), (radius, 0)]
    for got, place in zip(quarters, wanted, strict=True):
        assert got == pytest.approx(place, abs=1e-6)


@given(ACROSS, st.floats(0, 1), st.floats(0, 1))
def test_arc_length_is_arc_length(across: float, one: float, other: float) -> None:
    """The way between two places along the outline, by quadrature, is their difference in s."""
    outline = Round(across)
    start, end = sorted((one * outline.girth, other * outline.girth))

    def speed(s: float) -> float:
        step = 1e-3
        (x0, y0), (x1, y1) = outline.at(s - step), outline.at(s + step)
        return math.hypot(x1 - x0, y1 - y0) / (2 * step)

    assert quad(speed, start, end)[0] == pytest.approx(end - start, rel=1e-6, abs=1e-6)


def test_the_path_starts_at_the_back_and_has_the_size() -> None:
    """The drawn outline is as wide as the outline says, and starts where s = 0."""
    outline = Round(254.0)
    path = outline.path()
    assert path.commands[0][1][0] == pytest.approx(outline.at(0))
    assert path.bounds.width == pytest.approx(outline.across, abs=1e-3)


def test_the_cake_file_knows_every_shape_of_the_table() -> None:
    """The words for shapes are the same in the model and in the table of outlines."""
    assert set(get_args(Tier.model_fields["shape"].annotation)) == set(SHAPES)
