"""Rigid things on a side: of true size on the paper, and at their place in (u, v)."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import polyline
from templates_gen.tiers.cone import side_between
from templates_gen.tiers.rigid import PaperLine, set_at
from templates_gen.tiers.side import Fall, Side, UprightSide
from tests.shapes import CONVEX


@st.composite
def sides(draw: st.DrawFn) -> Side:
    """Draw a side: upright, under a sloped top, or slanted either way."""
    outline: Outline = draw(CONVEX)
    depth = draw(st.floats(60, 200))
    kind = draw(st.sampled_from(["upright", "sloped", "slanted"]))
    if kind == "slanted":
        return side_between(outline.scaled(draw(st.floats(0.6, 1.5))), outline, depth)
    rate = depth / 3 / outline.across
    fall = Fall((1.0, 0.0), rate, -outline.across / 2) if kind == "sloped" else None
    return UprightSide(outline, depth, fall)


@given(sides(), st.floats(-0.2, 1.2), st.floats(0.05, 0.95), st.floats(-25, 25))
@settings(max_examples=60)
def test_a_place_on_the_paper_is_found_again(
    side: Side, share: float, down: float, beside: float
) -> None:
    """From wherever it is looked for, beyond the back join too."""
    u, v = share * side.girth, down * side.least_depth
    assert math.dist(side.place_at(side.flat(u, v), u + beside), (u, v)) < 1e-4


@given(sides(), st.floats(-0.05, 1.05), st.floats(0.3, 0.7))
@settings(max_examples=15, deadline=None)
def test_a_rigid_circle_is_round_on_the_paper(side: Side, share: float, down: float) -> None:
    """Every point of it lies one radius from its anchor, over corners and the back join too."""
    at = share * side.girth, down * side.least_depth
    ring = set_at(side, circle((0.0, 0.0), 8.0), at)
    (flat,) = side.unroll(Drawing((Stroke(ring, Role.CUT),))).strokes
    ((points, _),) = sampled(flat.path)
    far = [math.dist(point, side.flat(*at)) for point in points]
    assert max(far) - min(far) < 2e-2  # sampled to a hundredth
    assert max(far) == pytest.approx(8.0, abs=2e-3)


def test_a_rigid_thing_stands_square_to_the_level_line() -> None:
    """On a cone its axis lies along the ruling: what goes straight up it goes straight to the rim.

    The paper of a cone is a sector, whose radii are the rulings.
    """
    side = side_between(SHAPES["round"](150), SHAPES["round"](250), 120)
    at = side.girth * 0.8, 70.0
    up = set_at(side, polyline([(0.0, -20.0), (0.0, 20.0)]), at)
    ends = [points[-1] for _, points in up.commands if points]
    assert ends[0] == pytest.approx((at[0], 90.0), abs=1e-3)
    assert ends[-1] == pytest.approx((at[0], 50.0), abs=1e-3)


def test_a_line_on_the_paper_is_measured_along_itself() -> None:
    """Half way down a cone from 100 to 200 mm a level line is 1.5 times as long as the rim."""
    side = side_between(SHAPES["round"](100), SHAPES["round"](200), 90)
    half = PaperLine(lambda t: side.flat(side.girth / 2 + t, side.depth / 2), 60)
    assert half.span == pytest.approx(120 * 1.5, rel=1e-6)
    assert half.parameter(30) == pytest.approx(20, abs=1e-4)
    assert half(0.0)[1] == pytest.approx(0.0, abs=1e-9)
