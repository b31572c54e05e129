"""What is seen through a hole, against a circle carried along its axis to a cylinder."""

from __future__ import annotations

import math

import pytest
import shapely

from templates_gen.drawing.colour_words import from_hex
from templates_gen.geometry.areas.booleans import region
from templates_gen.guides.decorated import build_stack
from templates_gen.views.coloured import front_colours
from templates_gen.views.colours import BEHIND
from templates_gen.views.elevation import elevation, views
from templates_gen.views.through import Through, through
from tests.cakes import one_tier

WIDE, HOLE = 127.0 + 4, 50.0
"""Radii of a covered 10 in dummy and of the hole in its side, mm."""


def holed(turn: int, more: str = "") -> str:
    """Return the text of a 10 in dummy with a hole turned by degrees."""
    return f"dummy = true\n{more}[tier.opening]\nradius = '5 cm'\nturn = {turn}\n"


def seen(lines: str) -> Through | None:
    """Return what is seen through the hole of a tier."""
    (view,) = views(build_stack(one_tier(lines, "10 in", "6 in")))
    return through(view)


def end(turn: int, way: int) -> shapely.Polygon:
    """Return an end of the hole as seen: its circle along its axis to where the cylinder ends."""
    angle = math.radians(turn)
    around = [math.tau * step / 720 for step in range(720)]
    return shapely.Polygon(
        [
            (
                HOLE * math.cos(t) * math.cos(angle)
                + way * math.sqrt(WIDE**2 - (HOLE * math.cos(t)) ** 2) * math.sin(angle),
                HOLE * math.sin(t),
            )
            for t in around
        ]
    )


@pytest.mark.parametrize("turn", [0, 8, -12, 17])
def test_as_much_is_seen_through_as_the_far_end_shows(turn: int) -> None:
    """What both ends have in common is seen right through; it is in the colour behind."""
    found = seen(holed(turn))
    assert found is not None
    assert found.seen_through is not None
    common = end(turn, 1).intersection(end(turn, -1)).area
    assert region(found.seen_through).area == pytest.approx(common, rel=0.01)
    stack = build_stack(one_tier(holed(turn), "10 in", "6 in"))
    (behind,) = [fill for fill in front_colours(stack) if fill.colour == from_hex(BEHIND)]
    assert region(behind.path).area == pytest.approx(common, rel=0.01)


def test_no_light_comes_through_a_hole_turned_far() -> None:
    """Where the ends lie beside each other nothing of the far one is drawn."""
    found = seen(holed(30))
    assert found is not None
    assert found.seen_through is None
    assert end(30, 1).intersection(end(30, -1)).area == 0.0
    assert seen(holed(75)) is None
    assert seen("") is None
    turned = build_stack(one_tier(holed(30), "10 in", "6 in"))
    assert all(stroke.path.commands for stroke in elevation(turned).strokes)


def test_a_tier_turned_round_shows_its_other_end() -> None:
    """From behind the far end is the near one, and as much is seen through."""
    front, back = seen(holed(10)), seen(holed(10, "position.turn = 180\n"))
    assert front is not None
    assert back is not None
    assert front.seen_through is not None
    assert back.seen_through is not None
    assert region(front.seen_through).area == pytest.approx(
        region(back.seen_through).area, rel=1e-3
    )
