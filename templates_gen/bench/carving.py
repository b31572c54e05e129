"""What is carved: the tin of each layer, what is cut off it, where a board lies inside."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.bench.amounts import MM3_PER_ML
from templates_gen.bench.inside import tins_for
from templates_gen.cakefile.estimates import CAKES, Estimates
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.tiers.carving import CarvedLayer, Tin, carved_layers, in_tins, section
from templates_gen.tiers.layered import layered
from templates_gen.tiers.solid import Solid


@dataclass(frozen=True, slots=True)
class Carved:
    """A layer that is carved: its widths at base and top, mm, and the cake cut off it, g."""

    tier: str
    layer: CarvedLayer
    base_across: float
    top_across: float
    cut_off: float


def carved(stack: DecoratedStack) -> tuple[Carved, ...]:
    """Return every layer of a cake that is carved, from the base up."""
    return tuple(
        Carved(
            tier.name,
            layer,
            _across(tier, layer.base),
            _across(tier, layer.top),
            layer.cut_off / MM3_PER_ML * cake_density(tier, stack.estimates),
        )
        for tier in stack.tiers
        for layer in carved_layers(tier, stack.estimates)
    )


def tins(stack: DecoratedStack) -> Iterator[tuple[str, int, Tin]]:
    """Yield for each carved tier how many tins of which size it is baked in."""
    estimates = stack.estimates
    for tier in stack.tiers:
        cake = layered(tier, estimates)
        if cake is None:
            continue
        for tin, count in in_tins(carved_layers(tier, estimates)).items():
            yield tier.name, tins_for(cake, count, estimates), tin


def cake_density(tier: Solid, estimates: Estimates) -> float:
    """Return the density of the cake of a tier, without filling, g/cm3."""
    kind = tier.spec.inside.cake
    return CAKES[kind].value if kind else estimates.cake_density.value


def boards_inside(tier: Solid, estimates: Estimates) -> Iterator[tuple[float, tuple[float, float]]]:
    """Yield how high in a carved tier a board lies between its cakes, and how large it is, mm."""
    cake = layered(tier, estimates)
    layers = carved_layers(tier, estimates)
    for number in cake.boarded if cake and layers else ():
        height = layers[number - 1].top
        width, length = section(tier, height).bounds.size
        less = 2 * estimates.inner_gap.mm
        yield height, (width - less, length - less)


def _across(tier: Solid, z: float) -> float:
    edge = section(tier, z)
    return max(edge.bounds.size) if edge.commands else 0.0
