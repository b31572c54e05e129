"""The inside of a tier of cake: layers, fillings, tins and bakes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from templates_gen.cakefile.estimates import CAKES, CakeKind, Estimates
from templates_gen.tiers.solid import Solid

ONE_LAYER = ("fruit cake",)
"""Kinds of cake that are not filled."""
LAYER = 30.0
"""How deep a layer of cake is where their number is left out, mm: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Inner:
    """The inside of a tier: its kind of cake, layers and fillings, lengths in mm.

    It is baked in so many ``tins`` and ``bakes``, and ``keeps`` so many hours; what is cut off to
    level each tin is not in ``layer_depth``.
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

    @property
    def cake_depth(self) -> float:
        """How deep all layers of cake are, without filling, mm."""
        return self.layers * self.layer_depth

    @property
    def fillings(self) -> int:
        """How many fillings there are."""
        return self.layers - 1

    @property
    def tin_depth(self) -> float:
        """How high the cake rises in each tin before it is levelled, mm."""
        return self.cake_depth / self.tins + self.level


def kind_of(tier: Solid, estimates: Estimates) -> str | None:
    """Return the kind of cake of a tier; None where its density alone is known."""
    return tier.spec.inside.cake or (estimates.cake if isinstance(estimates.cake, str) else None)


def inner(tier: Solid, estimates: Estimates) -> Inner | None:
    """Return the inside of a tier, of a dummy None.

    A tin rises to its brim at the most, less what is levelled.
    """
    spec = tier.spec
    if spec.dummy:
        return None
    kind, depth = kind_of(tier, estimates), spec.depth.mm
    usual = 1 if kind in ONE_LAYER else max(1, round(depth / LAYER))
    layers = spec.inside.layers or usual
    # fillings take no more than half of a tier
    thick = min(spec.inside.filling_thickness.mm, depth / 2 / max(1, layers - 1))
    of_cake = depth - (layers - 1) * thick
    level = min(estimates.level.mm, estimates.tin.mm / 2)
    tins = math.ceil(of_cake / (estimates.tin.mm - level) - 1e-9)
    bakes = math.ceil(tins / estimates.tins_at_once)
    keeps = CAKES[kind].keeps if kind else CakeKind(0.0).keeps
    return Inner(
        kind,
        layers,
        of_cake / layers,
        spec.inside.filling,
        thick,
        tins,
        bakes,
        estimates.tins_at_once,
        level,
        keeps,
    )
