"""Cautions the paper carries, each only where it applies. They defer to local rules."""

from __future__ import annotations

from templates_gen.cake.model import Cake

PAPER = (
    "Printed paper and ink are not made to touch food: keep the printed side away from it, put"
    " baking parchment or clean acetate between, and take every template off before serving."
)
PINS = "Pins, blades and wires are not food: count them in and out of the kitchen."
SUPPORT = (
    "Every tier that carries another needs food-grade dowels, a dummy too; tell whoever cuts the"
    " cake where they are. Figures here are no engineering: a large or unusual cake is for someone"
    " qualified. A tiered cake is heavy: lift it with two."
)
OPENING = (
    "A tier with a hole right through is a dummy, never cake. It carries the tiers above it only"
    " with dowels beside the hole, clear of it; that is no engineering: ask someone qualified."
)
STICKS = (
    "Sticks are not food: use food-safe ones, count them in and out of the kitchen, and tell"
    " whoever cuts the cake where they are."
)
FOOD = (
    "Keep perishable fillings to the local food-safety rules for time and temperature, and declare"
    " allergens as local law asks."
)


def cautions(cake: Cake) -> tuple[str, ...]:
    """Return the cautions that this cake calls for."""
    stacked = len(cake.tier) > 1
    eaten = not all(tier.dummy for tier in cake.tier)
    found = [
        (PAPER, True),
        (PINS, True),
        (STICKS, bool(cake.topper)),
        (SUPPORT, stacked),
        (OPENING, any(tier.opening for tier in cake.tier)),
        (FOOD, eaten),
    ]
    return tuple(text for text, applies in found if applies)
