"""The order of work: every wait is kept, nothing is done at night or twice at a time."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path

import pytest
import vobject
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.bench.bakes import oven
from templates_gen.bench.bench_list import bench
from templates_gen.bench.calendar import calendar
from templates_gen.bench.report import sections
from templates_gen.bench.schedule import Timed, order_of_work, schedule_warnings
from templates_gen.bench.section import TIMES
from templates_gen.bench.step import Step
from templates_gen.bench.steps import USED, hours_of_work, steps
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.minutes import Minutes
from templates_gen.cakefile.work import Work
from templates_gen.guides.panels import panel_rows
from templates_gen.handout.contents import handout
from templates_gen.pieces.table import KINDS
from templates_gen.plan import Plan, make_plan
from templates_gen.units import MM_PER_INCH
from tests.cakes import cake, one_tier, sample, sample_plan
from tests.strategies import any_plans

READY = datetime(2027, 6, 19, 14)
DAYS = st.datetimes(datetime(2025, 1, 1), datetime(2035, 1, 1))
WORKS = st.builds(
    lambda ready, opens, hours, more: Work(
        ready=ready, day_starts=opens, day_ends=opens + hours, **more
    ),
    DAYS,
    st.integers(0, 12),
    st.integers(3, 12),
    st.fixed_dictionaries(
        {
            "spare_days": st.integers(0, 3),
            "travel": st.sampled_from((0, 45, 300)),
            "setup": st.integers(0, 120),
            "round_to": st.sampled_from((5, 15)),
            "meal_at": st.integers(10, 15),
            "meal": st.sampled_from((0, 30, 90)),
        }
    ),
)
TWO = (
    "[[tier]]\nname='a'\nsize='8 in'\ndepth='4 in'\n[[tier]]\nname='b'\nsize='6 in'\ndepth='4 in'\n"
)


def of(made: Cake) -> tuple[Step, ...]:
    """Return the steps of a cake."""
    return steps(make_plan(made))


def times(made: Cake, **given: object) -> tuple[Timed, ...]:
    """Return the order of work of a cake that must be ready at an hour."""
    work = Work.model_validate({"ready": READY, **given})
    return order_of_work(of(made.model_copy(update={"work": work})), work)


def hours(each: Timed) -> tuple[datetime, datetime]:
    """Return start and end of a step that has them."""
    assert each.start is not None
    assert each.end is not None
    return each.start, each.end


@settings(max_examples=40, deadline=None)
@given(any_plans(), WORKS)
def test_every_step_has_its_hour(plan: Plan, work: Work) -> None:
    """After all waits, before its deadline, in hours of work, and one at a time."""
    found = order_of_work(steps(replace(plan, work=work)), work)
    by_key = {each.step.key: each for each in found}
    assert work.ready is not None
    finished = work.ready.date() - timedelta(days=work.spare_days)
    for each in found:
        start, end = hours(each)
        step = each.step
        assert each.latest is not None
        assert start <= each.latest
        assert start.minute % work.round_to == 0
        assert end <= work.ready
        if step.place == "kitchen":
            midnight = start.replace(hour=0, minute=0)
            assert midnight + timedelta(hours=work.day_starts) <= start
            assert end <= midnight + timedelta(hours=work.day_ends)
            assert start.date() <= finished
            if work.meal_hours is not None and step.minutes <= work.stretch:
                starts, ends = (midnight + timedelta(hours=hour) for hour in work.meal_hours)
                assert end <= starts or ends <= start
        for key in step.after:
            wait = timedelta(hours=by_key[key].step.wait)
            assert hours(by_key[key])[1] + wait <= start
        for key in step.follows:
            assert hours(by_key[key])[1] <= start
    for one, other in pairwise(found):
        assert hours(one)[1] <= hours(other)[0]
    for (_, out), (into, _) in pairwise(in_oven(found, work)):
        assert out <= into


def in_oven(found: Sequence[Timed], work: Work) -> list[tuple[datetime, datetime]]:
    """Return when something is in the oven, after the work on it, while the day lasts."""
    most = timedelta(hours=work.day_ends - work.day_starts)
    spans = []
    for each in found:
        start, end = hours(each)
        if each.step.stage in ("bake", "bake slowly"):
            spans.append((end, start + min(most, end - start + timedelta(hours=each.step.oven))))
    return spans


@pytest.mark.parametrize("cakes", [("fruit cake", "butter cake"), ("fruit cake", "fruit cake")])
def test_nothing_else_is_in_the_oven_with_a_fruit_cake(cakes: tuple[str, str]) -> None:
    """It bakes on for hours after the work on it, and there is one oven."""
    tiers = (
        f"[[tier]]\nsize='{8 - 2 * number} in'\ndepth='3 in'\ninside = {{ cake = '{kind}' }}\n"
        for number, kind in enumerate(cakes)
    )
    made = cake(f"{''.join(tiers)}[estimates.waits]\nmaturing = 0\n")
    work = Work(ready=READY)
    found = times(made)
    spans = in_oven(found, work)
    assert len({each.step.tier for each in found if each.step.stage.startswith("bake")}) == 2
    for one, other in pairwise(spans):
        assert one[1] <= other[0]


def test_every_kind_of_template_has_its_stages() -> None:
    """A new kind of template has to say which step takes it; letters and mirrors are lettering."""
    made = {"letter", "top-lettering", "lettering-mirror"}
    made |= {"letter-board", "letter-wall", "letter-top", "cake-sheet"}
    assert set(USED) == set(KINDS) - {"lettering"} | made


def test_steps_of_a_cake_in_their_order() -> None:
    """From the oven to the table; the waits are those of the trade, see each.

    Paste sets overnight (*The Busy Girl's Guide*); royal-icing drips set 24 h before they are
    painted (common practice, no source).
    """
    found = of(one_tier("name = 'one'\n[tier.drips]\n[tier.paint]\non = 'drips'"))
    waits = {step.name: step.wait for step in found}
    assert waits["drips"] == 24
    assert waits["cover"] >= 8
    assert [step.name for step in found] == [
        "bake", "fill", "crumb coat", "coat", "cover", "drips", "paint", "stack", "finish",
        "set up",
    ]  # fmt: skip
    paint = next(step for step in found if step.name == "paint")
    assert "one: drips" in paint.after
    assert "no flame" in paint.caution


@pytest.mark.parametrize(
    ("lines", "name", "least", "most"),
    [
        # gum paste decorations 48 h to 1 week ahead: Aumiller, Pure Artistry
        ("[[tier.scatter]]\ncount = 6", "small pieces", 48, 168),
        ("[[tier.lettering]]\ntext = 'AB'\ncut = true", "letters", 48, 168),
        # toppers 3 to 7 days ahead: common practice, no source
        ("[[topper]]\nheight = '8 cm'", "make", 72, 168),
    ],
)
def test_what_dries_is_made_ahead(lines: str, name: str, least: float, most: float) -> None:
    """It waits as long as it dries, and is not made weeks before."""
    found = times(one_tier(lines))
    made = next(each for each in found if each.step.name == name)
    used = next(each for each in found if made.step.key in each.step.after)
    assert made.step.wait >= least
    ahead = hours(used)[0] - hours(made)[1]
    assert timedelta(hours=least) <= ahead <= timedelta(hours=most)
    assert made.earliest is not None
    assert made.earliest <= hours(made)[0]


def test_a_wait_that_ends_before_midnight_ends_in_the_morning() -> None:
    """Rounded up, 23:50 is the next day, long before work starts."""
    cover = Step("cover", "one", "", 50, "cover", wait=12.0)
    dowel = Step("dowel", "one", "", 20, "dowel", after=(cover.key,))
    work = Work(ready=READY, day_starts=11)
    found = order_of_work([cover, dowel], work)
    assert [f"{hours(each)[0]:%H:%M}" for each in found] == ["11:00", "11:00"]
    assert hours(found[1])[0] - hours(found[0])[0] == timedelta(days=1)


def test_drips_of_ganache_set_in_an_hour() -> None:
    """Of royal icing in a day: common practice, no source."""
    (soft,) = (step for step in of(one_tier("[tier.drips]")) if step.name == "drips")
    assert soft.wait == 1


def test_each_design_lettering_and_strip_has_a_step() -> None:
    """Also the drum that is covered, which sets overnight."""
    lines = (
        "name = 'a'\n[[tier.design]]\nkind = 'ruffles'\npaper = 'strip'\n[[tier.design]]\n"
        "kind = 'swags'\n[[tier.lettering]]\ntext = 'Ada'\n[drum]\nfondant = '3 mm'\n"
    )
    found = {step.key: step for step in of(one_tier(lines))}
    assert {"a: ruffles (design 1)", "a: swags (design 2)", "a: lettering"} <= set(found)
    assert "strips" in found["a: ruffles (design 1)"].words
    assert found["drum: cover"].wait >= 8


def test_only_what_carries_is_dowelled_and_only_with_dowels() -> None:
    """Each tier that carries another is dowelled, unless no dowel has room: then none is set."""
    found = of(sample("harbour-wedding"))
    assert [step.tier for step in found if step.stage == "dowel"] == ["bottom", "second", "third"]
    tower = sample_plan("midsummer-tower")
    without = [s.name for s in tower.stack.seats if s.support is not None and not s.support.count]
    dowelled = [step.tier for step in steps(tower) if step.stage == "dowel"]
    assert not set(without) & set(dowelled)


def test_the_work_is_finished_the_day_before() -> None:
    """By default nothing is left for the day itself but the journey and setting up."""
    found = times(sample("naming-day"))
    assert {each.step.name for each in found if hours(each)[0].date() == READY.date()} == {"set up"}
    assert hours(found[-1])[1] == READY
    same_day = times(sample("naming-day"), spare_days=0)
    assert any(
        each.step.place == "kitchen" and hours(each)[0].date() == READY.date() for each in same_day
    )


def test_a_stack_travels_only_on_a_long_dowel() -> None:
    """Without a dowel through all, tiers travel apart and are stacked where they are set up."""
    apart = [each.step.name for each in times(cake(TWO), travel=45, setup=60)]
    assert apart[-5:] == ["pack", "travel", "stack", "finish", "set up"]
    together = [each.step.name for each in times(cake(f"through_dowel = true\n{TWO}"), travel=45)]
    assert together.index("drill the boards") < together.index("fill")
    assert together[-6:] == ["stack", "through dowel", "finish", "pack", "travel", "set up"]


def test_what_cannot_be_is_said() -> None:
    """Fresh cream keeps a day and is filled sooner; a journey before dawn has no hour."""
    cream = one_tier("[tier.inside]\nfilling = 'fresh cream'\n[tier.drips]\n[tier.paint]")
    work = Work(ready=READY)
    (said,) = [
        text for text in schedule_warnings(order_of_work(of(cream), work), work) if "fill" in text
    ]
    assert "keeps 1 day (" in said
    early = Work(ready=READY.replace(hour=8), travel=120)
    found = schedule_warnings(times(one_tier(), ready=early.ready, travel=120), early)
    assert any("starts at 05:" in text for text in found), found
    assert not schedule_warnings(times(one_tier()), Work(ready=READY))


def test_a_tier_with_paint_is_not_chilled() -> None:
    """It would sweat when it comes out: common practice, no source."""
    found = {step.key: step for step in of(cake(TWO + "[tier.paint]\non = 'side'\n"))}
    assert found["a: prepare"].wait > 1
    assert found["b: prepare"].wait == 0
    assert "sweats" in found["b: prepare"].caution


def test_days_without_a_date() -> None:
    """Without a day there is an order, and how many days before each step is, and no hours."""
    plan = sample_plan("naming-day")
    found = order_of_work(steps(plan), Work())
    assert all(each.start is None and each.latest is None for each in found)
    days = [each.days_before for each in found]
    assert days == sorted(days, reverse=True)
    assert days[0] >= 2
    assert days[-1] == 0
    assert bench(plan)["hours_of_work"] == hours_of_work([each.step for each in found])


def test_calendar_read_by_another_program() -> None:
    """Every step is an event of the calendar, at its hour, as vobject reads it."""
    work = Work.model_validate({"ready": READY})
    made = sample("harbour-wedding").model_copy(update={"work": work})
    found, plan = times(made), make_plan(made)
    read = vobject.readOne(calendar(plan).decode())
    events = list(read.contents["vevent"])
    assert len(events) == len(found) > 10
    for event, each in zip(events, found, strict=True):
        assert event.dtstart.value == each.start
        assert event.dtend.value == each.end
        assert event.dtstart.value.tzinfo is None
        assert each.step.tier in event.summary.value
        assert plan.terms.text(each.step.words) in event.description.value
        (alarm,) = event.valarm_list
        assert alarm.trigger.value == timedelta(minutes=-15)
    assert len({event.uid.value for event in events}) == len(events)
    assert calendar(plan) == calendar(make_plan(made))


@pytest.mark.parametrize(
    "written", ["2027-06-19T14:00:00", "2027-06-19 14:00:00", "'2027-06-19 14:00'"]
)
def test_ways_to_write_a_day(written: str) -> None:
    """A day and hour can be written as TOML has it, or as a text."""
    made = cake(f"[[tier]]\nsize='8 in'\ndepth='4 in'\n[work]\nready = {written}\n")
    assert made.work.ready == READY


def test_long_work_is_parted() -> None:
    """Some 200 moulded panels at 5 min each, and 20 min, are made in stretches of half a day."""
    plan = make_plan(one_tier("[tier.panels]\nrows = 4\nmould = '14 mm'\nheight = '20 mm'"))
    parts = [step for step in steps(plan) if step.name.startswith("panels")]
    (tier,) = plan.stack.tiers
    assert tier.spec.panels is not None
    number = panel_rows(tier, tier.spec.panels).count
    assert sum(step.minutes for step in parts) == 20 + 5 * number > 900
    assert all(step.minutes <= plan.work.stretch for step in parts)
    assert [step.follows for step in parts[1:]] == [(step.key,) for step in parts[:-1]]


def test_a_break_for_a_meal() -> None:
    """Half an hour at one without a word; none in a day too short for it, or where it is 0."""
    assert Work().meal_hours == (13.0, 13.5)
    assert Work(meal=0).meal_hours is None
    assert Work(meal_at=12, meal=45).meal_hours == (12.0, 12.75)
    assert Work(day_starts=11, day_ends=15).meal_hours is None
    assert Work(day_starts=14).meal_hours is None


def test_a_sponge_is_baked_no_sooner_than_it_keeps() -> None:
    """Within 72 h of the party (common practice, no source), also where the morning is free."""
    found = times(sample("naming-day"))
    baked = [each for each in found if each.step.stage == "bake"]
    assert [each.step.keeps for each in baked] == [72, 72, 72]
    for each in baked:
        assert READY - hours(each)[0] <= timedelta(hours=72)


def test_light_work_on_the_last_day() -> None:
    """What can be piped the day before is; the last day ends before the evening."""
    found = times(sample("paper-garden"))
    friday = [each for each in found if hours(each)[0].day == 18]
    assert not [each for each in friday if each.step.stage == "design"]
    assert max(hours(each)[1] for each in friday) <= datetime(2027, 6, 18, 15)


def test_a_fruit_cake_is_baked_weeks_ahead() -> None:
    """It matures for four weeks and keeps for three months: common practice, no source.

    It has no crumb coat; what covers it is almond paste.
    """
    fruit = "name = 'one'\n[tier.inside]\ncake = 'fruit cake'\n"
    found = {each.step.name: each for each in times(one_tier(fruit))}
    bakes = [each for name, each in found.items() if name.startswith("bake")]
    assert all(READY - hours(each)[0] > timedelta(days=28) for each in bakes)
    assert all(READY - hours(each)[0] < timedelta(days=90) for each in bakes)
    assert hours(found["level"])[0] - hours(found["mature"])[1] >= timedelta(days=28)
    assert "crumb coat" not in found
    assert "almond paste (marzipan) rolled 5 mm (3/16 in) thick" in found["coat"].step.words
    assert hours(found["cover"])[0] - hours(found["coat"])[1] >= timedelta(hours=24)
    assert not schedule_warnings(list(found.values()), Work(ready=READY))


def test_only_what_is_heavy_is_lifted_by_two() -> None:
    """Two small tiers are not; four of fruit cake are. 16 kg: UK HSE guideline, second-hand."""
    heavy = "".join(
        f"[[tier]]\nsize = '{size} in'\ndepth = '5 in'\ninside = {{ cake = 'fruit cake' }}\n"
        for size in (14, 12, 10, 8)
    )
    for text, two in ((TWO, False), (f"through_dowel = true\n{heavy}", True)):
        found = times(cake(text), travel=45)
        said = {each.step.name for each in found if "Two-person lift" in each.step.caution}
        assert said == ({"stack", "pack"} if two else set())


WEDDING = "through_dowel = true\n" + "".join(
    f"[[tier]]\nname = '{name}'\nsize = '{size} in'\ndepth = '4 in'\n{lines}"
    for name, size, lines in (
        ("bottom", 12, ""),
        ("second", 10, "[[tier.design]]\nkind = 'swags'\n"),
        ("third", 8, "[tier.inside]\ncake = 'sponge'\n[[tier.lettering]]\ntext = 'Anna'\n"),
        ("top", 6, "[tier.drips]\n[tier.paint]\non = 'drips'\n"),
    )
)


def test_a_free_day_is_used_before_the_last() -> None:
    """Piping is done on the day after covering, which is free, and not on the last morning."""
    found = times(
        cake(f"{WEDDING.replace('sponge', 'butter cake')}[estimates]\ntins_at_once = 2\n")
    )
    piped = [
        each for each in found if each.step.stage in ("design", "lettering", "royal icing drips")
    ]
    assert len(piped) == 3
    assert all(hours(each)[0].date() < READY.date() - timedelta(days=1) for each in piped)
    assert max(hours(each)[1] for each in found[:-1]).hour <= 18


def test_a_tier_that_would_not_keep_is_not_done_with_the_others() -> None:
    """A sponge is baked when it has to be, not with a butter cake that needs days of icing."""
    third = [each for each in times(cake(WEDDING)) if each.step.tier == "third"]
    assert not schedule_warnings(third, Work(ready=READY))


GOLDEN = Path(__file__).parent / "schedules"


@pytest.mark.parametrize("name", ["harbour-wedding", "naming-day", "paper-garden"])
def test_plans_that_were_read_as_a_decorator_would(name: str) -> None:
    """Each line is something one does at that hour; a change is to be read again, line by line."""
    made = sample(name)
    given = made.work.model_copy(update={"ready": READY})
    found = order_of_work(of(made.model_copy(update={"work": given})), given)
    lines = [
        f"{start:%a %H:%M}-{end:%H:%M} {each.step.key}"
        + (f", then {each.step.wait:g} h" if each.step.wait else "")
        for each in found
        for start, end in [hours(each)]
    ]
    assert lines == (GOLDEN / f"{name}.txt").read_text(encoding="utf-8").splitlines()


def test_the_oven_is_not_left_cold_between_bakes() -> None:
    """The second bake of a tier goes in when the first comes out, and cools before it is filled.

    Its batter is mixed while the first bakes: common practice, no source.
    """
    found = times(one_tier("name = 'one'\n[estimates]\ntins_at_once = 1\n", "8 in", "4 in"))
    bakes = [each for each in found if each.step.stage == "bake"]
    (_, out), (into, _) = in_oven([each for each in found if each in bakes], Work(ready=READY))
    assert timedelta() <= into - out < timedelta(minutes=15)
    assert hours(bakes[1])[0] < out
    oven = bakes[1].step.oven
    assert [each.step.wait for each in bakes] == [0, oven + 3]


def test_a_coating_is_combed_while_it_is_soft() -> None:
    """In one step with the coating: nothing comes between, whatever other tiers take."""
    combed = "[[tier]]\nname = 'top'\nsize = '4 in'\ndepth = '3 in'\ncover = 'none'\n[tier.comb]\n"
    names = [each.step.name for each in times(cake(TWO + combed)) if each.step.tier == "top"]
    assert "coat and comb" in names
    assert "coat" not in names


@pytest.mark.parametrize("name", ["harbour-wedding", "golden-wedding", "midsummer-tower"])
def test_tiers_are_named_from_the_bottom_up(name: str) -> None:
    """In each row of the cover and each step of the handout, whoever is done first."""
    plan = sample_plan(name)
    order = [tier.name for tier in plan.stack.tiers]
    (times,) = (each for each in sections(bench(plan), plan.terms) if each.title == TIMES)
    rows = [what for _, what, _ in times.brief[1:]]
    rows += [step.title for step in handout(plan).steps]
    assert any(row.count(",") > 1 for row in rows)
    for row in rows:
        tiers = [name for name in row.partition(": ")[2].split(", ") if name in order]
        assert tiers == sorted(tiers, key=order.index)


def test_alike_steps_are_done_from_the_bottom_up() -> None:
    """Dowels of several tiers that can be set at once: those of the lowest first."""
    plan = sample_plan("harbour-wedding")
    done = [
        each.step.tier
        for each in order_of_work(steps(plan), plan.work)
        if each.step.stage == "dowel"
    ]
    assert done == ["bottom", "second", "third"]


def test_one_fruit_cake_after_another_is_in_the_oven() -> None:
    """It bakes on for hours, and is out before the day ends: common practice, no source."""
    lines = "inside = { cake = 'fruit cake' }\n[estimates]\ntin = '50 mm'\n"
    made = one_tier(f"{lines}tins_at_once = 2\n", "10 in", "6 in")
    for day_ends, together in ((21, 2), (15, 1)):
        found = times(made, day_ends=day_ends)
        bakes = [each for each in found if each.step.name.startswith("bake")]
        assert [each.step.words.split(" slowly")[0][-6:] for each in bakes] == ["2 tins"] * 2
        spans = [hours(each) for each in bakes]
        for (_, stop), (start, _) in pairwise(spans):
            assert start - stop >= timedelta(hours=4)
        assert len({start.date() for start, _ in spans}) == 3 - together
        for each, (_, stop) in zip(bakes, spans, strict=True):
            assert stop + timedelta(hours=4) <= stop.replace(hour=day_ends, minute=0)
            assert each.latest is not None
            assert each.latest + timedelta(hours=0.75 + each.step.oven) <= each.latest.replace(
                hour=day_ends, minute=0
            )


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ("kind = 'ruffles'", "Prick the lines through the paper, cut the strips and attach them."),
        ("kind = 'ruffles'\npaper = 'strip'", "through the paper, cut the strips"),
        ("kind = 'lace'", "make the mats and attach them"),
        ("kind = 'swags'\npaper = 'strip'", "through the paper, pipe or set."),
        ("kind = 'swags'", "Prick the lines through the paper, pipe or set."),
    ],
)
def test_a_design_of_strips_is_cut_and_another_piped(lines: str, words: str) -> None:
    """Whatever paper marks it, which the step does not name."""
    found = {step.name: step for step in of(one_tier(f"[[tier.design]]\n{lines}\n", "6 in"))}
    step = found[lines.split("'")[1]]
    assert words in step.words
    assert step.minutes == (45 if "swags" in lines else 60)


@pytest.mark.parametrize(
    ("text", "finish", "told"),
    [
        (TWO, "Hide the joins, remove", "about dowels."),
        (
            f"drum = {{ ribbon = '15 mm' }}\n{TWO}",
            "joins, tie the ribbons, remove",
            "about dowels.",
        ),
        ("[[tier]]\nsize='6 in'\ndepth='4 in'\n", "Hide the joins, remove", "all round."),
        (f"{TWO}[[topper]]\n[[flower]]\n", "joins, remove", "about dowels, sticks and wires."),
        (f"{TWO}[[flower]]\nwired = false\n", "joins, remove", "about dowels."),
        ("[[letter_cake]]\ntext='4'\n", "joins, remove", "all round."),
    ],
)
def test_only_what_is_on_a_cake_is_spoken_of(text: str, finish: str, told: str) -> None:
    """No ribbon is tied, and no dowel is named, that is not there."""
    found = {step.name: step for step in of(cake(text))}
    assert finish in found["finish"].words
    assert found["set up"].words.endswith(told)


def test_a_figure_on_a_topper_is_no_number_of_them() -> None:
    """“7” is what it shows."""
    (made,) = (s for s in of(one_tier("[[topper]]\nshape='text'\ntext='7'")) if s.stage == "topper")
    assert made.words.startswith("Cut 1 × “7”, ")


def test_a_tier_of_many_layers_takes_longer_to_fill() -> None:
    """Up to three fillings take half an hour, each more 5 min: our estimates."""
    taken = {
        layers: next(
            step.minutes
            for step in of(one_tier(f"inside = {{ layers = {layers} }}", "6 in", "4 in"))
            if step.stage == "fill"
        )
        for layers in (2, 4, 5, 8)
    }
    assert taken == {2: 30, 4: 30, 5: 35, 8: 50}


def test_work_on_a_tier_grows_with_its_size() -> None:
    """Half of it with the surface, from a round of 6 in, 4 in deep: our estimate, no source.

    By hand, 4 in deep: surfaces of 62.8, 103.7, 150.8 and 263.9 square inches.
    """

    def taken(size: str, more: str = "") -> tuple[int, ...]:
        stages = {step.stage: step.minutes for step in of(one_tier(more, size))}
        return stages["fill"], stages["coat"], stages["cover"]

    assert taken("4 in") == (25, 35, 40)  # x 0.803: 24.1, 32.1, 36.1
    assert taken("6 in") == (30, 40, 45)
    assert taken("8 in") == (40, 50, 60)  # x 1.227: 36.8, 49.1, 55.2
    assert taken("12 in") == (55, 75, 80)  # x 1.773: 53.2, 70.9, 79.8
    whole = "[estimates]\ngrows = 0\n"
    assert taken("4 in", whole) == taken("12 in", whole) == (30, 40, 45)


@pytest.mark.parametrize(
    ("lines", "chilled"),
    [
        ("", [("fill", "crumb coat")]),
        ("top_size = '6 in'\n[tier.carving]\n", [("level", "carve"), ("fill", "crumb coat")]),
        ("top_size = '6 in'\ninside = { layers = 1 }\n[tier.carving]\n", [("level", "carve")]),
        ("top_size = '6 in'\n", [("fill", "trim")]),
        ("[estimates]\ncake = 'fruit cake'\n", []),
    ],
    ids=["filled", "carved", "of one layer", "trimmed", "fruit"],
)
def test_a_cake_is_firm_before_it_is_coated_or_cut(
    lines: str, chilled: list[tuple[str, str]]
) -> None:
    """It chills for an hour: common practice, no source. A fruit cake is never chilled."""
    found = {each.step.name: each for each in times(one_tier(lines))}
    for chill, then in chilled:
        assert found[chill].step.words.endswith("chill until firm.")
        assert hours(found[then])[0] - hours(found[chill])[1] >= timedelta(hours=1)
    of_inside = [each.step for each in found.values() if each.step.stage in ("level", "fill")]
    told = {step.name for step in of_inside if "chill" in step.words}
    assert told == {step.name for step in of_inside if step.wait} == {name for name, _ in chilled}


@pytest.mark.parametrize(("level", "fills"), [("15", 15), ("10", 20), ("40", 5)])
def test_a_carved_tier_is_levelled_once(level: str, fills: int) -> None:
    """Levelling is in the half hour of a fill, but of a carved tier it is a step of its own."""
    lines = "inside = { layers = 4 }\n[tier.carving]\n[estimates]\ngrows = 0\n"
    plain = f"{lines}[estimates.minutes]\nlevel = {level}.0\n"
    taken = {step.name: step.minutes for step in of(one_tier(f"top_size = '6 in'\n{plain}"))}
    assert (taken["level"], taken["fill"]) == (int(level), fills)


def test_a_bake_grows_with_its_tins() -> None:
    """As work on a tier of 4 in depth does, whatever the depth: our estimate, no source."""

    def taken(size: str, more: str = "", depth: str = "4 in") -> int:
        made = of(one_tier(more, size, depth))
        return next(step.minutes for step in made if "bake" in step.name)

    assert [taken(f"{size} in") for size in (4, 6, 8, 12)] == [25, 30, 40, 55]
    assert taken("6 in", depth="6 in") == 30
    assert taken("6 in", "top_size = '4 in'") == 30  # trimmed from a tin of 6 in
    assert taken("12 in", "[estimates]\ngrows = 0\n") == 30


@pytest.mark.parametrize(
    ("size", "deep", "least", "most"),
    [
        ("10 x 15", 1, 25, 30), ("8", 1.5, 35, 40), ("9", 1.5, 30, 35),
        ("6", 2, 25, 30), ("8", 2, 30, 35), ("10", 2, 35, 40), ("12", 2, 35, 40),
        ("9 x 13", 2, 35, 40), ("12 x 18", 2, 40, 45),
        ("8", 3, 55, 60), ("10", 3, 65, 75), ("12", 3, 60, 80), ("14", 3, 75, 85),
        ("9 x 13", 3, 70, 75), ("11 x 15", 3, 80, 85), ("12 x 18", 3, 85, 90),
    ],
)  # fmt: skip
def test_a_cake_is_in_the_oven_as_long_as_was_published(
    size: str, deep: float, least: int, most: int
) -> None:
    """Within 20 % of published tables for tins to whose brims it rises.

    thespruce.com, "What Are the Baking Times for Different Sized Cake Pans?" for 1 and 1 1/2 in;
    cakecentral.com, "Cake Baking, Cutting & Serving Guide", 2 in. Deep Pans and 3 in. Deep Pans; of
    12 in that says less than of 10 in, and the manual of a range 75 to 80 (manualsonline.com, Amana
    Big Oven, p. 20). Its 35 to 40 minutes for 6 in, 20 less than for 8 in, no rule here has.
    """
    sides = [float(side) * MM_PER_INCH for side in size.split(" x ")]
    area = math.prod(sides) if len(sides) == 2 else math.pi / 4 * sides[0] ** 2
    took = oven(area, deep * MM_PER_INCH, Minutes().oven)
    assert 0.8 * least <= took <= 1.2 * most


def test_the_shallower_cake_comes_out_sooner() -> None:
    """Three layers of 30 mm come out of two tins: two and what is levelled off 70 mm, one 40 mm."""
    words = [step.words for step in of(one_tier("", "6 in", "4 in")) if step.stage == "bake"]
    assert "bake 2 tins, about 50 min in the oven, the shallower 30 min, then cool" in words[0]
    apart = "[estimates]\ntins_at_once = 1\n"
    made = [step for step in of(one_tier(apart, "6 in", "4 in")) if step.stage == "bake"]
    assert [step.oven * 60 for step in made] == pytest.approx([50, 30])
    assert "about 30 min in the oven" in made[1].words
    *_, last = (each.words for each in of(one_tier(apart, "6 in", "5 in")) if "bake" in each.name)
    assert "bake 1 tin, as before." in last


def test_a_batter_is_mixed_at_one_go() -> None:
    """One does not stop to eat; what takes more than a whole day is parted, as it must be."""
    made = one_tier("[estimates]\npace = 500\ntins_at_once = 2", "12 in")
    for day_ends, number in ((14, 1), (11, 2)):
        found = times(made, day_ends=day_ends)
        bakes = [each for each in found if each.step.stage == "bake"]
        assert len(bakes) == number
        assert sum(each.step.minutes for each in bakes) == 275
        assert [each.step.oven > 0 for each in bakes] == [False, True][-number:]


def test_panels_in_place_of_a_wrap_are_set_one_by_one() -> None:
    """They take 2 min each, as on a covering, in all rounded up to five: our estimates."""
    plain, panels = (
        next(step.minutes for step in of(one_tier(lines, "6 in")) if step.stage == "cover")
        for lines in (
            "cover = 'panelled'",
            "cover = 'panelled'\n[tier.panels]\nreplace_wrap = true\ncount = 8\nrows = 2",
        )
    )
    assert (plain, panels) == (45, 80)  # 45 + 16 * 2


def test_a_fruit_cake_is_not_chilled() -> None:
    """It sweats: common practice, no source."""
    two = TWO.replace("depth='4 in'", "depth='4 in'\ninside = { cake = 'fruit cake' }", 1)
    words = {step.tier: step.words for step in of(cake(two)) if step.stage == "prepare"}
    assert "chill" not in words["a"]
    assert "chill" in words["b"]


def test_one_dowel_is_spoken_of_as_one() -> None:
    """A tier so small that one dowel has room."""
    small = TWO.replace("8 in", "60 mm").replace("6 in", "35 mm").replace("4 in", "40 mm")
    (step,) = (step for step in of(cake(small)) if step.stage == "dowel")
    assert step.words.endswith("cut 1 dowel and set it upright.")


def test_a_step_says_in_which_unit_a_thickness_is() -> None:
    """Numbers without a unit in the file have that of the file: 1/8 is 1/8 in."""
    spec = cake(
        "unit = 'in'\ndrum = { fondant = '1/8' }\n[[tier]]\nsize = 8\ndepth = 4\n"
        "[[topper]]\nthickness = '1/4'\n"
    )
    words = [step.words for step in of(spec)]
    assert "Roll fondant 3.2 mm (⅛ in) thick, cover the drum, trim." in words
    assert [each for each in words if each.startswith("Cut 1 × heart, 6.3 mm (¼ in) thick")]


@pytest.mark.parametrize(
    ("lines", "is_coated"),
    [("", True), ("coating = '0 mm'\n", False), ("[estimates]\ncake = 'fruit cake'\n", False)],
)
def test_a_letter_cake_has_a_crumb_coat_before_its_coat(lines: str, is_coated: bool) -> None:
    """As every tier of cake but of fruit cake has it, a part at a time: common practice."""
    text = f"[[letter_cake]]\ntext = '8'\n{lines}"
    found = bench(make_plan(cake(text)))["times"]
    stages = [each["stage"] for each in found]
    assert ("crumb coat" in stages) == is_coated
    if is_coated:
        assert stages.index("fill") < stages.index("crumb coat") < stages.index("coat")
        (done,) = (each for each in found if each["stage"] == "crumb coat")
        assert done["wait_h"] == 0.5


@pytest.mark.parametrize(
    ("form", "high", "low"), [("bottom", False, True), ("top", True, False), ("both", True, True)]
)
def test_shells_at_the_base_are_piped_once_the_cake_stands(
    form: str, high: bool, low: bool
) -> None:
    """They hide where tier and board meet; those of the top edge come before: common practice."""
    lines = f"[[tier.design]]\nkind = 'shells'\nform = '{form}'\n"
    found = {each["step"]: each for each in bench(make_plan(one_tier(lines)))["times"]}
    assert ("at the top" in found["shells"]["what"]) == high
    assert (found["shells"]["wait_h"] > 0) == high
    assert ("the shells at the base of tier 1" in found["finish"]["what"]) == low
