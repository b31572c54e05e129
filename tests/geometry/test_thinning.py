"""Lines with fewer points stay where they were."""

from __future__ import annotations

import math

import shapely
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.lines import sampled_lines
from templates_gen.geometry.areas.thinning import thinned
from templates_gen.geometry.path import polyline


@given(st.integers(3, 400), st.floats(0.001, 0.5), st.booleans())
def test_a_thinned_line_stays_within_the_tolerance(count: int, by: float, closed: bool) -> None:
    """Open or closed, it keeps its ends, and no point of either is farther from the other."""
    points = [
        (place, math.sin(place) + 0.1 * math.sin(9 * place))
        for place in (10 * step / count for step in range(count))
    ]
    whole = polyline(points, closed=closed)
    few = thinned(whole, by)
    assert len(few.commands) <= len(whole.commands)
    assert few.commands[0] == whole.commands[0]
    assert few.commands[-1] == whole.commands[-1]
    apart = shapely.hausdorff_distance(sampled_lines(whole), sampled_lines(few), densify=0.2)
    assert apart <= by + 1e-9


def test_curves_and_specks_are_left_alone() -> None:
    """A circle has few points as it is; a triangle smaller than the tolerance stays one."""
    speck = polyline(((0, 0), (0.01, 0), (0, 0.01)), closed=True)
    assert thinned(circle((0, 0), 5), 0.1) == circle((0, 0), 5)
    assert thinned(speck, 0.1) == speck
