"""Every estimate can be changed in the cake file, and changes what it says it does."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta
from functools import cache
from typing import Any

import pytest
import vobject

from templates_gen.bench.bench_list import bench
from templates_gen.bench.calendar import calendar
from templates_gen.bench.report import sections
from templates_gen.bench.section import ASSUMPTIONS
from templates_gen.bench.step import IN_OVEN
from templates_gen.bench.steps import steps
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.cakefile.keeps import OF_CAKE, Keeps
from templates_gen.cakefile.minutes import Minutes
from templates_gen.cakefile.waits import OF_STAGE, Waits
from templates_gen.cakefile.work import Work
from templates_gen.plan import Plan, make_plan
from tests.cakes import cake

TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
READY = "ready = 2027-06-19 14:00:00\n"
WEDDING = """through_dowel = true
[drum]
fondant = '3 mm'
ribbon = '15 mm'
[[topper]]
height = '8 cm'
[[flower]]
[[cascade]]
[[tier]]
name = 'low'
size = '10 in'
depth = '4 in'
[tier.drips]
[tier.run_out]
[tier.paint]
on = 'drips'
[[tier.design]]
kind = 'swags'
top = '70 mm'
[[tier]]
name = 'heart'
shape = 'heart'
size = '7 in'
depth = '4 in'
cover = 'panelled'
[tier.panels]
height = '20 mm'
[[tier.lettering]]
text = 'A'
cut = true
[[tier]]
name = 'dummy'
size = '4 in'
depth = '4 in'
dummy = true
[tier.drips]
longest = '20 mm'
[[tier.design]]
kind = 'ruffles'
paper = 'strip'
[[tier.scatter]]
count = 4
[[tier.lettering]]
text = 'Joe'
[[tier]]
name = 'bare'
size = '2 in'
depth = '2 in'
dummy = true
cover = 'none'
coating = '0 mm'
"""
TALL = """[[tier]]
name = 'deep'
size = '9 in'
depth = '8 in'
[tier.inside]
inner_boards = 1
[tier.panels]
mould = '30 mm'
height = '20 mm'
[[tier]]
name = 'carved'
size = '8 in'
depth = '7 in'
top_size = '6 in'
raised = '3 in'
[tier.carving]
[[tier]]
name = 'combed'
size = '4 in'
top_size = '3 in'
depth = '5 in'
cover = 'none'
[tier.comb]
[tier.inside]
layers = 1
[[tier]]
name = 'fruit'
size = '2 in'
depth = '2 in'
[tier.inside]
cake = 'fruit cake'
[[tier.design]]
kind = 'shells'
form = 'both'
"""
OTHER: dict[str, str] = {
    "cake": "0.9", "dummy": "0.1", "coating": "0.8", "board": "0.2", "fondant": "1.2",
    "drip_icing": "1.1", "dust": "0.9", "waste": "40.0", "pack": "250", "tin": "'50 mm'",
    "level": "'2 mm'", "tins_at_once": "1", "shelf_width": "'35 cm'",
    "shelf_depth": "'20 cm'", "drip": "'9 mm'", "piped_line": "'5 mm'",
    "film": "'0.2 mm'", "gum": "100.0", "batch": "500.0", "pace": "200.0", "box_room": "'40 mm'",
    "box_headroom": "'80 mm'", "one_drapes": "150.0", "one_lifts": "2.0", "reach": "'500 mm'",
    "batter": "0.6", "rise": "1.2", "filling": "1.3", "grows": "90.0",
    "layer": "'20 mm'", "deepest": "'70 mm'",
    "inner_gap": "'9 mm'", "drapes": "30.0", "panelled": "'7 mm'", "cut_gap": "'9 mm'",
    "rough": "5.0", "dust_share": "20.0", "ribbon_overlap": "'40 mm'", "below_top": "'5 mm'",
    "into_drum": "20.0", "wood": "5000.0", "portions_used": "50.0",
}  # fmt: skip
"""Another value for each estimate; tables within them have tests of their own."""
TABLES = {"waits", "minutes", "keeps"}


PLANS = (WEDDING, TALL)


@cache
def plan_of(text: str) -> Plan:
    """Return the plan of a cake that is ready on a day, after a journey."""
    return make_plan(cake(f"{text}[work]\n{READY}travel = 30\n"))


def estimated(text: str, more: str) -> Plan:
    """Return the plan of a cake with other estimates, and its pieces as they were."""
    plan = plan_of(text)
    estimates = cake(f"{TIER}[estimates]\n{more}\n").estimates
    return replace(plan, stack=replace(plan.stack, estimates=estimates))


@cache
def usual(text: str) -> dict[str, Any]:
    """Return the bench list of a cake as it is."""
    return bench(plan_of(text))


def others(text: str, found: dict[str, Any]) -> set[str]:
    """Return what of the bench list of a cake is not as usual, if not estimates alone."""
    other = {key for key in found if found[key] != usual(text)[key]}
    return other if other - {"estimates"} else set()


def test_every_estimate_is_tried() -> None:
    """What is new among the estimates has to be tried here."""
    assert OTHER.keys() | TABLES == Estimates.model_fields.keys()


NO_USUAL_VALUE = ("pack", "batter", "rise", "filling", "tins_at_once")


def assumptions(found: dict[str, Any]) -> str:
    """Return the assumptions of a bench list, as they are read."""
    (part,) = (each for each in sections(found) if each.title == ASSUMPTIONS)
    return " ".join(f" {cell}" for row in part.rows for cell in row)


@cache
def usually_assumed(text: str) -> str:
    """Return the assumptions of a cake as it is."""
    return assumptions(usual(text))


@pytest.mark.parametrize("name", OTHER)
def test_every_estimate_changes_the_list_and_is_said_where_it_does(name: str) -> None:
    """None is without effect; what changes anything in the list of a cake it depends on."""
    changed = set()
    for text in (*PLANS, TIER):
        found = bench(estimated(text, f"{name} = {OTHER[name]}"))
        if other := others(text, found):
            changed.add(text)
            assert "estimates" in other
            if name not in NO_USUAL_VALUE:
                assert f" ({name})" in usually_assumed(text)
            assert f" ({name})" in assumptions(found)
    assert changed & {*PLANS}


def test_nothing_else_is_assumed() -> None:
    """Of a cake with neither paint, drips, drum nor dummy nothing is said of these."""
    said = usually_assumed(TIER)
    others = [*("dummy", "drip", "drip_icing", "piped_line", "film", "dust", "gum", "inner_gap")]
    others += ["ribbon_overlap", "wood", "into_drum", "waits.paint", "waits.drips", "waits.topper"]
    assert not [name for name in others if f" ({name})" in said]
    assert " a coating chills: 3 h (waits.coating)" in said
    # what was given is said, to show that it was read
    assert " thickness of a coat of paint: 0.2 mm (film)" in assumptions(
        bench(estimated(TIER, "film = '0.2 mm'"))
    )


def test_every_estimate_is_said_in_words() -> None:
    """Nothing is called by its key alone, not even where a table of a cake file changes it."""
    tables = "waits.paint = 3.0\nminutes.cover = 70.0\nkeeps.jam = 3.0"
    said = assumptions(bench(estimated(TIER, tables)))
    for words in (
        "paint dries: 3 h (waits.paint)",
        "cover a tier with fondant: 70 min (minutes.cover)",
        "kept, a cake filled with jam: 3 days (keeps.jam)",
    ):
        assert words in said
    assert not re.search(r"[a-z][._][a-z]", re.sub(r"\([a-z_.]+\)", "", said))


def test_the_shelf_is_assumed_only_where_it_is_counted_on() -> None:
    """Who says how many tins bake at once is not told of an oven shelf."""
    assert " oven shelf width: 450 mm (17 11/16 in) (shelf_width)" in assumptions(usual(TIER))
    said = assumptions(bench(estimated(TIER, "tins_at_once = 2")))
    assert " tins that bake at once: 2 (tins_at_once)" in said
    assert "shelf" not in said


def test_the_work_comes_first() -> None:
    """What to cut, to weigh and to bake, dowels and steps; what is assumed is said at the end."""
    parts = sections(usual(WEDDING))
    order = ["To cut", "Garlands and cascades", "To weigh and mix (estimates)", "To bake and fill"]
    order += ["Dowels", "Order of work", "To carry", "To buy", "Portions", ASSUMPTIONS]
    assert [part.title for part in parts] == order
    apart = {"Order of work", "To buy", "Portions"}
    assert [part.title for part in parts if part.assumptions and part.title not in apart] == []
    formulas = usual(WEDDING)["formulas"].values()
    said = " ".join(parts[-1].notes).lower()
    assert all(said.count(each.lower()) == 1 for each in formulas)


@pytest.mark.parametrize("name", sorted(set(Minutes.model_fields) - {"clean", "oven"}))
def test_every_minute_changes_the_hours_of_work(name: str) -> None:
    """Each kind of work takes as long as the cake file says."""
    lists = ((text, bench(estimated(text, f"minutes.{name} = 55.0"))) for text in PLANS)
    changed = next(filter(None, (others(text, found) for text, found in lists)))
    assert changed >= {"hours_of_work", "times"}


def test_the_minutes_of_a_dummy_that_is_only_smoothed() -> None:
    """55 minutes instead of 10."""
    bare = f"{TIER.replace('8', '6')}dummy = true\ncover = 'none'\ncoating = '0 mm'\n"
    takes = [
        next(step.minutes for step in steps(estimated(bare, more)) if step.name == "clean")
        for more in ("", "minutes.clean = 55.0")
    ]
    assert takes == [10, 55]


@pytest.mark.parametrize("name", Keeps.model_fields)
def test_everything_keeps_as_long_as_the_cake_file_says(name: str) -> None:
    """A step says how long before the cake is ready it would be too early."""
    kind = next((kind for kind, each in OF_CAKE.items() if each == name), None)
    filling = name.replace("_", " ")
    text = WEDDING
    if kind is not None:
        text = f"{TIER}[tier.inside]\ncake = '{kind}'\n"
    elif filling in FILLINGS:
        text = f"{TIER}[tier.inside]\nfilling = '{filling}'\n"
    found = steps(estimated(text, f"keeps.{name} = 7.25"))
    assert any(step.keeps == 7.25 * 24 for step in found), name


WORK = {
    "ready": "2027-07-19 14:00:00", "spare_days": "2", "travel": "45", "setup": "90",
    "round_to": "5", "day_starts": "10", "day_ends": "16", "meal_at": "11", "meal": "90",
    "stretch": "30", "together": "0",
}  # fmt: skip
"""Another value for each key of [work] that times depend on."""


@pytest.mark.parametrize("name", WORK)
def test_every_key_of_work_changes_the_plan(name: str) -> None:
    """Another value and some step is at another hour, or there is another step."""
    assert WORK.keys() | {"alarm"} == Work.model_fields.keys()
    plan = plan_of(WEDDING)
    work = cake(f"{TIER}[work]\n{name} = {WORK[name]}\n").work
    own = plan.work.model_copy(update={name: getattr(work, name)})
    assert bench(replace(plan, work=own))["times"] != usual(WEDDING)["times"]


def test_the_calendar_rings_as_long_before_as_wanted() -> None:
    """Alarms are as many minutes before each step as [work] alarm says."""
    plan = plan_of(WEDDING)
    alarm = cake(f"{TIER}[work]\nalarm = 40\n").work.alarm
    work = plan.work.model_copy(update={"alarm": alarm})
    read = vobject.readOne(calendar(replace(plan, work=work)).decode())
    for event in read.contents["vevent"]:
        (rings,) = event.valarm_list
        assert rings.trigger.value == timedelta(minutes=-40)


@pytest.mark.parametrize("stage", OF_STAGE)
def test_every_wait_can_be_changed(stage: str) -> None:
    """Where a stage waits, it waits as long as the cake file says; each wait has a stage."""
    assert set(OF_STAGE.values()) == set(Waits.model_fields)
    more = f"waits.{OF_STAGE[stage]} = 7.25\nminutes.oven = 0.0"
    found = [step for text in PLANS for step in steps(estimated(text, more)) if step.stage == stage]
    assert all(step.wait in (0.0, 7.25) for step in found)
    assert any(step.wait == 7.25 for step in found)


def test_the_pace_of_work() -> None:
    """Twice as slow is twice the hours, but for what the cake file gives as minutes of that day."""
    slow = bench(estimated(WEDDING, "pace = 200.0"))["hours_of_work"]
    assert slow - 1 == pytest.approx(2 * (usual(WEDDING)["hours_of_work"] - 1))


@pytest.mark.parametrize("kind", ["butter cake", "fruit cake"])
def test_nothing_waits_longer_for_who_is_slow(kind: str) -> None:
    """Ovens, fridges and drying take as long whoever works; only the work itself has a pace."""
    own = f"{TIER}[tier.inside]\ncake = '{kind}'\n"
    usually, slow = (steps(estimated(own, f"grows = 0.0\npace = {n}.0")) for n in (100, 200))
    both = [(one, two) for one, two in zip(usually, slow, strict=True) if one.stage in IN_OVEN]
    assert both
    assert all(two.minutes == 2 * one.minutes for one, two in both)
    assert [step.wait for step in slow] == [step.wait for step in usually]
    assert all(one.oven == two.oven > 0 for one, two in both)


def test_time_in_the_oven_is_no_work() -> None:
    """It is waited for, and lasts as long as the cake file says."""
    tier = "[[tier]]\nsize = '6 in'\ndepth = '3 in'\ninside.layers = 1\n"
    given = "level = '0 mm'\nminutes.oven = "
    short, long = (bench(estimated(tier, f"{given}{n}.0")) for n in (30, 90))
    assert short["hours_of_work"] == long["hours_of_work"]
    waits = [next(each["wait_h"] for each in of["times"]) for of in (short, long)]
    assert waits[1] - waits[0] == pytest.approx(1)
    assert "about 1 h 30 min in the oven" in long["times"][0]["what"]


def test_the_list_says_what_was_changed() -> None:
    """A value from the cake file is among the assumptions, and says so; others say whose it is."""
    found = {
        each["name"]: (each["value"], each["unit"], each["source"])
        for each in bench(estimated(TIER, "minutes.cover = 70.0\nkeeps.jam = 3.0"))["estimates"]
    }
    assert found["minutes.cover"] == (70, "min", "as you gave it")
    assert found["minutes.coat"] == (40, "min", "our estimate")
    assert found["keeps.jam"] == (3, "days", "as you gave it")
    assert found["keeps.ganache"] == (5, "days", "common practice")
    assert found["cut_gap"] == (4, "mm", "common practice")
    assert found["one_lifts"] == (16, "kg", "our estimate")
