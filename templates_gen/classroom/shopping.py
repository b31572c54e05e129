"""One shopping list for a whole class: what everyone's cake takes, added up."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import Any

from templates_gen.bench.shopping import Bought
from templates_gen.classroom.making import Made

Row = dict[str, Any]


def class_shopping(made: Sequence[Made]) -> tuple[Bought, ...]:
    """Return what is bought for all people together, in the order it is first needed.

    Packs are counted for the whole class: what one person leaves of a pack, another uses. Their
    size and price are those of the design, which all cakes share.
    """
    rows: dict[tuple[str, str], list[tuple[Row, float]]] = {}
    for each in made:
        pack = next(row["value"] for row in each.bench["estimates"] if row["name"] == "pack")
        for row in each.bench["shopping"]:
            rows.setdefault((row["what"], row["unit"]), []).append((row, pack))
    return tuple(_total(what, unit, found) for (what, unit), found in rows.items())


def _total(what: str, unit: str, found: Sequence[tuple[Row, float]]) -> Bought:
    quantity = math.fsum(row["quantity"] for row, _ in found)
    if not found[0][0]["packs"]:
        return Bought(what, quantity, unit, 0, _sum(row["cost"] for row, _ in found))
    packs = math.ceil(quantity / found[0][1] - 1e-9)
    prices = [None if row["cost"] is None else row["cost"] / row["packs"] for row, _ in found]
    price = None if None in prices else max(each for each in prices if each is not None)
    return Bought(what, quantity, unit, packs, None if price is None else packs * price)


def _sum(costs: Iterable[float | None]) -> float | None:
    """Add costs up; None where one is not known."""
    known = list(costs)
    return None if None in known else math.fsum(each for each in known if each is not None)


def hours(made: Sequence[Made]) -> float:
    """Return the hours of work of all people."""
    return math.fsum(each.bench["hours_of_work"] for each in made)
