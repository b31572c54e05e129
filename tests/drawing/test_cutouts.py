"""Shapes to cut: one outline each, as large as asked; necks measured as they are."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.drawing.cutouts import CUTOUTS, star
from templates_gen.errors import GeometryError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import filled, merged_with, region
from templates_gen.geometry.areas.placement import lowest_span
from templates_gen.geometry.areas.thickness import is_one, narrowest
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import polyline, rectangle


@pytest.mark.parametrize("name", CUTOUTS)
@given(st.floats(5, 300))
def test_a_shape_is_one_outline_of_the_size_asked(name: str, size: float) -> None:
    """Its longer side is the size, its middle (0, 0), and it does not cross itself."""
    path = CUTOUTS[name](size)
    box = path.bounds
    assert max(box.width, box.height) == pytest.approx(size)
    assert box.centre == pytest.approx((0, 0), abs=1e-6 * size)
    assert is_one(path)
    assert region(path).area == pytest.approx(filled(path).area)


@pytest.mark.parametrize("name", CUTOUTS)
def test_a_shape_is_alike_left_and_right(name: str) -> None:
    """All of them are upright."""
    area = filled(CUTOUTS[name](100))
    mirrored = shapely.transform(area, lambda xy: xy * [-1, 1])
    assert area.symmetric_difference(mirrored).area < 0.01 * area.area


@given(st.integers(4, 24))
def test_a_star_has_its_points(points: int) -> None:
    """As many corners far out as asked, one of them straight up."""
    area = filled(star(100, points))
    assert isinstance(area, shapely.Polygon)
    middle = area.centroid
    reach = max(math.dist((middle.x, middle.y), place) for place in area.exterior.coords)
    tips = area.difference(middle.buffer(0.8 * reach))
    assert len(shapely.get_parts(tips)) == points
    highest = max(area.exterior.coords, key=lambda place: place[1])
    assert highest[0] == pytest.approx(middle.x, abs=0.5)


def dumb_bell(neck: float) -> tuple[float, float]:
    """Return measured neck and true neck of two discs with a bar between them."""
    bar = rectangle(Box(-30, -neck / 2, 30, neck / 2))
    whole = merged_with(merged_with(circle((-30, 0), 12), bar), circle((30, 0), 12))
    return narrowest(whole, 5.0), neck


@given(st.floats(1, 4.9))
def test_a_neck_is_as_wide_as_it_is(neck: float) -> None:
    """Two discs joined by a bar: the width of the bar, to a twentieth of a mm."""
    found, true = dumb_bell(neck)
    assert found == pytest.approx(true, abs=0.05)


@given(st.floats(5.05, 20))
def test_a_stout_neck_passes(neck: float) -> None:
    """From 5 mm on it is stout enough."""
    assert dumb_bell(neck)[0] == 5.0


@given(st.floats(1, 4.9))
def test_a_thin_arm_is_found(width: float) -> None:
    """An arm that joins nothing at its end is measured too."""
    whole = merged_with(circle((0, 0), 20), rectangle(Box(0, -width / 2, 60, width / 2)))
    assert narrowest(whole, 5.0) == pytest.approx(width, abs=0.15)


def test_tips_are_no_necks() -> None:
    """The tips of a star, a heart and a leaf run out to nothing and hold all the same."""
    for path in (star(80), CUTOUTS["heart"](60), CUTOUTS["leaf"](60), CUTOUTS["butterfly"](60)):
        assert narrowest(path, 5.0) == 5.0


def test_where_a_stick_finds_paste_on_both_sides() -> None:
    """On the point of a triangle 12 mm of paste begin where it is 12 mm wide."""
    triangle = polyline([(0, 0), (40, 80), (-40, 80)], closed=True)
    assert lowest_span(triangle, 0, 12) == pytest.approx(12, abs=0.5)
    assert lowest_span(triangle, 30, 30) is None


def test_outlines_that_do_not_overlap_are_not_joined() -> None:
    """It is an error, not two pieces."""
    with pytest.raises(GeometryError):
        merged_with(circle((0, 0), 5), circle((20, 0), 5))
