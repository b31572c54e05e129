"""The 2 h / 4 h rule: what a perishable filling is out of the fridge, added up over the plan."""

from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from templates_gen.bench.bench_list import bench
from templates_gen.bench.perishable import out_of_the_fridge
from templates_gen.bench.schedule import order_of_work
from templates_gen.bench.steps import steps
from templates_gen.cakefile.work import Work
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier

READY = datetime(2027, 6, 19, 14)
CREAM = "name = 'one'\n[tier.inside]\nfilling = 'fresh cream'\n"


def out(lines: str, **given: int) -> timedelta:
    """Return how long the filling of one tier is out of the fridge."""
    work = Work.model_validate({"ready": READY, **given})
    plan = make_plan(one_tier(lines).model_copy(update={"work": work}))
    return out_of_the_fridge(plan.stack.tiers[0], order_of_work(steps(plan), work), work)


def test_work_is_added_up() -> None:
    """Fill 40, crumb coat 25, coat 50, cover 60, set on the drum 15, finish 35, set up 30 min."""
    assert out(CREAM) == timedelta(minutes=40 + 25 + 50 + 60 + 15 + 35 + 30)
    assert out(CREAM, travel=60) == timedelta(minutes=255 + 20 + 60)
    assert out(CREAM.replace("fresh cream", "jam")) == timedelta()


def test_icing_that_cannot_be_chilled_counts_until_the_cake_is_ready() -> None:
    """From the first drip on the tier stays out: a chilled tier sweats on royal icing."""
    assert out(CREAM + "[tier.drips]\n[tier.paint]\n") > timedelta(hours=24)


@pytest.mark.parametrize(
    ("lines", "is_chilled"),
    [
        ("[tier.drips]\n", True),
        ("[tier.drips]\n[tier.paint]\n", False),
        ("[[tier.lettering]]\ntext = 'Ada'\n", False),
        ("cover = 'none'\n[[tier.lettering]]\ntext = 'Ada'\n", True),
        ("[[tier.lettering]]\ntext = 'Ada'\ncut = true\n", False),
        ("cover = 'none'\n[[tier.lettering]]\ntext = 'Ada'\n[tier.paint]\non = 'side'\n", False),
    ],
)
def test_ganache_and_buttercream_go_back_to_the_fridge(lines: str, is_chilled: bool) -> None:
    """Royal icing and paint do not: a chilled tier sweats. Common practice, no source."""
    head, *rest = lines.split("[", 1)
    tier = f"{head}{CREAM}{''.join(f'[{each}' for each in rest)}"
    assert (out(tier) < timedelta(hours=8)) == is_chilled
    two = (
        f"[[tier]]\nsize = '8 in'\ndepth = '4 in'\n{tier}[[tier]]\nsize = '4 in'\ndepth = '3 in'\n"
    )
    found = steps(make_plan(cake(two)))
    (last,) = (step for step in found if step.key == "one: prepare")
    assert ("chill until firm" in last.words) == is_chilled


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("cover = 'none'\n" + CREAM, "past 2 h it must not go back"),
        (CREAM + "[tier.drips]\n[tier.paint]\n", "over 4 h it must be thrown away"),
        (CREAM.replace("fresh cream", "buttercream"), None),
    ],
    ids=["two hours", "four hours", "keeps"],
)
def test_warned_of_by_the_published_rule(lines: str, says: str | None) -> None:
    """FSANZ (reprinted): under 2 h back to the fridge, 2 to 4 h use, over 4 h discard."""
    found = bench(make_plan(one_tier(lines)))["time_warnings"]
    said = [text for text in found if "FSANZ" in text]
    assert len(said) == (says is not None)
    if says is not None:
        assert says in said[0]
        assert said[0].startswith("one: its fresh cream")


def test_under_two_hours_nothing_is_said() -> None:
    """A dummy has no filling; a bare tier that is only filled and set up stays under 2 h."""
    bare = "cover = 'none'\ncoating = '0 mm'\n" + CREAM
    assert out(bare, setup=10) < timedelta(hours=2)
    assert out("dummy = true\n") == timedelta()
