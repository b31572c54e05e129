"""What is bought and what it costs, and how a cake is carried."""

from __future__ import annotations

import csv
import io
import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.bench.carrying import loads
from templates_gen.bench.packs import SIZES, holding, in_words
from templates_gen.bench.report import bench_table, sections
from templates_gen.bench.section import QUANTITIES, SHOPPING, Section
from templates_gen.bench.shopping import as_csv, shopping
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import Plan, make_plan
from templates_gen.units import hours
from tests.cakes import cake, one_tier, sample
from tests.cli.command import TIER, ask

PRICED = "[prices]\nfondant = 9.5\nhour = 20.0\n"


def test_costs_add_up() -> None:
    """Packs are paid whole, work by its hours; a portion costs its share of all."""
    made = bench(make_plan(one_tier(PRICED)))
    rows = {each["what"]: each for each in made["shopping"]}
    (packs,) = (each["number"] for each in rows["fondant, white"]["packs"])
    (paste,) = made["paste"]
    assert packs == math.ceil((paste["rolled_g"] + 2 * paste["mass_g"]) / 3 / 1000)
    cost = made["cost"]
    assert cost["bought"] == pytest.approx(packs * 9.5)
    assert cost["work"] == pytest.approx(20 * made["hours_of_work"], abs=0.005)
    assert cost["total"] == pytest.approx(cost["bought"] + cost["work"])
    assert cost["per_portion"] == pytest.approx(cost["total"] / 24)
    assert "buttercream or ganache" in cost["unpriced"]
    assert bench(make_plan(one_tier()))["cost"] is None


def test_costs_are_those_of_the_amounts_that_are_listed() -> None:
    """With a calculator: amount × price is each cost, to a penny, and all of them are the sum."""
    prices = {"fondant": 9.5, "batter": 4.53, "filling": 6.17, "coating": 7.77, "hour": 18.31}
    more = {"board": 1.2, "drum": 4.05, "dowel": 0.33}
    lines = "".join(f"{key} = {price}\n" for key, price in (prices | more).items())
    plan = make_plan(cake(f"{TIER}{TIER.replace('8 in', '6 in')}[prices]\n{lines}"))
    (listed,) = (part for part in sections(bench(plan)) if part.title == SHOPPING)
    found = {what: (amount, cost) for what, amount, cost in listed.rows}
    for what, key in (("filling, buttercream", "filling"), ("buttercream or ganache", "coating")):
        amount, cost = found[what]
        grams = float(amount.split(" g")[0]) if " g" in amount else 1000 * float(amount.split()[0])
        assert cost == f"£{grams / 1000 * prices[key] + 1e-9:.2f}"
    assert found["work"][1] == f"£{bench(plan)['hours_of_work'] * 18.31 + 1e-9:.2f}"
    costs = [float(cost[1:]) for what, (_, cost) in found.items() if what not in SUMS]
    assert found["in all"][1] == f"£{sum(costs):.2f}"
    assert "without a price" not in " ".join(listed.assumptions)


@pytest.mark.parametrize(
    ("head", "key", "sign"),
    [("", "", "£"), ('words = "us"', "", "$"), ('words = "us"', 'currency = "C$"', "C$")],
)
def test_prices_have_the_sign_of_the_place(head: str, key: str, sign: str) -> None:
    """£, or $ where words are those of the US, unless the file says another."""
    found = bench(make_plan(cake(f"{head}\n{TIER}[prices]\ndowel = 0.3\nhour = 20\n{key}")))
    (listed,) = (part for part in sections(found) if part.title == SHOPPING)
    assert {what: cost for what, _, cost in listed.rows}["in all"].startswith(sign)


SUMS = ("in all", "a wedding portion")


def test_work_without_a_price_costs_not_nothing() -> None:
    """It is one of the lines that are not in the sum."""
    made = bench(make_plan(one_tier("[prices]\nfondant = 9.5\n")))
    assert made["cost"]["work"] is None
    assert "work" in made["cost"]["unpriced"]
    (listed,) = (part for part in sections(made) if part.title == SHOPPING)
    (work,) = (row for row in listed.rows if row[0] == "work")
    assert work[2] == ""
    assert work[1] == hours(made["hours_of_work"])


