"""The picture with its sizes."""

from __future__ import annotations

import pytest

from templates_gen.plan import make_plan
from templates_gen.views.picture import picture
from tests.cakes import one_tier


@pytest.mark.parametrize("room", [70, 80, 95, 120])
def test_the_height_of_a_low_cake_is_whole(room: float) -> None:
    """Where there is no room for all of it less is said, down to the mm; no word is cut off."""
    plan = make_plan(one_tier("", "8 in", "127 mm"))
    found = [label.text for label in picture(plan, 182, room).drawing.labels if label.turn == 90]
    assert found
    assert all(word.endswith((" tall", " in", " mm", " mm)")) for word in found)
