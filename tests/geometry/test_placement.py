"""Points spread along the edges of areas."""

from __future__ import annotations

import itertools

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.geometry.areas.placement import Edges, FreeSpace
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line


def test_points_keep_to_the_open_part_of_an_edge() -> None:
    """Half a square is closed: the points lie evenly on the 100 mm of its edge that are open."""
    square = shapely.box(-25, -25, 25, 25)
    open_area = shapely.box(-25, 0, 25, 25)
    points = Edges(square, open_area).spread(5, 0.5)
    assert all(y >= 0 and max(abs(x), abs(y)) == pytest.approx(25) for x, y in points)
    # from the middle of the back: right half, then left half, of the open edge, joined or not
    edge = shapely.LineString([(-25, 0), (-25, 25), (25, 25), (25, 0)])
    places = sorted(shapely.line_locate_point(edge, shapely.Point(point)) for point in points)
    assert [b - a for a, b in itertools.pairwise(places)] == pytest.approx([20] * 4, abs=0.2)


def test_points_go_round_the_whole_of_an_open_edge() -> None:
    """Four points on a square of 50 mm, half a step from its back, lie at the corners."""
    square = shapely.box(-25, -25, 25, 25)
    points = Edges(square, square).spread(4, 0.5)
    assert {(round(abs(x), 6), round(abs(y), 6)) for x, y in points} == {(25.0, 25.0)}
    assert len(set(points)) == 4


SIDES = st.tuples(st.floats(5, 70), st.floats(5, 70))


@given(SIDES, st.lists(st.tuples(st.floats(0, 80), st.floats(0, 60)), max_size=4), st.floats(5, 95))
def test_a_free_place_is_inside_and_clear(
    size: tuple[float, float], corners: list[tuple[float, float]], x: float
) -> None:
    """A box at it lies in the area, on no box that is taken and on no line."""
    area = shapely.Polygon([(0, 0), (100, 0), (100, 80), (40, 80)])
    taken = [Box(left, low, left + 20, low + 20) for left, low in corners]
    place = FreeSpace(area, taken, [line((x, 0), (x, 80))]).place(*size)
    if place is None:
        # a free box with 3 mm to spare all round would have been found
        roomy = FreeSpace(area, taken, [line((x, 0), (x, 80))])
        assert roomy.place(size[0] + 6, size[1] + 6, step=1.0) is None
        return
    box = shapely.box(*place, place[0] + size[0], place[1] + size[1])
    assert area.buffer(1e-9).covers(box)
    assert not any(box.intersects(shapely.box(*each)) for each in taken)
    assert not box.intersects(shapely.LineString([(x, 0), (x, 80)]))


def test_a_box_larger_than_an_area_has_no_place() -> None:
    """Wider, or taller."""
    free = FreeSpace(shapely.box(0, 0, 50, 30), [], [])
    assert free.place(60, 10) is None
    assert free.place(10, 40) is None
    assert free.place(49, 29) is not None
