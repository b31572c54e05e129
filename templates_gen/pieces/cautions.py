"""Cautions the paper carries, each only where it applies. They defer to local rules."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from templates_gen.cakefile.cut_from import WAFER, CutOut
from templates_gen.cakefile.tier import Tier
from templates_gen.guides.decorated import DecoratedStack


@dataclass(frozen=True, slots=True)
class Caution:
    """A caution, the stacks it is for, and the published source it follows, if there is one."""

    says: str
    applies: Callable[[DecoratedStack], bool]
    source: str = ""

    @property
    def text(self) -> str:
        """The caution, its source in brackets."""
        return f"{self.says} ({self.source})" if self.source else self.says


def _always(stack: DecoratedStack) -> bool:
    return True


def _on_a_tier(is_so: Callable[[Tier], object]) -> Callable[[DecoratedStack], bool]:
    """Return the test whether something holds for any tier of a stack."""
    return lambda stack: any(is_so(tier.spec) for tier in stack.tiers)


def _has_wafer(stack: DecoratedStack) -> bool:
    """Tell whether anything is cut from wafer paper."""
    scattered = (spec for tier in stack.tiers for spec in tier.spec.scatter)
    along = (line.spec for line in stack.cascades)
    found: tuple[CutOut, ...] = (*stack.flowers, *along, *scattered)
    return any(spec.material == WAFER for spec in found)


STICKS = (
    "Sticks are not food: use food-safe ones, count them in and out of the kitchen, and tell"
    " whoever cuts the cake where they are."
)
WIRED = (
    "No wire goes into a cake: bind the stems of sugar flowers, stand them in a food-safe holder,"
    " and lift holder and flowers out before the cake is cut."
)
PLANTS = (
    "Real flowers and leaves go on or beside a cake only if they were grown and sold as food: many"
    " plants, such as lilies, anemones and poppies, are not food, and some are poisonous."
)
WAFER_DRY = (
    "Wafer paper curls in moist air and melts where it is wet: keep it in a closed bag, cut it dry,"
    " set it late, and do not chill the cake after it. Only sheets sold as food, with a list of"
    " ingredients, may be eaten."
)
LETTERS = (
    "A cake of letters is long and tears where it is narrow: build it on a board that does not"
    " bend, never move it off that, and carry it level, two people to a long one."
)
STACKED = (
    "Every tier that carries another needs food-grade dowels, a dummy too: count them in and out,"
    " and tell whoever cuts the cake where they are. Figures here are rules of thumb, not"
    " structural advice: a large or unusual cake is for someone qualified. A tiered cake is heavy:"
    " two people lift it."
)
OPENING = (
    "A tier with a hole right through is a dummy, never cake. It carries the tiers above it only"
    " with dowels beside the hole, clear of it; this is not structural advice: ask someone"
    " qualified."
)
CAUTIONS = (
    Caution(
        "Printed paper and ink are not made to touch food: keep the printed side away from it, put"
        " baking parchment or clean acetate between, and take every template off before serving.",
        _always,
        "rules: 21 CFR 176.170; Regulation (EC) 1935/2004",
    ),
    Caution("Pins, blades and wires are not food: count them in and out of the kitchen.", _always),
    Caution(
        "Blades cut: cut away from yourself, and keep them from children.",
        _on_a_tier(lambda tier: tier.cover != "none"),
    ),
    Caution(STICKS, lambda stack: bool(stack.toppers)),
    Caution(WIRED, lambda stack: any(each.wired for each in stack.flowers)),
    Caution(PLANTS, lambda stack: bool(stack.flowers or stack.cascades)),
    Caution(WAFER_DRY, _has_wafer),
    Caution(LETTERS, lambda stack: bool(stack.letter_cakes)),
    Caution(STACKED, lambda stack: len(stack.tiers) > 1),
    Caution(OPENING, _on_a_tier(lambda tier: tier.opening)),
    Caution(
        "Only dusts and glitters sold as edible, with a list of ingredients, may be eaten:"
        " “non-toxic” is not edible.",
        _on_a_tier(lambda tier: tier.paint),
        "FDA advice to bakers; UK FSA on glitters and dusts; CDC MMWR 70(43) 1501–1504",
    ),
    Caution(
        "Paint with alcohol burns, and so do its vapours: no flame and no spark, fresh air, and let"
        " it dry before the cake goes near candles.",
        _on_a_tier(lambda tier: tier.paint),
        "ethanol takes fire from 55 °F (13 °C), and from 3.3 % in air: NIOSH Pocket Guide",
    ),
    Caution(
        "Keep perishable fillings to the local food-safety rules for time and temperature, and"
        " declare allergens as local law asks.",
        lambda stack: any(not tier.spec.dummy for tier in stack.tiers) or bool(stack.letter_cakes),
        "often no more than two hours above 40 °F (5 °C): NIH; local rules differ",
    ),
)
"""Every caution, in the order in which it is printed."""


def cautions(stack: DecoratedStack) -> tuple[str, ...]:
    """Return the cautions that this cake calls for."""
    return tuple(caution.text for caution in CAUTIONS if caution.applies(stack))
