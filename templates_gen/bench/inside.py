"""The inside of a tier of cake: layers, fillings, tins and bakes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.tiers.carving import carved_layers, in_tins
from templates_gen.tiers.layered import ONE_LAYER, Layered, layered
from templates_gen.tiers.solid import Solid


@dataclass(frozen=True, slots=True)
class Inner:
    """The inside of a tier: its kind of cake, layers and fillings, lengths in mm.

    It is baked in so many ``tins`` and ``bakes``, and ``keeps`` so many hours; what is cut off to
    level each tin is not in ``layer_depth``. Between its parts lie so many ``boards``. In a layer
    so many cakes lie side by side as ``abreast`` says.
    """

    kind: str | None
    layers: int
    layer_depth: float
    filling: str
    filling_depth: float
    tins: int
    bakes: int
    at_once: int
    level: float
    keeps: float
    boards: int = 0
    abreast: int = 1

    @property
    def cake_depth(self) -> float:
        """How deep all layers of cake are, without filling, mm."""
        return self.layers * self.layer_depth

    @property
    def fillings(self) -> int:
        """How many fillings there are: none where a board lies between two layers."""
        return self.layers - 1 - self.boards

    @property
    def in_tins(self) -> tuple[tuple[int, float], ...]:
        """How many tins the cake rises in how high before it is levelled, mm, the deepest first.

        A layer comes out of a tin whole; one deeper than a tin out of several.
        """
        deep = self.tins // self.abreast
        if deep >= self.layers:
            return ((self.tins, self.cake_depth / deep + self.level),)
        each, over = divmod(self.layers, self.tins)
        groups = ((over, each + 1), (self.tins - over, each))
        return tuple((n, held * self.layer_depth + self.level) for n, held in groups if n)


def levelled(kind: str | None, estimates: Estimates) -> float:
    """Return how much is cut off each cake to level it, mm; a fruit cake is turned over instead."""
    if kind in ONE_LAYER:
        return 0.0
    return min(estimates.level.mm, estimates.tin.mm / 2)


def tins_for(cake: Layered, layers: int, estimates: Estimates) -> int:
    """Return how many tins of one size so many layers of a cake are baked in."""
    layer_depth = cake.layer_depth
    available = estimates.tin.mm - levelled(cake.kind, estimates)
    held = math.floor(available / layer_depth + 1e-9)
    return math.ceil(layers / held) if held else layers * math.ceil(layer_depth / available - 1e-9)


def filling_density(filling: str, estimates: Estimates) -> float:
    """Return the density of a filling, g/cm3."""
    return estimates.filling or FILLINGS[filling].density


def inner(tier: Solid, estimates: Estimates) -> Inner | None:
    """Return the inside of a tier, of a dummy None.

    A tin rises to its brim at the most, less what is levelled.
    """
    cake = layered(tier, estimates)
    if cake is None:
        return None
    level = levelled(cake.kind, estimates)
    of_each = in_tins(carved_layers(tier, estimates)).values() or (cake.layers,)
    tins = sum(tins_for(cake, count, estimates) for count in of_each)
    bakes = math.ceil(tins / estimates.tins_at_once)
    keeps = estimates.cake_keeps(cake.kind)
    return Inner(
        cake.kind,
        cake.layers,
        cake.layer_depth,
        tier.spec.inside.filling,
        cake.filling_depth,
        tins,
        bakes,
        estimates.tins_at_once,
        level,
        keeps,
        cake.boards,
    )
