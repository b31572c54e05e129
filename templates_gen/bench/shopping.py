"""The shopping list: all that is bought, in the packs that it comes in, and what it costs."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from templates_gen.bench.amounts import TEASPOON, kitchen_grams
from templates_gen.bench.flowers import SOLD
from templates_gen.bench.quantities import DRIPS_OF
from templates_gen.bench.rolled import FONDANT, MODELLING
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.prices import Prices
from templates_gen.spreadsheet import csv_bytes
from templates_gen.terms import UK_TERMS, Terms
from templates_gen.units import decimal, in_both, money

Data = dict[str, Any]
KILO = 1000.0
DUST = "edible dust"
COLUMNS = ("what", "quantity", "unit", "packs", "cost")


@dataclass(frozen=True, slots=True)
class Bought:
    """Something to buy: how much in which unit, in how many packs, what it costs if that is known.

    ``packs`` is 0 for what is sold loose or by the piece.
    """

    what: str
    quantity: float
    unit: str
    packs: int = 0
    cost: float | None = None


def shopping(found: Data, estimates: Estimates, prices: Prices) -> tuple[Bought, ...]:
    """Return what is bought for a cake, from its bench list as data."""
    return _alike(
        *_pastes(found, estimates, prices),
        *(Bought("gum powder", _sum(found["gum"], "tsp"), "tsp") for _ in found["gum"][:1]),
        *_by_the_kilo(found, prices),
        *(Bought(DUST, _sum(found["paint"], "dust_g"), "g") for _ in found["paint"][:1]),
        *(
            Bought("clear alcohol", _sum(found["paint"], "alcohol_ml") / TEASPOON, "tsp")
            for _ in found["paint"][:1]
        ),
        *_by_the_piece(found, prices),
        *_for_flowers(found, prices),
    )


def _alike(*rows: Bought) -> tuple[Bought, ...]:
    """Return rows with what is the same thing bought once."""
    found: dict[tuple[str, str], Bought] = {}
    for row in rows:
        key = row.what, row.unit
        if key not in found:
            found[key] = row
            continue
        had = found[key]
        cost = None if had.cost is None or row.cost is None else had.cost + row.cost
        quantity, packs = had.quantity + row.quantity, had.packs + row.packs
        found[key] = Bought(row.what, quantity, row.unit, packs, cost)
    return tuple(found.values())


def _sum(rows: Sequence[Data], key: str) -> float:
    return sum(float(each[key] or 0.0) for each in rows)


def _pastes(found: Data, estimates: Estimates, prices: Prices) -> Iterator[Bought]:
    masses: dict[tuple[str, str], float] = defaultdict(float)
    for each in found["paste"]:
        masses[each["kind"], each["colour"]] += each["mass_g"]
    price = {FONDANT: prices.fondant, MODELLING: prices.modelling_paste}
    for (kind, colour), mass in masses.items():
        packs = max(1, -int(-mass // estimates.pack))
        each_costs = price[kind]
        cost = None if each_costs is None else packs * each_costs
        yield Bought(f"{kind}, {colour}", mass, "g", packs, cost)


def _by_the_kilo(found: Data, prices: Prices) -> Iterator[Bought]:
    batter: dict[str, float] = defaultdict(float)
    filling: dict[str, float] = defaultdict(float)
    for each in found["baking"]:
        if each["batter_g"]:
            batter[f"batter, {each['kind']}"] += each["batter_g"]
        if each["filling_g"]:
            filling[f"filling, {each['filling']}"] += each["filling_g"]
    rows = (
        *((what, mass, prices.batter) for what, mass in batter.items()),
        *((what, mass, prices.filling) for what, mass in filling.items()),
        ("buttercream or ganache", _sum(found["coating"], "mass_g"), prices.coating),
        (f"{DRIPS_OF} for drips", found["icing_batch_g"], prices.icing),
        ("icing for piping", found["piping_batch_g"], prices.icing),
    )
    for what, mass, price in rows:
        if mass:
            yield Bought(what, mass, "g", 0, None if price is None else mass / KILO * price)


def _by_the_piece(found: Data, prices: Prices) -> Iterator[Bought]:
    names = ("board", "drum", "dowel", "pillar", "spacer")
    price = {name: getattr(prices, name) for name in names}
    for each in found["pieces"]:
        kind = each["what"].split(",")[0].split(" ")[0]
        if ":" in each["what"]:  # cut from fondant or another paste, which is bought by weight
            continue
        if kind == "ribbon":
            metres = each["sizes_mm"][0] / KILO
            cost = None if prices.ribbon is None else metres * prices.ribbon
            yield Bought(f"ribbon, {in_both(each['sizes_mm'][1])}", metres, "m", 0, cost)
        elif kind in price:
            one, number = price[kind], each["number"]
            what = f"{each['what']}, {each['size']}"
            yield Bought(what, number, "", 0, None if one is None else number * one)


def _for_flowers(found: Data, prices: Prices) -> Iterator[Bought]:
    rows = [
        (f"wire, {each['gauge']} gauge, {SOLD}", each["number"], prices.wire)
        for each in found["wires"]
    ]
    rows.append(("holder for a stem, food-safe", found["holders"], prices.holder))
    for what, number, price in rows:
        if number:
            yield Bought(what, number, "", 0, None if price is None else number * price)


@dataclass(frozen=True, slots=True)
class Cost:
    """What a cake costs: what is bought, the work, and each wedding portion, where it is known."""

    currency: str
    bought: float
    work: float
    unpriced: tuple[str, ...]
    per_portion: float | None

    @property
    def total(self) -> float:
        """All that is known of the cost."""
        return self.bought + self.work


def cost(found: Data, rows: Sequence[Bought], prices: Prices) -> Cost | None:
    """Return the cost of a cake; None where no price at all is given."""
    if not any(getattr(prices, name) for name in Prices.model_fields if name != "currency"):
        return None
    bought = sum(each.cost or 0.0 for each in rows)
    work = found["hours_of_work"] * (prices.hour or 0.0)
    portions = sum(each["portions"]["wedding"] for each in found["servings"])
    each_portion = (bought + work) / portions if portions else None
    unpriced = tuple(each.what for each in rows if each.cost is None)
    return Cost(prices.currency, bought, work, unpriced, each_portion)


def as_csv(rows: Sequence[Bought], terms: Terms = UK_TERMS) -> bytes:
    """Return a shopping list as CSV for spreadsheets."""
    return csv_bytes([COLUMNS, *(tuple(map(terms.text, _cells(row))) for row in rows)])


def _cells(each: Bought) -> tuple[str, ...]:
    cost = "" if each.cost is None else money(each.cost)
    packs = str(each.packs) if each.packs else ""
    return each.what, decimal(_measured(each), 2), each.unit, packs, cost


def _measured(each: Bought) -> float:
    """Return a quantity as a kitchen measures it, rounded up."""
    if each.unit == "g":
        is_dust = each.what == DUST
        return math.ceil(each.quantity * 2) / 2 if is_dust else kitchen_grams(each.quantity)
    return math.ceil(each.quantity * 4 - 1e-9) / 4 if each.unit == "tsp" else each.quantity
