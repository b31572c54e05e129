"""How much paste of each kind and colour to weigh: as it is rolled out, and waste."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import TypeVar

from templates_gen.bench.amounts import MM3_PER_ML
from templates_gen.bench.rolled import Rolled
from templates_gen.cakefile.cut_from import MODELLING
from templates_gen.cakefile.estimates import Estimates


@dataclass(frozen=True, slots=True)
class Paste:
    """Paste of one kind and colour for a tier, grams: what lies on the cake, rolled, to weigh."""

    tier: str
    colour: str
    kind: str
    on_cake: float
    rolled: float
    mass: float

    @property
    def offcuts(self) -> float:
        """What is left over and can be kneaded again, grams."""
        return self.mass - self.on_cake


def weighed(volume_mm3: float, estimates: Estimates) -> float:
    """Return the grams of paste to weigh for so many mm3 rolled out, with waste."""
    return volume_mm3 / MM3_PER_ML * estimates.fondant * (1 + estimates.waste / 100)


def paste(found: Iterable[Rolled], estimates: Estimates) -> tuple[Paste, ...]:
    """Return the paste of each tier, by kind and colour, in the order of the templates."""
    return tuple(
        Paste(
            tier,
            colour,
            kind,
            sum(each.on_cake for each in parts) / MM3_PER_ML * estimates.fondant,
            sum(each.rolled for each in parts) / MM3_PER_ML * estimates.fondant,
            weighed(sum(each.rolled for each in parts), estimates),
        )
        for (tier, colour, kind), parts in _by(
            found, lambda each: (each.tier, each.colour, each.kind)
        ).items()
    )


T = TypeVar("T")
K = TypeVar("K", bound=Hashable)


def _by(found: Iterable[T], key: Callable[[T], K]) -> dict[K, list[T]]:
    """Return values by a key, both in the order in which they come."""
    parts: dict[K, list[T]] = defaultdict(list)
    for each in found:
        parts[key(each)].append(each)
    return parts


def by_colour(found: Sequence[Paste]) -> dict[str, float]:
    """Return grams of each colour for the whole cake."""
    return {
        colour: sum(each.mass for each in parts)
        for colour, parts in _by(found, lambda each: each.colour).items()
    }


def gum_by_colour(found: Sequence[Paste], estimates: Estimates) -> dict[str, float]:
    """Return level teaspoons of gum for the modelling paste of each colour."""
    return by_colour_of(found, MODELLING, lambda mass: gum_teaspoons(mass, estimates.gum))


def by_colour_of(
    found: Sequence[Paste], kind: str, amount: Callable[[float], float]
) -> dict[str, float]:
    """Return an amount for the paste of one kind, colour by colour."""
    masses = by_colour([each for each in found if each.kind == kind])
    return {colour: amount(mass) for colour, mass in masses.items()}


def gum_teaspoons(mass: float, to_each: float) -> float:
    """Return level teaspoons of gum for grams of paste, one ``to_each`` so many, in quarters."""
    return math.ceil(mass / to_each * 4 - 1e-9) / 4
