"""One shopping list for a whole class: what everyone's cake takes, added up."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import fields
from itertools import chain

from templates_gen.bench.shopping import Bought, added_up
from templates_gen.classroom.making import Made


def class_shopping(made: Sequence[Made]) -> tuple[Bought, ...]:
    """Return what is bought for all people together, by kind, in the order it is first needed.

    Packs are those for the whole class: what one person leaves of a pack, another uses. Their
    sizes and price are those of the design, which all cakes share.
    """
    rows = (
        Bought(**{each.name: row[each.name] for each in fields(Bought)})
        for one in made
        for row in one.lists.bench["shopping"]
    )
    kinds: dict[str, list[Bought]] = {}
    for each in added_up(rows):  # boards of all sizes stand together, however cakes differ
        kinds.setdefault(each.what.partition(",")[0], []).append(each)
    return tuple(chain.from_iterable(kinds.values()))


def hours(made: Sequence[Made]) -> float:
    """Return the hours of work of all people."""
    return math.fsum(each.lists.bench["hours_of_work"] for each in made)