def test_modelling_paste_is_made_or_bought() -> None:
    """Gum powder makes it from fondant (common practice, no source); ready-made needs none."""
    lines = "[tier.panels]\ncount = 10\nheight = '50 mm'\n"
    made, bought = (
        {
            each["what"]: each
            for each in bench(make_plan(one_tier(lines + priced, "6 in")))["shopping"]
        }
        for priced in (PRICED, f"{PRICED}modelling_paste = 12.0\n")
    )
    assert "gum powder" in made
    assert "modelling paste, white" not in made
    assert "gum powder" not in bought
    both = bought["fondant, white"], bought["modelling paste, white"]
    assert made["fondant, white"]["quantity"] == pytest.approx(sum(x["quantity"] for x in both))
    ((alone,), (fondant,), (paste,)) = (x["packs"] for x in (made["fondant, white"], *both))
    assert alone["number"] < fondant["number"] + paste["number"]
    assert both[1]["cost"] == paste["number"] * 12


@pytest.mark.parametrize("covering", ["whole", "ring"])
def test_a_drum_is_bought_once_however_it_is_covered(covering: str) -> None:
    """Its fondant is bought by weight, and is no second board."""
    drum = f"drum = {{ size = '12 in', fondant = '3 mm', covering = '{covering}' }}\n"
    plan = make_plan(cake(f"{drum}{TIER}[prices]\ndrum = 4.0\n"))
    bought = [each for each in bench(plan)["shopping"] if each["what"].startswith("drum")]
    assert [(each["quantity"], each["cost"]) for each in bought] == [(1, 4.0)]


@pytest.mark.parametrize(
    ("grams", "place", "says"),
    [
        (20, "uk", "1 pack of 250 g"),
        (260, "uk", "1 pack of 500 g"),
        (760, "uk", "1 pack of 1 kg"),
        (1100, "uk", "1 pack of 1 kg and 1 of 250 g"),
        (3700, "uk", "1 pack of 2.5 kg, 1 of 1 kg and 1 of 250 g"),
        (4200, "uk", "1 pack of 5 kg"),
        (20, "us", "1 pack of 4 oz"),
        (120, "us", "2 packs of 4 oz"),
        (500, "us", "1 pack of 1½ lb"),
        (4600, "us", "1 pack of 10 lb and 1 of 4 oz"),
    ],
)
def test_packs_are_few_with_little_left_over(grams: float, place: str, says: str) -> None:
    """250 g to 5 kg, in the US 4 oz to 10 lb: common practice, no source."""
    assert in_words(holding(grams, SIZES[place])) == says


@given(st.floats(0.1, 20_000), st.sampled_from(list(SIZES)))
def test_no_other_packs_count_for_less(grams: float, place: str) -> None:
    """Of all that could hold so much, each pack counts for the smallest more than it holds."""
    sold = SIZES[place]
    found = holding(grams, sold)
    held = sum(each.number * each.size_g for each in found)
    assert held >= grams - 1e-6
    counted = held + min(sold) * sum(each.number for each in found)

    def least(left: float, larger: tuple[float, ...]) -> float:
        """Try every number of the largest size, then of each smaller one."""
        size, *smaller = larger
        most = max(0, math.ceil(left / size - 1e-9))
        if not smaller:
            return most * 2 * size
        return min(
            n * (size + min(sold)) + least(left - n * size, tuple(smaller)) for n in range(most + 1)
        )

    assert counted == pytest.approx(least(grams, sold[::-1]))


