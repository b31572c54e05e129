"""Where a box has room: what is found is free, as shapely sees it, and the nearest is found."""

from __future__ import annotations

import math

import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.free_boxes import CELL, FreeBoxes
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle

EDGE = Box(0.0, 0.0, 180.0, 120.0)
PLACES = st.tuples(st.floats(5.0, 175.0), st.floats(5.0, 115.0))
SIZES = st.tuples(st.floats(2.0, 90.0), st.floats(2.0, 60.0))


def on_rectangle(*lines: tuple[tuple[float, float], tuple[float, float]]) -> FreeBoxes:
    """Return what some lines, and its edge, leave of a rectangle."""
    edge = rectangle(EDGE)
    drawn = [edge, *(line(*each) for each in lines)]
    return FreeBoxes.between(drawn, region(edge))


@given(st.lists(st.tuples(PLACES, PLACES), max_size=4), st.lists(PLACES, max_size=3), SIZES, PLACES)
def test_a_box_found_is_free(
    lines: list[tuple[tuple[float, float], tuple[float, float]]],
    corners: list[tuple[float, float]],
    size: tuple[float, float],
    to: tuple[float, float],
) -> None:
    """It has its size, lies on the area, and no line or other box comes into it."""
    others = [Box(x, y, x + 15.0, y + 4.0) for x, y in corners]
    found = on_rectangle(*lines).without(others).nearest(*size, to, EDGE)
    if found is None:
        return
    assert math.isclose(found.width, size[0])
    assert math.isclose(found.height, size[1])
    assert EDGE.contains(found)
    # found in cells: a line may reach in by a quarter of one
    inner = shapely.box(*found.expanded(-CELL / 4)) if min(size) > CELL else shapely.Point()
    assert not any(shapely.LineString(each).intersects(inner) for each in lines)
    assert not any(shapely.box(*other).intersects(inner) for other in others)


@given(SIZES, PLACES)
def test_room_that_there_is_is_found(size: tuple[float, float], to: tuple[float, float]) -> None:
    """On an empty area no place that keeps two cells off its edge is nearer than the one found."""
    found = on_rectangle().nearest(*size, to, EDGE)
    assert found is not None
    inner = EDGE.expanded(-2 * CELL)
    x = min(max(to[0], inner.x0 + size[0] / 2), inner.x1 - size[0] / 2)
    y = min(max(to[1], inner.y0 + size[1] / 2), inner.y1 - size[1] / 2)
    assert math.dist(found.centre, to) <= math.dist((x, y), to) + CELL


def test_a_box_too_large_has_no_room() -> None:
    """Neither beside a line that halves the area, nor within a smaller box, nor off the area."""
    halved = on_rectangle(((90.0, 0.0), (90.0, 120.0)))
    assert halved.nearest(80.0, 60.0, (90.0, 60.0), EDGE)
    assert halved.nearest(91.0, 60.0, (90.0, 60.0), EDGE) is None
    assert on_rectangle().nearest(91.0, 60.0, (90.0, 60.0), EDGE)
    assert on_rectangle().nearest(91.0, 60.0, (90.0, 60.0), Box(0.0, 0.0, 90.0, 120.0)) is None


def test_the_corners_beside_a_round_area_are_not_free() -> None:
    """No line runs there, but they are not on the area."""
    edge = circle((50.0, 50.0), 50.0)
    free = FreeBoxes.between([edge], region(edge))
    found = free.nearest(6.0, 6.0, (0.0, 0.0), Box(*edge.bounds))
    assert found is not None
    assert math.hypot(found.x0 - 50.0, found.y0 - 50.0) <= 50.0
    assert free.nearest(90.0, 90.0, (50.0, 50.0), Box(*edge.bounds)) is None
