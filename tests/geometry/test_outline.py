"""Outlines of constant bends: arc length, layers, corners, and drawn curves turned into arcs."""

from __future__ import annotations

import math

import pytest
import shapely
from fontTools.misc.transform import Transform
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.integrate import quad
from svgpathtools import parse_path

from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import GeometryError
from templates_gen.geometry.arc_fitting import from_path
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.box import Box
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path, polyline, rectangle
from tests.shapes import CONVEX, EVERY

SHARES = st.floats(0, 1)


@given(EVERY)
def test_an_outline_closes_andstarts_at_the_back(outline: Outline) -> None:
    """It turns once and comes back to its start, which lies on the y axis, the farthest behind."""
    end, heading = outline.bends[-1].after(*outline.starts[-2])
    assert end == pytest.approx(outline.start, abs=1e-6)
    assert heading - outline.heading == pytest.approx(math.tau, abs=1e-9)
    assert outline.start[0] == pytest.approx(0, abs=1e-9)
    ray = shapely.LineString([(0, outline.start[1] + 1e-3), (0, 1e4)])
    assert not region(outline.path(), 1e-3).buffer(-2e-3).intersects(ray)


@given(EVERY, SHARES, SHARES)
def test_arc_length_is_arc_length(outline: Outline, one: float, other: float) -> None:
    """The way between two places, added up in small steps, is their difference in s."""
    start, end = sorted((one * outline.girth, other * outline.girth))
    breaks = [s for s in outline.ends if start < s < end]
    total = 0.0
    for a, b in zip([start, *breaks], [*breaks, end], strict=True):
        total += _way(outline, a, b)
    assert total == pytest.approx(end - start, rel=1e-6, abs=1e-5)


def _way(outline: Outline, start: float, end: float) -> float:
    """Return the length of the curve between two places of one stretch, by quadrature."""
    if end - start < 1e-6:
        return end - start
    step = min(1e-3, (end - start) / 4)

    def speed(s: float) -> float:
        (x0, y0), (x1, y1) = outline.at(s), outline.at(s + step)
        return math.hypot(x1 - x0, y1 - y0) / step

    return float(quad(speed, start, end - step, limit=20)[0]) + step


@given(EVERY)
def test_girth_and_area_are_those_of_the_drawn_curve(outline: Outline) -> None:
    """Shapely measures the same of the drawn path."""
    area = region(outline.path(), 1e-4)
    assert area.length == pytest.approx(outline.girth, rel=5e-5)
    assert area.area == pytest.approx(outline.area, rel=5e-5)


@given(CONVEX, st.floats(0, 30))
def test_a_layer_adds_two_pi_a_mm_to_a_convex_girth(outline: Outline, layer: float) -> None:
    """Steiner's formula: girth grows by 2 pi d, area by girth times d and pi d squared."""
    larger = offset(outline, layer)
    assert larger.girth == pytest.approx(outline.girth + math.tau * layer, abs=1e-6)
    area = outline.area + outline.girth * layer + math.pi * layer**2
    assert larger.area == pytest.approx(area, rel=1e-6)


@settings(max_examples=40)
@given(EVERY, st.floats(0.5, 15))
def test_a_layer_is_everywhere_as_thick_as_asked(outline: Outline, layer: float) -> None:
    """The grown outline is shapely's buffer of the bare one, hollows bridged, to 0.01 mm."""
    larger = region(offset(outline, layer).path(), 2e-4)
    wanted = shapely.buffer(region(outline.path(), 2e-4), layer, quad_segs=150)
    assert larger.hausdorff_distance(wanted) < 0.01
    assert larger.length == pytest.approx(wanted.length, rel=1e-4)


@given(EVERY, st.floats(0.5, 8), st.floats(0.5, 8))
def test_two_layers_are_one_of_both_thicknesses(outline: Outline, one: float, two: float) -> None:
    """Growing twice is growing once by the sum."""
    twice, once = offset(offset(outline, one), two), offset(outline, one + two)
    assert twice.girth == pytest.approx(once.girth, abs=1e-6)
    assert twice.area == pytest.approx(once.area, rel=1e-6)


@given(EVERY, st.floats(0.5, 10))
def test_a_layer_keeps_the_corners(outline: Outline, layer: float) -> None:
    """As many corners as before, each a layer's thickness or a little more off the old one."""
    larger = offset(outline, layer)
    assert len(larger.corners) == len(outline.corners)
    for s in outline.corners:
        off = min(math.dist(outline.at(s), larger.at(other)) for other in larger.corners)
        assert off < 12 * layer


@pytest.mark.parametrize("sides", [5, 6, 8, 11])
@pytest.mark.parametrize("corner", [0.0, 12.0])
def test_a_regular_polygon_has_a_width_across_flats(sides: int, corner: float) -> None:
    """A layer widens it by its thickness on both sides."""
    outline = SHAPES["polygon"](200.0, sides=sides, corner=corner)
    assert outline.across_flats == pytest.approx(200.0)
    assert offset(outline, 9.0).across_flats == pytest.approx(218.0)