@pytest.mark.parametrize(
    ("lines", "white", "gold"),
    [
        ("", "1 pack of 1 kg", "1 pack of 250 g"),
        ("words = 'us'\n", "1 pack of 2 lb and 1 of 4 oz", "3 packs of 4 oz"),
        ("estimates = { pack = 500 }\n", "2 packs of 500 g", "1 pack of 500 g"),
        ("estimates = { pack = '0,5 kg' }\n", "2 packs of 500 g", "1 pack of 500 g"),
        ("estimates = { pack = '24 oz' }\n", "2 packs of 1½ lb", "1 pack of 1½ lb"),
        ("estimates = { pack = '3 lb' }\n", "1 pack of 1.36 kg (3 lb)", "1 pack of 1.36 kg (3 lb)"),
        ("prices = { fondant = 9 }\n", "1 pack of 1 kg", "1 pack of 1 kg"),
        ("words = 'us'\nprices = { fondant = 9 }\n", "2 packs of 2 lb", "1 pack of 2 lb"),
    ],
)
def test_paste_is_bought_in_packs_of_the_place(lines: str, white: str, gold: str) -> None:
    """A pack that is given, or has a price, is of one size. The bench list says the same."""
    small = "[[tier]]\nsize = '3 in'\ndepth = '2 in'\ncolour = 'gold'\n"
    plan = make_plan(cake(f"{lines}{TIER}{small}"))
    listed = {row[0]: row[1] for row in _section(plan, SHOPPING).rows}
    assert listed["fondant, white"].endswith(f", {white}")
    assert listed["fondant, gold"].endswith(f", {gold}")
    table = as_csv(shopping(bench(plan), plan.stack.estimates, plan.prices, plan.terms.place))
    packs = {
        row["what"]: row["packs"] for row in csv.DictReader(table.decode("utf-8-sig").split("\r\n"))
    }
    assert (packs["fondant, white"], packs["fondant, gold"]) == (white, gold)
    weighed = {row[1]: row[-1] for row in _section(plan, QUANTITIES).rows}
    # a colour that one row has all of is said once
    assert weighed["fondant, gold"].split("; ")[0] == gold
    assert "fondant, gold, in all" not in weighed


@pytest.mark.parametrize(("breadth", "is_tinted"), [(8, True), (20, False)])
def test_a_little_of_a_colour_is_coloured_from_white(breadth: int, is_tinted: bool) -> None:
    """Nobody buys a pack for 9 g of gold; the list says so: common practice, no source."""
    pearls = f"kind = 'pearls'\nbreadth = '{breadth} mm'\ncount = 20\ncolour = 'gold'\n"
    plan = make_plan(cake(f"{TIER}[[tier.design]]\n{pearls}"))
    listed = _section(plan, SHOPPING)
    weighed = {row[1]: row[-1] for row in _section(plan, QUANTITIES).rows}
    gold = weighed["modelling paste, gold"].split("; ")[0]
    assert (gold == "coloured from white") == is_tinted
    assert any("white is coloured for them: gold." in says for says in listed.assumptions) == (
        is_tinted
    )
    bought = {row[0]: row[1] for row in listed.rows}
    assert ("fondant, gold" in bought) != is_tinted
    total = sum(each["quantity"] for each in bench(plan)["shopping"] if each["packs"])
    assert total == pytest.approx(sum(each["mass_g"] for each in bench(plan)["paste"]))


@pytest.mark.parametrize(
    ("waste", "packs", "is_said"),
    [
        (13, "1 pack of 1 kg", False),
        (15, "1 pack of 1 kg", True),
        (20, "1 pack of 1 kg and 1 of 250 g", False),
    ],
)
def test_no_pack_is_opened_for_a_scrap_of_waste(waste: int, packs: str, is_said: bool) -> None:
    """883 g are rolled out: a pack of 1 kg has two thirds of the waste, and the list says so."""
    plan = make_plan(cake(f"{TIER}[estimates]\nwaste = {waste}\n"))
    listed = _section(plan, SHOPPING)
    bought = {row[0]: row[1] for row in listed.rows}["fondant, white"]
    assert bought.endswith(f", {packs}")
    assert any("waste allowance" in says for says in listed.assumptions) == is_said


