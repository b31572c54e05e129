"""Every estimate can be changed in the cake file, and changes what it says it does."""

from __future__ import annotations

import pytest

from templates_gen.bench.bench_list import bench
from templates_gen.bench.steps import steps
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.waits import OF_STAGE, Waits
from templates_gen.plan import make_plan
from tests.cakes import cake

CAKE = """through_dowel = true
[drum]
fondant = '3 mm'
[[topper]]
height = '8 cm'
[[tier]]
name = 'low'
size = '10 in'
depth = '4 in'
[tier.drips]
[tier.paint]
on = 'drips'
[[tier.design]]
kind = 'swags'
top = '70 mm'
[[tier]]
name = 'high'
size = '6 in'
depth = '4 in'
dummy = true
[[tier.lettering]]
text = 'A'
cut = true
[[tier]]
size = '4 in'
depth = '3 in'
"""
OTHER = {
    "cake": "0.9", "dummy": "0.1", "coating": "0.8", "board": "0.2", "fondant": "1.2",
    "drip_icing": "1.1", "dust": "0.9", "waste": "40.0", "pack": "250", "tin": "'50 mm'",
    "level": "'2 mm'", "tins_at_once": "1", "drip": "'9 mm'", "piped_line": "'5 mm'",
    "film": "'0.2 mm'", "gum": "100.0", "batch": "500.0", "pace": "200.0", "box_room": "'40 mm'",
    "box_headroom": "'80 mm'", "one_drapes": "150.0", "waits": "{ drips = 9.0 }",
}  # fmt: skip
"""Another value for each estimate."""


def test_every_estimate_changes_the_list() -> None:
    """None is without effect: with another value something else in the list changes too."""
    assert OTHER.keys() == Estimates.model_fields.keys()
    usual = bench(make_plan(cake(CAKE)))
    for name, value in OTHER.items():
        found = bench(make_plan(cake(f"{CAKE}[estimates]\n{name} = {value}\n")))
        changed = {key for key in found if found[key] != usual[key]}
        assert changed - {"estimates"}, name
        assert "estimates" in changed, name


@pytest.mark.parametrize("stage", OF_STAGE)
def test_every_wait_can_be_changed(stage: str) -> None:
    """Where a stage waits, it waits as long as the cake file says; each wait has a stage."""
    assert set(OF_STAGE.values()) == set(Waits.model_fields)
    text = f"{CAKE}[estimates.waits]\n{OF_STAGE[stage]} = 7.25\n"
    found = [step for step in steps(make_plan(cake(text))) if step.stage == stage]
    assert all(step.wait in (0.0, 7.25) for step in found)
    if stage in ("bake", "cover", "drips", "design", "letters", "topper", "cover the drum"):
        assert any(step.wait == 7.25 for step in found)


def test_the_pace_of_work() -> None:
    """Twice as slow is twice the hours, but for the road: minutes of work are our estimate."""
    plain = CAKE + "[work]\ntravel = 60\n"
    slow = plain + "[estimates]\npace = 200.0\n"
    usual, found = (bench(make_plan(cake(text)))["hours_of_work"] for text in (plain, slow))
    assert found - 1 == pytest.approx(2 * (usual - 1))
