"""The layers of cake that a tier is built of, with filling between them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.tier import CARD
from templates_gen.tiers.solid import Solid

ONE_LAYER = ("fruit cake",)
"""Kinds of cake that are not filled."""


@dataclass(frozen=True, slots=True)
class Layered:
    """So many ``layers`` of a ``kind`` of cake, each ``layer_depth`` deep, lengths in mm.

    Between them are fillings, each ``filling_depth`` deep, or cards, above the layers that are
    ``boarded``; all of it is as deep as the bare tier.
    """

    kind: str | None
    layers: int
    layer_depth: float
    filling_depth: float
    boarded: tuple[int, ...] = ()

    @property
    def boards(self) -> int:
        """How many boards lie between the layers."""
        return len(self.boarded)

    @property
    def levels(self) -> Iterator[tuple[float, float]]:
        """How high the base and the top of each layer are above the base of the tier, mm."""
        base = 0.0
        for number in range(1, self.layers + 1):
            yield base, base + self.layer_depth
            base += self.layer_depth + (CARD.mm if number in self.boarded else self.filling_depth)

    @property
    def fillings(self) -> Iterator[tuple[float, float]]:
        """From which height to which each filling reaches, mm; a board takes the place of one."""
        for number, ((_, top), (base, _)) in enumerate(pairwise(self.levels), 1):
            if number not in self.boarded:
                yield top, base


def kind_of(tier: Solid, estimates: Estimates) -> str | None:
    """Return the kind of cake of a tier; None where its density alone is known."""
    return tier.spec.inside.cake or (estimates.cake if isinstance(estimates.cake, str) else None)


def layered(tier: Solid, estimates: Estimates) -> Layered | None:
    """Return the layers of a tier, of a dummy None."""
    spec = tier.spec
    if spec.dummy:
        return None
    kind, parts = kind_of(tier, estimates), of_cakes(tier, estimates)
    depth = spec.depth.mm - (parts - 1) * CARD.mm
    usual = 1 if kind in ONE_LAYER else max(1, round(depth / parts / estimates.layer.mm))
    layers = max(parts, spec.inside.layers or usual * parts)
    # fillings take no more than half of a tier
    thick = min(spec.inside.filling_thickness.mm, depth / 2 / max(1, layers - parts))
    of_cake = depth - (layers - parts) * thick
    boarded = tuple(round(layers * part / parts) for part in range(1, parts))
    return Layered(kind, layers, of_cake / layers, thick, boarded)


def of_cakes(tier: Solid, estimates: Estimates) -> int:
    """Return of how many cakes a tier is built: by its boards; one that is carved by its depth."""
    carved = tier.spec.carving is not None and not tier.spec.has_own_tin
    if tier.inner_boards or not carved:
        return tier.inner_boards + 1
    return max(1, math.ceil(tier.spec.depth.mm / estimates.deepest.mm - 1e-3))
