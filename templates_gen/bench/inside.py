"""The inside of a tier of cake: layers, fillings, tins and bakes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.inside import FILLINGS
from templates_gen.tiers.carving import carved_layers, in_tins, tin_area, tin_to_trim
from templates_gen.tiers.layered import ONE_LAYER, Layered, layered
from templates_gen.tiers.solid import Solid

BETWEEN_TINS = 20.0
"""Room left for the heat between two tins, mm: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Bake:
    """Tins that go into the oven together: what each is called, and its ``area``, mm2.

    The cake is ``risen`` so high in each of them before it is levelled, mm, the highest first.
    """

    tin: str
    area: float
    risen: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Inner:
    """The inside of a tier: its kind of cake, layers and fillings, lengths in mm.

    It ``keeps`` so many hours; what is cut off to level each tin is not in ``layer_depth``. Between
    its parts lie so many ``boards``. In a layer so many cakes lie side by side as ``abreast`` says.
    """

    kind: str | None
    layers: int
    layer_depth: float
    filling: str
    filling_depth: float
    bakes: tuple[Bake, ...]
    level: float
    keeps: float
    boards: int = 0
    abreast: int = 1

    @property
    def tins(self) -> int:
        """How many tins it is baked in."""
        return sum(len(bake.risen) for bake in self.bakes)

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
        """How many tins the cake rises in how high before it is levelled, mm, the deepest first."""
        cakes = self.layers * self.abreast
        high = risen(cakes, self.tins, self.layer_depth, self.level)
        return tuple((len(list(alike)), each) for each, alike in groupby(high))


def risen(layers: int, tins: int, layer_depth: float, level: float) -> tuple[float, ...]:
    """Return how high the cake rises in each tin before it is levelled, mm, the highest first.

    A layer comes out of a tin whole; one deeper than a tin out of several.
    """
    if tins >= layers:
        return (layers * layer_depth / tins + level,) * tins
    each, over = divmod(layers, tins)
    held = (each + 1,) * over + (each,) * (tins - over)
    return tuple(number * layer_depth + level for number in held)


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
    of_each = [
        (layers, (tin.across, tin.across), f"{tin} tin", tin.area)
        for tin, layers in in_tins(carved_layers(tier, estimates)).items()
    ]
    if not of_each:
        tin = tin_to_trim(tier)
        name = f"{tin} tin" if tin else "tin"
        of_each = [(cake.layers, tin_size(tier), name, tin_area(tier, estimates))]
    level = levelled(cake.kind, estimates)
    return Inner(
        cake.kind,
        cake.layers,
        cake.layer_depth,
        tier.spec.inside.filling,
        cake.filling_depth,
        tuple(
            bake
            for layers, size, name, area in of_each
            for high in (risen(layers, tins_for(cake, layers, estimates), cake.layer_depth, level),)
            for bake in in_bakes(high, on_shelf(size, estimates), name, area, estimates)
        ),
        level,
        estimates.cake_keeps(cake.kind),
        cake.boards,
    )


def tin_size(tier: Solid) -> tuple[float, float]:
    """Return how wide and long the tins of a tier that is not carved are, mm."""
    tin, bare = tin_to_trim(tier), tier.bare
    if tin is not None:
        return tin.across, tin.across
    box = max((bare.foot, bare.rim), key=lambda outline: outline.area).bounds
    return box.width, box.height


def on_shelf(size: tuple[float, float], estimates: Estimates) -> int:
    """Return how many tins of a size in mm fit on the oven shelf, either way round."""
    shelf = estimates.shelf_width.mm, estimates.shelf_depth.mm
    ways = (
        math.prod(
            math.floor((room + BETWEEN_TINS) / (side + BETWEEN_TINS) + 1e-9)
            for room, side in zip(shelf, sides, strict=True)
        )
        for sides in (size, size[::-1])
    )
    return max(ways)


def in_bakes(
    high: Sequence[float], fit: int, name: str, area: float, estimates: Estimates
) -> Iterator[Bake]:
    """Yield the bakes of tins of one size, mm2, so many of which ``fit`` on the oven shelf."""
    at_once = estimates.tins_at_once or max(1, fit)
    for first in range(0, len(high), at_once):
        yield Bake(name, area, tuple(high[first : first + at_once]))