@pytest.mark.parametrize(
    "points",
    [
        [(-80, -50), (80, -50), (110, 0), (80, 50), (-80, 50), (-110, 0)],
        [(0, 100), (-95, 31), (-40, -90), (59, -81), (95, 31)],
    ],
)
def test_what_is_no_regular_polygon_has_none(points: list[tuple[float, float]]) -> None:
    """With sides of several lengths, and likewise a square, a heart and a circle."""
    outline = from_path(polyline(points, closed=True))
    assert outline.across_flats is None
    assert all(SHAPES[name](100.0).across_flats is None for name in ("round", "square", "heart"))


def test_a_square_has_its_corners_in_the_middle_of_their_arcs() -> None:
    """Side 200, radius 20: from the back middle 80 mm of flat and half of a quarter arc."""
    corners = SHAPES["square"](200.0, 20.0).corners
    assert corners[0] == pytest.approx(80 + 20 * math.pi / 4)
    assert len(corners) == 4


def test_a_corner_at_the_back_is_one_corner() -> None:
    """A pentagon with a flat front has a corner at the back: s = 0, and only once."""
    corners = SHAPES["polygon"](200.0, 5).corners
    assert len(corners) == 5
    assert corners[0] == pytest.approx(0, abs=1e-9)
    larger = offset(SHAPES["polygon"](200.0, 5), 6)
    assert larger.start == pytest.approx((0, 100 / math.cos(math.pi / 5) + 6))


@given(EVERY, SHARES)
def test_normals_point_outwards(outline: Outline, share: float) -> None:
    """A step along the normal leaves the area."""
    s = share * outline.girth
    assume(all(math.dist(outline.at(s), outline.at(corner)) > 1 for corner in outline.corners))
    (x, y), (nx, ny) = outline.at(s), outline.normal(s)
    assert math.hypot(nx, ny) == pytest.approx(1)
    area = region(outline.path(), 1e-3)
    assert not area.buffer(1e-2).contains(shapely.Point(x + 0.1 * nx, y + 0.1 * ny))


def test_a_superellipse_drawn_in_cubics_has_its_girth() -> None:
    """x^4 + y^4 = r^4 is 7.01769794356404 r long. Source: rechneronline; OEIS A186642."""
    radius, steps = 100.0, 64

    def point(k: int) -> complex:
        t = math.tau * k / steps
        c, s = math.cos(t), math.sin(t)
        return radius * complex(math.copysign(abs(c) ** 0.5, c), math.copysign(abs(s) ** 0.5, s))

    def tangent(k: int) -> complex:
        p = point(k)
        gradient = complex(p.real**3, p.imag**3)
        return 1j * gradient / abs(gradient)

    data = f"M{point(0).real} {-point(0).imag}"
    for k in range(steps):
        a, b = point(k), point(k + 1)
        reach = abs(b - a) / 3 * 1.0
        first, second = a + reach * tangent(k), b - reach * tangent(k + 1)
        data += f"C{first.real} {-first.imag} {second.real} {-second.imag} {b.real} {-b.imag}"
    drawn = parse_path(f"{data}Z")
    x0, x1, _, _ = drawn.bbox()
    outline = SHAPES["custom"](f"{data}Z", x1 - x0)
    assert outline.girth == pytest.approx(7.01769794356404 * radius, abs=0.01)
    assert outline.girth == pytest.approx(drawn.length(), abs=0.01)


@pytest.mark.parametrize("tolerance", [1e-2, 1e-3, 1e-4])
def test_arcs_stay_as_near_a_cubic_as_stated(tolerance: float) -> None:
    """An ellipse of cubics becomes arcs within the tolerance."""
    ellipse = circle((0, 0), 1).transformed(Transform(150, 0, 0, 60, 0, 0))
    made = from_path(ellipse, tolerance)
    gap = region(made.path(), 1e-5).hausdorff_distance(region(ellipse, 1e-5))
    assert gap < tolerance + 3e-5


@pytest.mark.parametrize(
    ("path", "says"),
    [
        (polyline([(0, 0), (10, 0), (10, 10)]), "one closed curve"),
        (rectangle(Box(-10, -10, 10, 10)) + rectangle(Box(-5, -5, 5, 5)), "one closed curve"),
        (rectangle(Box(10, 10, 20, 20)), "does not go round the middle"),
    ],
    ids=["open", "two curves", "beside the middle"],
)
def test_what_is_no_outline_is_refused(path: Path, says: str) -> None:
    """An open path, two contours, or one that does not go round the middle is an error."""
    with pytest.raises(GeometryError, match=says):
        from_path(path)


@pytest.mark.parametrize(("one", "two"), [(6.0, 3.0), (8.0, -1.0)])
def test_layers_that_close_a_slot_add_up(one: float, two: float) -> None:
    """A slot 10 mm wide is bridged by two layers as by one of both."""
    plan = SHAPES["custom"]("M0 0 H95 V40 H105 V0 H200 V120 H0 Z", 200.0)
    twice, once = offset(offset(plan, one), two), offset(plan, one + two)
    assert twice.girth == pytest.approx(once.girth, abs=0.01)
    assert twice.corners == pytest.approx(once.corners, abs=0.01)


def test_an_offset_by_the_radius_of_its_corners_is_a_sharp_square() -> None:
    """Corners that shrink to nothing stay bends of no length: exact, not fitted to a buffer."""
    sharp = offset(SHAPES["square"](150.0, corner=10.0), -10.0)
    assert sharp.area == pytest.approx(130.0**2, abs=1e-9)
    assert sharp.across == pytest.approx(130.0, abs=1e-9)
    assert len(sharp.corners) == 4
