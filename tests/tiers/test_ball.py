"""Balls: their layers, and the gores that cover them."""

from __future__ import annotations

import math
import re
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import build_stack
from templates_gen.tiers.ball import BallSide, ball
from tests.cakes import one_tier, pieces_of

BALL = "shape = 'ball'\ncover = 'panelled'\n"


def gore_of(lines: str, size: str = "6 in", depth: str = "6 in") -> Piece:
    """Return the gore of a ball."""
    pieces = pieces_of(one_tier(BALL + lines, size=size, depth=depth))
    return next(piece for piece in pieces if piece.kind == "gore")


@given(st.integers(4, 24), st.integers(80, 400))
def test_gores_together_are_the_sphere(count: int, size: int) -> None:
    """N x gore area = 4 pi R^2. Source: "Making a Sphere from Flat Material", The Math Doctors."""
    gore = gore_of(f"[tier.gores]\ncount = {count}", f"{size} mm", f"{size} mm")
    radius = size / 2 + 5 + 2.5
    area = count * region(gore.outline, 1e-5).area
    assert area == pytest.approx(4 * math.pi * radius**2, rel=1e-4)
    assert gore.values["gore_length_mm"] == pytest.approx(math.pi * radius)
    assert gore.values["gore_width_mm"] == pytest.approx(2 * math.pi * radius / count)


@given(st.integers(0, 100))
def test_a_gore_is_the_girth_of_its_level_over_the_number(percent: int) -> None:
    """At each level the width is the girth there over n. Source: as above."""
    gore = gore_of("")
    radius = 76.2 + 7.5
    away = math.pi * radius * percent / 100
    area = region(gore.outline, 1e-3)
    top = area.bounds[3]
    level = shapely.LineString([(-1e3, top - away), (1e3, top - away)])
    wide = shapely.intersection(level, area).length
    girth = math.tau * radius * math.sin(away / radius)
    assert wide == pytest.approx(girth / 8, abs=0.05)


@given(st.floats(80, 300), st.floats(0.3, 0.95))
def test_a_ball_with_its_foot_cut_off_is_a_cap_of_a_sphere(size: float, share: float) -> None:
    """Area 2 pi R h from the meridian by quadrature; the foot is a chord's half."""
    cut = ball(size, size * share)
    area = quad(lambda s: math.tau * cut.radius * math.sin(s / cut.radius), 0, cut.meridian)[0]
    assert area == pytest.approx(math.tau * cut.radius * size * share, rel=1e-6)
    assert cut.foot_radius**2 == pytest.approx(size * share * (size - size * share), rel=1e-9)


def test_overlapping_gores_are_wider_by_the_overlap_and_show_where_the_next_ends() -> None:
    """The overlap lies on one flank; a line to score marks the true one."""
    plain, over = gore_of(""), gore_of("[tier.gores]\njoins = 'overlapping'\noverlap = '7 mm'")
    assert over.size.width - plain.size.width == pytest.approx(7, abs=1e-3)
    assert any(stroke.role.word == "score" for stroke in over.drawing.strokes)
    said = " ".join(label.text for label in over.drawing.labels).replace("\xa0", " ")
    (wide,) = re.findall(r"× .*?([\d.]+) mm", said)
    assert float(wide) == pytest.approx(over.size.width, abs=0.06)


def test_half_a_ball_needs_a_round_sheet_of_half_its_girth() -> None:
    """A draped half ball: pi R and the trim on both sides."""
    pieces = pieces_of(one_tier("shape = 'ball'", size="8 in", depth="4 in"))
    drape = next(piece for piece in pieces if piece.kind == "rolling-out-circle")
    coated = 4 * 25.4 + 5
    angle = math.pi / 2
    assert drape.values["across_mm"] == pytest.approx(2 * coated * angle + 30, abs=0.5)


def test_a_ball_stands_in_a_ring() -> None:
    """A whole ball is scored as a ring half as wide; one cut flat as its foot."""
    (whole,) = build_stack(one_tier(BALL, size="6 in", depth="6 in")).tiers
    assert whole.covered.foot.across == pytest.approx(whole.covered.rim.across / 2)
    (cut,) = build_stack(one_tier(BALL, size="6 in", depth="5 in")).tiers
    assert cut.bare.foot.across == pytest.approx(2 * math.sqrt(5 * 1) * 25.4)
    assert cut.gored is not None


def test_a_whole_ball_stands_on_its_layers() -> None:
    """Coating and paste of 10 mm make it 20 mm taller, and its lowest place is the board."""
    lines = BALL + "coating = '6 mm'\nfondant = '4 mm'"
    (tier,) = build_stack(one_tier(lines, size="150 mm", depth="150 mm")).tiers
    side = tier.covered.side
    assert tier.covered.depth == pytest.approx(170)
    assert side.in_space(0.0, side.depth)[2] == pytest.approx(0, abs=1e-9)


@given(st.floats(50, 400), st.floats(0.5, 1), st.floats(0, 1), st.floats(0, 1))
def test_a_ball_is_round_at_every_level(
    size: float, share: float, across: float, down: float
) -> None:
    """A place lies on the sphere, and its level is as long round as the side says."""
    side = BallSide(ball(size, size * share))
    v = down * side.depth
    x, y, z = side.in_space(across * side.girth, v)
    assert math.hypot(x, y, z - side.ball.raised) == pytest.approx(size / 2)
    assert math.tau * math.hypot(x, y) == pytest.approx(side.girth * side.girth_ratio(v), abs=1e-6)


@given(st.floats(50, 400), st.floats(0.5, 1), st.floats(0, 1), st.floats(0.01, 0.9))
def test_levels_of_a_ball_keep_their_length_on_paper(
    size: float, share: float, across: float, down: float
) -> None:
    """A level is as long on the paper as on the ball, and a place is found again there."""
    side = BallSide(ball(size, size * share))
    u, v = across * side.girth, down * side.depth
    (x0, y0), (x1, y1) = side.flat(0.0, v), side.flat(side.girth, v)
    assert y0 == y1
    assert x1 - x0 == pytest.approx(side.girth * side.girth_ratio(v), abs=1e-9)
    assert side.place_at(side.flat(u, v), 0.0) == pytest.approx((u, v), abs=1e-6)


@given(st.floats(50, 400), st.floats(0.3, 1))
def test_the_profile_of_a_ball_turns_to_its_area(size: float, share: float) -> None:
    """The surface that the profile makes when it is turned is the area of the side (Pappus)."""
    side = BallSide(ball(size, size * share))
    assert side.profile is not None
    edge, _ = next(sampled(side.profile, 0.001))
    round_area = sum(
        math.dist(a, b) * math.pi * abs(a[0] + b[0]) / 2
        for a, b in pairwise(edge)
        if max(a[1], b[1]) > 1e-9
    )
    assert side.area == pytest.approx(round_area, rel=2e-3)
