"""Areas, clipping and clearance, against shapely used apart from the project."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.errors import GeometryError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import clipped_box, filled, region, shadow
from templates_gen.geometry.areas.lines import clipped, cutter, spans_on
from templates_gen.geometry.areas.placement import clearance
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.areas.silhouettes import hull
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, polyline, rectangle
from templates_gen.geometry.tolerances import SAMPLING

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


def test_a_contour_that_closes_but_for_rounding_is_sound() -> None:
    """A last point 3e-14 mm off the first is the first, not a crossing."""
    corners = [(0.1, 0.2), (130.95, 0.2), (130.95, 213.47), (0.1, 213.47), (0.1, 0.2 - 3e-14)]
    assert region(polyline(corners, closed=True)).area == pytest.approx(130.85 * 213.27)


@pytest.mark.parametrize(("deep", "sound"), [(SAMPLING / 2, True), (SAMPLING * 3, False)])
def test_only_a_loop_within_the_tolerance_is_passed_over(deep: float, sound: bool) -> None:
    """What is smaller than a sampled curve may be off is no crossing; anything larger is."""
    # a square whose foot is left and met again half-way, in a loop below it
    loop = [(0, 0), (6, 0), (4, -deep), (6, -deep), (4, 0), (10, 0), (10, 10), (0, 10)]
    path = polyline([(float(x), float(y)) for x, y in loop], closed=True)
    if sound:
        assert region(path).area == pytest.approx(100, abs=SAMPLING)
        return
    with pytest.raises(GeometryError, match="crosses itself"):
        region(path)


def test_a_spike_out_of_an_outline_is_refused() -> None:
    """A line that goes out and back is not passed over, although it encloses nothing."""
    spike = [(0.0, 0.0), (5.0, 0.0), (5.0, -40.0), (5.0, 0.0), (10.0, 0.0), (10.0, 10.0)]
    with pytest.raises(GeometryError, match="crosses itself"):
        region(polyline(spike, closed=True))


def test_contours_that_cross_themselves_hide_what_they_enclose() -> None:
    """A star of five lines hides its five points; two lines out and back hide nothing."""
    tips = [(math.sin(2 * k * math.tau / 5), math.cos(2 * k * math.tau / 5)) for k in range(5)]
    star = polyline(tips, closed=True)
    # a point is a triangle that stands on a side of the pentagon within
    side = 2 * math.sin(math.pi / 5) * math.cos(2 * math.pi / 5) / math.cos(math.pi / 5)
    assert shadow(star).area == pytest.approx(5 * side**2 / 4 * math.tan(math.radians(72)))
    crossed = [((0.0, 0.0), (9.0, 9.0)), ((0.0, 9.0), (9.0, 0.0))]
    assert shadow(polyline(crossed[0], closed=True) + polyline(crossed[1], closed=True)).is_empty


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
    assert got == pytest.approx(wanted, abs=5 * SAMPLING)
    inside = box.expanded(1e-6)
    assert all(inside.contains(Box.round(part)) for part, _ in sampled(clipped(path, box)))


def test_a_line_is_cut_by_the_areas_it_meets_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """What is left is as long as outside all areas, and far ones are not looked at again."""
    squares = [Box(x, y, x + 10.0, y + 10.0) for x in range(0, 400, 20) for y in range(0, 400, 20)]
    areas = [region(rectangle(box)) for box in squares]
    merged: list[int] = []
    cut = cutter(areas)
    union = shapely.union_all

    def counted(met: list[shapely.Polygon]) -> object:
        merged.append(len(met))
        return union(met)

    monkeypatch.setattr(shapely, "union_all", counted)
    left = cut(line((0.0, 5.0), (400.0, 5.0)))
    assert sum(shapely.LineString(part).length for part, _ in sampled(left)) == pytest.approx(200)
    assert merged == [20]
    clear = line((0.0, 15.0), (400.0, 15.0))
    assert cut(clear) is clear


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
    part = clipped_box(region(circle((0, 0), 50), 0.001), Box(-50, 40, 50, 60))
    assert part is not None
    assert part.width == pytest.approx(2 * math.sqrt(50**2 - 40**2), abs=0.05)
    assert clipped_box(region(circle((0, 0), 50)), Box(60, 60, 70, 70)) is None


def test_a_ring_that_goes_over_itself_fills_what_it_goes_round() -> None:
    """Twice round fills as once does; a loop that runs the other way fills nothing."""
    twice = polyline([(0, 0), (4, 0), (4, 4), (0, 4), (0, 0), (3, 0), (3, 3), (0, 3)], closed=True)
    assert filled(twice).area == pytest.approx(16)
    loop = polyline([(0, 0), (6, 0), (6, 6), (0, 6), (1, 6.5), (1, 5.5)], closed=True)
    assert isinstance(filled(loop), shapely.Polygon)


def test_a_hull_has_no_more_corners_than_can_be_seen() -> None:
    """Points nearer to its edge than curves are drawn make no corner; the others all do."""
    square = [(0.0, 0.0), (80.0, 0.0), (80.0, 50.0), (0.0, 50.0)]
    seen = hull([*square, (40.0, -SAMPLING / 2), (40.0, 20.0)])
    assert sorted({point for _, points in seen.commands for point in points}) == sorted(square)
    seen = hull([*square, (40.0, -2 * SAMPLING)])
    assert seen.bounds.y0 == -2 * SAMPLING
    with pytest.raises(GeometryError, match="no area"):
        hull([(0.0, 0.0), (1.0, 1.0)])
