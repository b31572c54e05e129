"""Repeats: evenly round, nearest to what was asked, with the front as asked."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from templates_gen.geometry.box import nearest_count
from templates_gen.guides.repeats import repeat

GIRTHS = st.floats(50, 5000)


@given(GIRTHS, st.floats(3, 400), st.integers(1, 4))
# between one and two, and two and three, the nearest count and the nearest pitch part ways
@example(145.0, 100.0, 1)
@example(245.0, 100.0, 1)
@example(290.0, 100.0, 2)
def test_no_other_count_comes_nearer(girth: float, wanted: float, multiple: int) -> None:
    """Of all counts that close the pattern, none has a pitch nearer to the one asked for."""
    count = nearest_count(girth, wanted, multiple)
    assert count % multiple == 0
    best = min(abs(girth / n - wanted) for n in range(multiple, 2 * count + 2 * multiple, multiple))
    assert abs(girth / count - wanted) == pytest.approx(best, abs=1e-9)


@given(GIRTHS, st.integers(1, 300), st.booleans())
def test_places_are_one_pitch_apart_all_the_way_round(
    girth: float, count: int, at_front: bool
) -> None:
    """N steps come back to the join, and the front is a place or the middle between two."""
    row = repeat(count, girth, at_front=at_front)
    places = row.places
    assert len(places) == count
    gaps = [b - a for a, b in pairwise((*places, places[0] + girth))]
    assert gaps == pytest.approx([girth / count] * count)
    nearest = min(abs(place - girth / 2) for place in (*places, places[0] + girth))
    assert nearest == pytest.approx(0 if at_front else row.pitch / 2, abs=1e-6)
    assert all(0 <= place < girth for place in places)
