"""Paths, boxes and what they promise of each other."""

from __future__ import annotations

import math

import pytest
from fontTools.misc.transform import Transform
from fontTools.pens.areaPen import AreaPen
from fontTools.pens.perimeterPen import PerimeterPen
from fontTools.pens.recordingPen import RecordingPen
from hypothesis import given
from hypothesis import strategies as st
from svgpathtools import CubicBezier

from templates_gen.geometry.arcs import arc_cubics, circle
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path, polyline, rectangle

RADII = st.floats(0.5, 1000)
ANGLES = st.floats(-10, 10)
SPOTS = st.tuples(st.floats(-500, 500), st.floats(-500, 500))


def area(path: Path) -> float:
    """Return the area of a path by fontTools."""
    pen = AreaPen()
    path.draw(pen)
    return abs(float(pen.value))


def perimeter(path: Path, tolerance: float = 1e-6) -> float:
    """Return the length of a path by fontTools."""
    pen = PerimeterPen(tolerance=tolerance)
    path.draw(pen)
    return float(pen.value)


@given(RADII, ANGLES)
def test_a_circle_of_eight_cubics_is_true_to_5_millionths(radius: float, start: float) -> None:
    """No point of the drawn circle is further off than 5e-6 of its radius (our convention)."""
    here, *curves = [points for _, points in circle((0, 0), radius, start).commands if points]
    assert len(curves) == 8
    at = complex(*here[0])
    for points in curves:
        cubic = CubicBezier(at, *(complex(*point) for point in points))
        for step in range(21):
            assert abs(cubic.point(step / 20)) == pytest.approx(radius, rel=5e-6)
        at = cubic.end


@given(RADII)
def test_a_circle_has_the_area_and_length_of_a_circle(radius: float) -> None:
    """Area and length agree with pi to 1e-5, measured by fontTools."""
    path = circle((3, 4), radius)
    assert area(path) == pytest.approx(math.pi * radius**2, rel=1e-5)
    assert perimeter(path) == pytest.approx(math.tau * radius, rel=1e-5)


@given(RADII, ANGLES, st.floats(-6.2, 6.2).filter(lambda sweep: abs(sweep) > 0.01))
def test_an_arc_ends_where_its_sweep_says(radius: float, start: float, sweep: float) -> None:
    """Start plus sweep is the angle of the last point."""
    x, y = arc_cubics((0, 0), radius, start, sweep)[-1][1][-1]
    assert x == pytest.approx(radius * math.cos(start + sweep), abs=1e-9 * radius)
    assert y == pytest.approx(radius * math.sin(start + sweep), abs=1e-9 * radius)


@given(SPOTS, RADII, ANGLES, SPOTS)
def test_a_moved_and_turned_path_keeps_area_and_perimeter(
    centre: tuple[float, float], radius: float, angle: float, move: tuple[float, float]
) -> None:
    """A rigid map changes neither."""
    path = circle(centre, radius) + rectangle(Box(0, 0, radius, 3))
    turned = path.transformed(Transform().translate(*move).rotate(angle))
    assert area(turned) == pytest.approx(area(path), rel=1e-9, abs=1e-6)
    assert perimeter(turned) == pytest.approx(perimeter(path), rel=1e-5)


@given(SPOTS, RADII)
def test_bounds_are_those_of_the_line_and_not_of_its_handles(
    centre: tuple[float, float], radius: float
) -> None:
    """The box of a circle is the box of a circle, wherever its cubics start."""
    box = circle(centre, radius, 0.3).bounds
    (x, y), r = centre, radius
    for got, wanted in zip(box, (x - r, y - r, x + r, y + r), strict=True):
        assert got == pytest.approx(wanted, abs=1e-5 * r)


def test_a_path_replays_to_any_pen_of_the_protocol() -> None:
    """A recording pen of fontTools gets the commands unchanged."""
    path = polyline([(0, 0), (1, 2), (3, 1)], closed=True) + circle((5, 5), 2)
    pen = RecordingPen()
    path.draw(pen)
    assert [(name, tuple(points)) for name, points in pen.value] == list(path.commands)


BOXES = st.tuples(SPOTS, SPOTS).map(
    lambda ends: Box(
        min(ends[0][0], ends[1][0]),
        min(ends[0][1], ends[1][1]),
        max(ends[0][0], ends[1][0]),
        max(ends[0][1], ends[1][1]),
    )
)


@given(BOXES, BOXES)
def test_the_common_box_lies_in_both(one: Box, other: Box) -> None:
    """What two boxes share is inside each, and there is none when they are apart."""
    common = one.intersection(other)
    if common is not None:
        assert one.contains(common)
        assert other.contains(common)
    else:
        assert one.x1 <= other.x0 or other.x1 <= one.x0 or one.y1 <= other.y0 or other.y1 <= one.y0
