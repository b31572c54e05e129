"""The shopping list: all that is bought, in the packs that it comes in, and what it costs."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from templates_gen.bench.amounts import TEASPOON, dust, kitchen_grams, spoons, to_weigh
from templates_gen.bench.coats import ALMOND_PASTE, SOFT
from templates_gen.bench.cut_list import THROUGH, WAFER_SHEET
from templates_gen.bench.flowers import SOLD
from templates_gen.bench.packs import WHITE, Packs, holding, in_words, sizes, spare
from templates_gen.bench.rolled import FONDANT
from templates_gen.cakefile.cut_from import MODELLING
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.prices import Prices
from templates_gen.spreadsheet import csv_bytes
from templates_gen.terms import UK_TERMS, Terms
from templates_gen.units import decimal, in_trade, metres, money, nearest

Data = dict[str, Any]
KILO = 1000.0
DUST, GUM = "edible dust", "gum powder"
COLUMNS = ("what", "how much", "quantity", "unit", "packs", "cost")


@dataclass(frozen=True, slots=True)
class Bought:
    """Something to buy: how much in which unit, and its price if that is known.

    It is ``sold_in`` packs of such sizes, g, which may hold less by what is ``spare``; none where
    it is sold loose or by the piece. The price is for a pack, else for 1 kg, a metre, or one.
    """

    what: str
    quantity: float
    unit: str
    sold_in: tuple[float, ...] = ()
    price: float | None = None
    spare: float = 0.0

    @property
    def packs(self) -> tuple[Packs, ...]:
        """The packs that hold the quantity."""
        return holding(self.quantity - self.spare, self.sold_in) if self.sold_in else ()

    @property
    def measured(self) -> float:
        """The quantity as a kitchen measures it, rounded up."""
        if self.unit == "g":
            is_dust = self.what == DUST
            return math.ceil(self.quantity * 2) / 2 if is_dust else kitchen_grams(self.quantity)
        if self.unit == "tsp":
            return math.ceil(self.quantity * 4 - 1e-9) / 4
        return math.ceil(self.quantity * 100 - 1e-6) / 100

    @property
    def cost(self) -> float | None:
        """What the quantity that is shown costs, None where no price is known."""
        if self.price is None:
            return None
        packs = sum(each.number for each in self.packs)
        number = packs or self.measured / (KILO if self.unit == "g" else 1.0)
        return pence(number * self.price)


def pence(amount: float) -> float:
    """Return an amount of money to two decimals, half a penny rounded up."""
    return nearest(amount * 100 + 1e-6) / 100


def shopping(found: Data, estimates: Estimates, prices: Prices, place: str) -> tuple[Bought, ...]:
    """Return what is bought for a cake, from its bench list as data, in the packs of a place."""
    gum = found["gum"][:1] if prices.modelling_paste is None else ()
    return added_up(
        (
            *_pastes(found, estimates, prices, place),
            *(Bought(GUM, _sum(found["gum"], "tsp"), "tsp") for _ in gum),
            *_by_the_kilo(found, prices),
            *(Bought(DUST, _sum(found["paint"], "dust_g"), "g") for _ in found["paint"][:1]),
            *(
                Bought("clear alcohol", _sum(found["paint"], "alcohol_ml") / TEASPOON, "tsp")
                for _ in found["paint"][:1]
            ),
            *_by_the_piece(found, prices),
            *_for_flowers(found, prices),
        )
    )


def added_up(rows: Iterable[Bought]) -> tuple[Bought, ...]:
    """Return rows with what is the same thing bought once, and packs for all of it."""
    found: dict[tuple[str, str], Bought] = {}
    for row in rows:
        had = found.get((row.what, row.unit))
        if had:
            both = row.quantity + had.quantity, row.spare + had.spare
            row = replace(row, quantity=both[0], spare=both[1])
        found[row.what, row.unit] = row
    return tuple(found.values())


def _sum(rows: Sequence[Data], key: str) -> float:
    return sum(float(each[key] or 0.0) for each in rows)


def _pastes(found: Data, estimates: Estimates, prices: Prices, place: str) -> Iterator[Bought]:
    """Yield paste by the colour it is bought in; unpriced modelling paste is made of fondant."""
    price = {FONDANT: prices.fondant, MODELLING: prices.modelling_paste}
    few = {each["colour"] for each in found["paste_by_colour"] if not each["packs"]}
    for each in found["paste"]:
        kind = FONDANT if price[each["kind"]] is None else each["kind"]
        sold = sizes(estimates, place, is_priced=price[kind] is not None)
        mass = each["mass_g"]
        less, colour = spare(mass, estimates), WHITE if each["colour"] in few else each["colour"]
        yield Bought(f"{kind}, {colour}", mass, "g", sold, price[kind], less)


def _by_the_kilo(found: Data, prices: Prices) -> Iterator[Bought]:
    batter: dict[str, float] = defaultdict(float)
    filling: dict[str, float] = defaultdict(float)
    for each in found["baking"]:
        if each["batter_g"]:
            batter[f"batter, {each['kind']}"] += each["batter_g"]
        if each["filling_g"]:
            filling[f"filling, {each['filling']}"] += each["filling_g"]
    coating: dict[str, float] = defaultdict(float)
    for each in found["coating"]:
        coating[each["what"]] += each["mass_g"]
    price_of = {ALMOND_PASTE: prices.almond_paste, SOFT: prices.coating}
    rows = (
        *((what, mass, prices.batter) for what, mass in batter.items()),
        *((what, mass, prices.filling) for what, mass in filling.items()),
        *((what, mass, price_of[what]) for what, mass in coating.items()),
        *((each["what"], each["mass_g"], prices.icing) for each in found["icing_batches"]),
        ("icing for piping", found["piping_batch_g"], prices.icing),
    )
    for what, mass, price in rows:
        if mass:
            yield Bought(what, mass, "g", (), price)


def _by_the_piece(found: Data, prices: Prices) -> Iterator[Bought]:
    names = ("board", "drum", "dowel", "pillar", "spacer")
    price = {name: getattr(prices, name) for name in names}
    price |= {THROUGH: prices.dowel, WAFER_SHEET: prices.wafer_paper}
    for each in found["pieces"]:
        kind = each["kind"]
        if kind == "ribbon":
            metres = each["sizes_mm"][0] / KILO
            yield Bought(f"ribbon, {in_trade(each['sizes_mm'][1])}", metres, "m", (), prices.ribbon)
        elif kind in price:
            size = "" if kind == WAFER_SHEET else f", {each['size']}"  # whichever is sold
            yield Bought(f"{each['what']}{size}", each["number"], "", (), price[kind])


def _for_flowers(found: Data, prices: Prices) -> Iterator[Bought]:
    rows = [
        (f"wire, {each['gauge']} gauge, {SOLD}", each["number"], prices.wire)
        for each in found["wires"]
    ]
    rows.append(("holder for a stem, food-safe", found["holders"], prices.holder))
    for what, number, price in rows:
        if number:
            yield Bought(what, number, "", (), price)


@dataclass(frozen=True, slots=True)
class Cost:
    """What a cake costs: what is bought, the work, and each wedding portion, where it is known."""

    currency: str
    bought: float
    work: float | None
    unpriced: tuple[str, ...]
    per_portion: float | None

    @property
    def total(self) -> float:
        """All that is known of the cost."""
        return self.bought + (self.work or 0.0)


def cost(found: Data, rows: Sequence[Bought], prices: Prices, currency: str) -> Cost | None:
    """Return the cost of a cake in a currency; None where no price at all is given."""
    if not any(getattr(prices, name) for name in Prices.model_fields if name != "currency"):
        return None
    bought = sum(each.cost or 0.0 for each in rows)
    work = None if prices.hour is None else pence(found["hours_of_work"] * prices.hour)
    unpriced = [each.what for each in rows if each.cost is None] + ["work"] * (work is None)
    portions = sum(each["portions"]["wedding"] for each in found["servings"])
    each_portion = (bought + (work or 0.0)) / portions if portions else None
    return Cost(currency, bought, work, tuple(unpriced), each_portion)


def as_csv(rows: Sequence[Bought], terms: Terms = UK_TERMS) -> bytes:
    """Return a shopping list as CSV: how much in words of the place, and metric in numbers."""
    return csv_bytes([COLUMNS, *(tuple(map(terms.text, _cells(row))) for row in rows)])


def _cells(each: Bought) -> tuple[str, ...]:
    cost = "" if each.cost is None else money(each.cost)
    packs = in_words(each.packs) if each.packs else ""
    how_much = amount(each.what, each.quantity, each.unit)
    return each.what, how_much, decimal(each.measured, 2), each.unit, packs, cost


def amount(what: str, quantity: float, unit: str) -> str:
    """Write how much of something is bought."""
    if unit == "g":
        return dust(quantity) if what == DUST else to_weigh(quantity)
    if unit == "tsp":
        return spoons(quantity * TEASPOON)
    return metres(quantity) if unit == "m" else f"{decimal(quantity, 2)} {unit}".strip()