@pytest.mark.parametrize(("place", "size"), [("uk", "1 kg"), ("us", "2 lb")])
def test_the_list_says_for_which_pack_a_price_is(place: str, size: str) -> None:
    """Where the file does not: whoever buys another size must know."""
    text = f"words = '{place}'\n{TIER}[prices]\nfondant = 9\n"
    says, given = (
        " ".join(_section(make_plan(cake(text + more)), SHOPPING).assumptions)
        for more in ("", "[estimates]\npack = 500\n")
    )
    assert f"for packs of {size};" in says
    assert "for packs of" not in given


def _section(plan: Plan, title: str) -> Section:
    """Return a part of the bench list of a plan."""
    (found,) = (part for part in sections(bench(plan)) if part.title == title)
    return found


def test_a_cascade_without_room_takes_no_paste() -> None:
    """None of its pieces is cut, so nothing is bought for them, and fondant comes in its packs."""
    wide = "cascade = [{ shape = 'circle', sizes = ['140 mm'], density = 20 }]\n"
    rows = {each["what"]: each for each in bench(make_plan(cake(f"{wide}{TIER}")))["shopping"]}
    assert rows["fondant, white"]["packs"]
    assert "gum powder" not in rows


def test_of_a_cascade_without_room_nothing_is_made() -> None:
    """It has no sheet, no step and no line of the bench list, only the warning that says so."""
    wide = "cascade = [{ shape = 'circle', sizes = ['140 mm'], density = 20 }]\n"
    plan = make_plan(cake(f"{wide}{TIER}"))
    assert not [piece for piece in plan.pieces if piece.kind == "cascade"]
    assert "cascade" not in bench_table(bench(plan))
    (said,) = (each.text for each in plan.warnings() if each.key[:1] == ("cascade",))
    assert said.startswith("cascade 1: none of ")


def test_a_size_without_room_is_not_cut() -> None:
    """Of a cascade whose larger pieces have no room the sheet has the smaller ones alone."""
    both = "cascade = [{ shape = 'circle', sizes = ['140 mm', '10 mm'], density = 20 }]\n"
    (sheet,) = (p for p in make_plan(cake(f"{both}{TIER}")).pieces if p.kind == "cascade")
    words = " ".join(label.text for label in sheet.drawing.labels)
    assert "cut 0" not in words
    assert "B: cut" in words


def test_ribbon_is_bought_by_the_yard_for_a_cake_in_inches() -> None:
    """A drum of 12 in takes 972.5 mm with its overlap: metres first for a cake in cm."""
    drum = "drum = { size = '12 in', ribbon = '15 mm' }\n"
    tiers = ("[[tier]]\nsize = '20 cm'\ndepth = '10 cm'\n", TIER)
    plans = [make_plan(cake(drum + tier)) for tier in tiers]
    lists = [bench_table(bench(plan), plan.terms) for plan in plans]
    for said, ribbon in zip(lists, ("0.98 m (1¼ yd)", "1¼ yd (0.98 m)"), strict=True):
        assert ribbon in said


def test_a_spreadsheet_reads_the_list(tmp_path: Path) -> None:
    """The CSV has each row of the list; no text in it is taken for a formula."""
    file = tmp_path / "list.csv"
    text = f"{TIER}colour = '=1+1'\n{PRICED}"
    ask("bench", "-", "--shopping", file, stdin=text)
    rows = list(csv.DictReader(io.StringIO(file.read_text(encoding="utf-8-sig"))))
    assert rows[0]["what"] == "fondant, =1+1"
    assert not any(each["what"].startswith("=") for each in rows)
    assert rows[0]["cost"] == f"{9.5 * int(rows[0]['packs'].split()[0]):.2f}"


def test_who_lifts() -> None:
    """16 kg is the lower HSE guideline (second-hand); 23 kg × 25/H is NIOSH 94-110."""
    *_, whole = loads(build_stack(sample("harbour-wedding")))
    # hands are 20 cm and half the width of the drum away: 37.8 cm
    assert whole.most == pytest.approx(23 * 25 / (20 + 35.56 / 2), rel=1e-3)
    assert not whole.takes_two
    heavy = "".join(
        f"[[tier]]\nsize = '{size} in'\ndepth = '6 in'\ninside = {{ cake = 'fruit cake' }}\n"
        for size in (14, 10)
    )
    *_, heaviest = loads(build_stack(cake(heavy)))
    assert heaviest.takes_two


