"""Cubics that stand for arcs are known again, others stay what they are."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.geometry.arcs import arc_cubics, circle
from templates_gen.geometry.as_arcs import Arc, Cubic, Line, with_arcs
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path, polyline

COORDINATE = st.floats(-500, 500)


def arc(centre: Point, radius: float, start: float, sweep: float) -> Path:
    """Return an arc as cubics."""
    begin = centre[0] + radius * math.cos(start), centre[1] + radius * math.sin(start)
    return Path((("moveTo", (begin,)), *arc_cubics(centre, radius, start, sweep), ("endPath", ())))


@given(
    st.tuples(COORDINATE, COORDINATE),
    st.floats(1, 800),
    st.floats(-math.pi, math.pi),
    st.floats(0.05, 2 * math.pi),
    st.booleans(),
)
def test_an_arc_is_an_arc_again(
    centre: Point, radius: float, start: float, sweep: float, clockwise: bool
) -> None:
    """Centre, radius and angle come back; parts of one arc are put together to half a circle."""
    sweep = -sweep if clockwise else sweep
    (contour,) = with_arcs(arc(centre, radius, start, sweep))
    found = [each for each in contour.segments if isinstance(each, Arc)]
    assert len(found) == len(contour.segments) <= 3
    assert sum(each.sweep for each in found) == pytest.approx(sweep, abs=1e-5)
    for each in found:
        assert each.radius == pytest.approx(radius, rel=1e-5)
        assert math.dist(each.centre, centre) < 1e-5 * radius


@pytest.mark.parametrize("rise", [1e-5, -1e-5, 1e-3])
def test_what_is_as_good_as_straight_is_a_line(rise: float) -> None:
    """An arc that rises by no more than rounding over 30 mm would have a radius of kilometres."""
    radius = (30.0**2 / 4 + rise**2) / 2 / abs(rise)
    half = math.asin(15 / radius)
    start = math.copysign(math.pi / 2, rise) + math.copysign(half, rise)
    path = arc(
        (0.0, math.copysign(rise - radius, -rise)), radius, start, -math.copysign(2 * half, rise)
    )
    (contour,) = with_arcs(path)
    assert {type(each) for each in contour.segments} == {Line if abs(rise) < 1e-4 else Arc}


def test_a_circle_is_two_halves() -> None:
    """A closed contour ends where it starts, without a line of no length."""
    (contour,) = with_arcs(circle((10, 20), 50))
    assert contour.closed
    assert [type(each) for each in contour.segments] == [Arc, Arc]


def test_other_curves_stay_cubics() -> None:
    """A cubic that bends otherwise, or both ways, is not taken for an arc."""
    for first, second in (((0, 50), (100, 60)), ((0, 50), (100, -50)), ((50, 0), (60, 0))):
        path = Path(
            (("moveTo", ((0, 0),)), ("curveTo", (first, second, (100, 0))), ("endPath", ()))
        )
        ((only,),) = (contour.segments for contour in with_arcs(path))
        assert isinstance(only, Cubic)


def test_lines_close_a_contour() -> None:
    """The line back to the start is one of the segments."""
    (contour,) = with_arcs(polyline([(0, 0), (10, 0), (10, 10)], closed=True))
    assert contour.closed
    assert contour.segments[-1] == Line((10, 10), (0, 0))
