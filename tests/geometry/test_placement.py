"""Points spread along the edges of areas."""

from __future__ import annotations

import itertools

import pytest
import shapely

from templates_gen.geometry.areas.placement import Edges


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
