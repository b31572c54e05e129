"""Areas, clipping and clearance, against shapely used apart from the project."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.drawing.path import Box, circle, line, polyline, rectangle
from templates_gen.drawing.polygons import (
    TOLERANCE,
    clearance,
    clipped,
    filled,
    part_in,
    region,
    sampled,
    spans_on,
)
from templates_gen.errors import GeometryError

RADII = st.floats(2, 400)


@given(RADII, st.sampled_from([0.1, 0.01, 0.001]))
def test_a_sampled_curve_stays_within_its_tolerance(radius: float, tolerance: float) -> None:
    """No chord of a sampled circle leaves it by more than was stated."""
    ((points, closed),) = sampled(circle((0, 0), radius), tolerance)
    assert closed
    for (x0, y0), (x1, y1) in pairwise(points):
        middle = math.hypot((x0 + x1) / 2, (y0 + y1) / 2)
        assert radius - middle <= tolerance + 5e-6 * radius


@given(RADII, st.floats(0.1, 0.9))
def test_a_contour_inside_another_is_a_hole(radius: float, share: float) -> None:
    """A ring has the area between its circles."""
    ring = region(circle((0, 0), radius) + circle((0, 0), radius * share), 0.001)
    assert ring.area == pytest.approx(math.pi * radius**2 * (1 - share**2), rel=1e-3)


@pytest.mark.parametrize(
    "path",
    [
        line((0, 0), (10, 10)),
        polyline([(0, 0), (10, 10), (10, 0), (0, 10)], closed=True),
        polyline([(0, 0), (5, 0), (10, 0)], closed=True),
    ],
    ids=["open", "crossing itself", "flat"],
)
def test_an_outline_that_encloses_nothing_is_refused(path: object) -> None:
    """An open, crossing or flat outline is an error, not a wrong area."""
    with pytest.raises(GeometryError):
        region(path)  # type: ignore[arg-type]


@given(st.floats(20, 300), st.floats(5, 19), st.floats(-12, 12))
def test_clearance_of_circles_is_known(outer: float, inner: float, off: float) -> None:
    """Of circles it is the difference of radii less the distance of centres, by arithmetic."""
    got = clearance(circle((off, 0), inner), circle((0, 0), outer))
    assert got == pytest.approx(outer - inner - abs(off), abs=0.003)


def test_clearance_agrees_with_another_way_to_measure() -> None:
    """A square in a circle: corner to rim, by Pythagoras."""
    square = rectangle(Box(-30, -30, 30, 30))
    assert clearance(square, circle((0, 0), 60)) == pytest.approx(60 - 30 * math.sqrt(2), abs=0.002)


@given(st.floats(-60, 60), st.floats(-60, 60))
def test_clipping_keeps_exactly_the_length_inside(x: float, y: float) -> None:
    """The clipped line of a circle is as long as shapely says the inside part is."""
    box = Box(x - 30, y - 20, x + 30, y + 20)
    path = circle((0, 0), 40)
    ((points, _),) = sampled(path)
    wanted = shapely.LineString(points).intersection(shapely.box(*box)).length
    got = sum(shapely.LineString(part).length for part, _ in sampled(clipped(path, box)))
    assert got == pytest.approx(wanted, abs=5 * TOLERANCE)
    inside = box.grown(1e-6)
    assert all(inside.holds(Box.round(part)) for part, _ in sampled(clipped(path, box)))


def test_a_path_inside_is_not_touched() -> None:
    """What needs no clipping keeps its curves."""
    path = circle((0, 0), 10)
    assert clipped(path, Box(-20, -20, 20, 20)) is path


def test_spans_come_in_order_along_the_line() -> None:
    """A line through a ring meets it twice, in the direction of the line."""
    ring = region(circle((0, 0), 50) + circle((0, 0), 30))
    (a, b), (c, d) = spans_on(ring, (0, 60), (0, -60))
    assert [p[1] for p in (a, b, c, d)] == pytest.approx([50, 30, -30, -50], abs=0.01)


def test_the_part_in_a_box_is_boxed_tightly() -> None:
    """The cap of a circle is as wide as its chord."""
    part = part_in(region(circle((0, 0), 50), 0.001), Box(-50, 40, 50, 60))
    assert part is not None
    assert part.width == pytest.approx(2 * math.sqrt(50**2 - 40**2), abs=0.05)
    assert part_in(region(circle((0, 0), 50)), Box(60, 60, 70, 70)) is None


def test_a_ring_that_goes_over_itself_fills_what_it_goes_round() -> None:
    """Twice round fills as once does; a loop that runs the other way fills nothing."""
    twice = polyline([(0, 0), (4, 0), (4, 4), (0, 4), (0, 0), (3, 0), (3, 3), (0, 3)], closed=True)
    assert filled(twice).area == pytest.approx(16)
    loop = polyline([(0, 0), (6, 0), (6, 6), (0, 6), (1, 6.5), (1, 5.5)], closed=True)
    assert isinstance(filled(loop), shapely.Polygon)
