"""The packs that fondant and other pastes are bought in: few, with little left over."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from templates_gen.bench.amounts import KILOGRAM, OUNCE, grams, metric
from templates_gen.cakefile.estimates import Estimates
from templates_gen.terms import UK
from templates_gen.units import counted, series

IN_POUNDS = {4: "4 oz", 24: "1½ lb", 32: "2 lb", 80: "5 lb", 160: "10 lb"}
NAMES = {ounces * OUNCE: name for ounces, name in IN_POUNDS.items()}
SIZES = {UK: (250.0, 500.0, 1000.0, 2500.0, 5000.0), "us": tuple(NAMES)}
"""The sizes of packs in each place, g: common practice, no source. The least divides all."""
PRICED = {UK: KILOGRAM, "us": 32 * OUNCE}
"""The size of a pack that a price is given for and no size, g, by the place."""
SHARE = 1 / 3
"""How much of the waste may be missing in packs, so that none is opened for a scrap: our rule."""


TINTED = 100.0
"""Grams of a colour below which white paste is coloured, and none bought: common practice, no
source."""
WHITE = "white"


@dataclass(frozen=True, slots=True)
class Packs:
    """A number of packs of one size."""

    number: int
    size_g: float


def sizes(estimates: Estimates, place: str, *, is_priced: bool) -> tuple[float, ...]:
    """Return the sizes that paste is bought in, g; a price is for a pack of one size."""
    if estimates.pack is not None:
        return (estimates.pack,)
    return (PRICED[place],) if is_priced else SIZES[place]


def tinted(masses: Mapping[str, float], sold: Iterable[float]) -> frozenset[str]:
    """Return the colours of which so little is needed, g, that white paste is coloured for them."""
    least = min(TINTED, *sold)
    return frozenset(name for name, mass in masses.items() if mass < least and name != WHITE)


def spare(mass: float, estimates: Estimates) -> float:
    """Return how much less packs may hold, g, than a mass that has waste in it."""
    return SHARE * mass * estimates.waste / (100 + estimates.waste)


def holding(mass: float, sold: Sequence[float]) -> tuple[Packs, ...]:
    """Return the packs, largest first, that hold so many grams, of the sizes that are sold.

    A pack counts for what it holds and for as much as the smallest more; what counts for least is
    chosen: our rule.
    """
    unit = min(sold)
    held = [round(size / unit) for size in sold]
    # what holds so many units: all that it counts for, its packs, the largest of them
    best = [(0, 0, 0)]
    for needed in range(1, max(1, math.ceil(mass / unit - 1e-9)) + 1):
        rest = ((size, best[max(0, needed - size)]) for size in held)
        best.append(
            min(
                ((count + size + 1, number + 1, size) for size, (count, number, _) in rest),
                key=lambda each: (each[0], each[1], -each[2]),
            )
        )
    chosen: Counter[int] = Counter()
    left = len(best) - 1
    while left > 0:
        chosen[best[left][2]] += 1
        left -= best[left][2]
    by_size = sorted(zip(held, sold, strict=True), reverse=True)
    return tuple(Packs(chosen[size], grams) for size, grams in by_size if chosen[size])


def in_words(found: Iterable[Packs]) -> str:
    """Write packs: ``2 packs of 1 kg and 1 of 250 g``."""
    first, *others = found
    words = [f"{counted(first.number, 'pack')} of {size_name(first.size_g)}"]
    return series([*words, *(f"{each.number} of {size_name(each.size_g)}" for each in others)])


def size_name(mass: float) -> str:
    """Write the size of a pack as it is sold: ``1 kg``, ``2 lb``."""
    sold = (name for size, name in NAMES.items() if math.isclose(size, mass, abs_tol=0.5))
    return next(sold, metric(mass) if math.isclose(mass, round(mass)) else grams(mass))