def test_the_csv_has_amounts_as_a_kitchen_measures_them() -> None:
    """Grams to 5 or 10, dust to a half, spoons to a quarter, rounded up; alcohol is bought too."""
    text = "[tier.paint]\non = 'side'\n[tier.drips]\n"
    plan = make_plan(one_tier(text))
    rows = shopping(bench(plan), plan.stack.estimates, plan.prices, plan.terms.place)
    listed = {
        row["what"]: row for row in csv.DictReader(io.StringIO(as_csv(rows).decode("utf-8-sig")))
    }
    for each in rows:
        shown = float(listed[each.what]["quantity"])
        step = {"g": 0.5 if each.what == "edible dust" else 5.0, "tsp": 0.25}.get(each.unit)
        if step is not None:
            assert shown >= each.quantity - 1e-9
            assert shown / step == pytest.approx(round(shown / step))
    assert listed["clear alcohol"]["unit"] == "tsp"


@pytest.mark.parametrize("words", ["uk", "us"])
def test_the_csv_has_amounts_as_the_list_has_them(words: str) -> None:
    """In the words of the place, with numbers in grams and metres beside them for calculation."""
    plan = make_plan(cake(f"words = '{words}'\n{TIER}[tier.paint]\non = 'side'\n"))
    found = bench(plan)
    (part,) = (each for each in sections(found, plan.terms) if each.title == SHOPPING)
    rows = shopping(found, plan.stack.estimates, plan.prices, plan.terms.place)
    text = as_csv(rows, plan.terms).decode("utf-8-sig")
    listed = list(csv.DictReader(io.StringIO(text)))
    assert [row["what"] for row in listed] == [row[0] for row in part.rows]
    for row, (_, said, _) in zip(listed, part.rows, strict=True):
        packs = f", {row['packs']}" if row["packs"] else ""
        assert f"{row['how much']}{packs}" == said
    amounts = [row for row in listed if row["unit"] == "g" and "dust" not in row["what"]]
    assert amounts
    first = [row["how much"].split(" (")[0] for row in amounts]
    assert all(each.endswith((" lb", " oz")) == (words == "us") for each in first)


def test_a_fruit_cake_is_coated_with_almond_paste_in_every_list() -> None:
    """What the order of work says is weighed and bought: common practice, no source.

    Its volume is that of any coating, its density that of fondant: an estimate.
    """
    fruit, plain = (
        bench(
            make_plan(
                cake(
                    f"[[tier]]\nname = 'a'\nsize = '8 in'\ndepth = '3 in'\n{inside}"
                    "[estimates]\nwaste = 0\nfondant = 1.4\n[prices]\nalmond_paste = 10.0\n"
                )
            )
        )
        for inside in ("inside = { cake = 'fruit cake' }\n", "")
    )
    ((mine,), (its,)) = fruit["coating"], plain["coating"]
    assert (mine["what"], its["what"]) == ("almond paste (marzipan)", "buttercream or ganache")
    assert mine["volume_ml"] == pytest.approx(its["volume_ml"])
    assert mine["mass_g"] == pytest.approx(1.4 * mine["volume_ml"])
    bought = {each["what"]: each for each in fruit["shopping"]}
    assert "buttercream or ganache" not in bought
    assert bought["almond paste (marzipan)"]["cost"] == pytest.approx(
        10 * mine["mass_g"] / 1000, abs=0.06
    )


def test_a_combed_fruit_cake_has_what_can_be_combed() -> None:
    """Almond paste is rolled out."""
    lines = "cover = 'none'\ninside = { cake = 'fruit cake' }\n[tier.comb]\n"
    (row,) = bench(make_plan(one_tier(lines)))["coating"]
    assert row["what"] == "buttercream or ganache"
