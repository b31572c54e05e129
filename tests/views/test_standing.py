"""Toppers and flowers on the drawn picture: what stands on the cake is seen, and nothing else."""

from __future__ import annotations

import math

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from templates_gen.drawing.drawing import Drawing
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import build_stack
from templates_gen.pieces.topper import outlines
from templates_gen.views.picture import both_views
from templates_gen.views.standing import standing_seen
from tests.cakes import one_tier

STAR = "[[topper]]\nshape = 'star'\nheight = '60 mm'\nstick = '{}'\n"
TEXT = "[[topper]]\ntext = '50'\nheight = '90 mm'\nstick = 'tab'\n"
FLOWER = "[[flower]]\nkind = 'anemone'\nwidth = '60 mm'\ncount = 2\n"


def seen(more: str) -> Drawing:
    """Return what is drawn of what stands on a tier 4 in deep."""
    return standing_seen(build_stack(one_tier(more)))


def areas(paths: list[Path]) -> list[BaseGeometry]:
    """Return areas by shapely alone, holes open."""
    found = []
    for path in paths:
        area: BaseGeometry = shapely.Polygon()
        for points, _ in sampled(path, 0.05):
            area = area.symmetric_difference(shapely.Polygon(points).buffer(0))
        found.append(area)
    return found


def test_a_topper_on_a_stick_is_drawn_as_it_is_cut() -> None:
    """As large as its template, over its stick; the stick goes down to the top and no farther."""
    stack = build_stack(one_tier(STAR.format("line")))
    drawing = standing_seen(stack)
    (area,) = areas([fill.path for fill in drawing.fills])
    (cut,) = areas(list(outlines(stack.toppers[0])))
    assert area.area == pytest.approx(cut.area, rel=2e-3)
    top = stack.feet[-1] + stack.tiers[-1].covered.depth
    lowest = min(stroke.path.bounds.y0 for stroke in drawing.strokes)
    assert lowest == pytest.approx(top)


def test_a_tab_is_not_seen_in_the_cake() -> None:
    """What stands in the cake is hidden by it."""
    stack = build_stack(one_tier(STAR.format("tab")))
    top = stack.feet[-1] + stack.tiers[-1].covered.depth
    assert min(fill.path.bounds.y0 for fill in standing_seen(stack).fills) == pytest.approx(top)


def test_the_nearer_hides_what_is_behind() -> None:
    """No line runs through what stands before it, and the farther is painted first."""
    drawing = seen(TEXT + STAR.format("tab"))
    *_, star = areas([fill.path for fill in drawing.fills])
    lines = [
        shapely.LineString(points)
        for stroke in drawing.strokes
        for points, _ in sampled(stroke.path)
    ]
    inside = star.buffer(-0.5)
    assert max(line.intersection(inside).length for line in lines) < 1e-6
    assert len(drawing.fills) > 1


def test_flowers_and_toppers_are_on_the_picture_and_make_it_taller() -> None:
    """The front view has their colours above the tier; without them it ends at the tier."""
    plain = both_views(build_stack(one_tier()), 100.0)
    stack = build_stack(one_tier(FLOWER))
    decked = both_views(stack, 100.0)
    assert decked.front_box.y1 == pytest.approx(plain.front_box.y1 + 60, abs=25)
    colours = {fill.colour for fill in decked.front.fills}
    assert {fill.colour for fill in standing_seen(stack).fills} <= colours
    assert not seen("").strokes


@pytest.mark.parametrize("turn", [0, 60, 90, 180, 270])
def test_a_tier_that_is_turned_turns_what_stands_on_it(turn: int) -> None:
    """Seen from the side a flat thing is an edge, of which nothing is drawn."""
    star = STAR.format("tab")
    found = areas([fill.path for fill in seen(f"position.turn = {turn}\n{star}").fills])
    (whole,) = areas([fill.path for fill in seen(star).fills])
    share = abs(math.cos(math.radians(turn)))
    assert sum(each.area for each in found) == pytest.approx(share * whole.area, abs=1.0)
