"""The layers of cake that a tier is built of, with filling between them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.cakefile.estimates import Estimates
from templates_gen.tiers.solid import Solid

ONE_LAYER = ("fruit cake",)
"""Kinds of cake that are not filled."""


@dataclass(frozen=True, slots=True)
class Layered:
    """So many ``layers`` of a ``kind`` of cake, each ``layer_depth`` deep, lengths in mm.

    Between them are fillings, each ``filling_depth`` deep, or ``boards``; all of it is as deep as
    the bare tier.
    """

    kind: str | None
    layers: int
    layer_depth: float
    filling_depth: float
    boards: int = 0

    @property
    def levels(self) -> Iterator[tuple[float, float]]:
        """How high the base and the top of each layer are above the base of the tier, mm."""
        for number in range(self.layers):
            base = number * (self.layer_depth + self.filling_depth)
            yield base, base + self.layer_depth


def kind_of(tier: Solid, estimates: Estimates) -> str | None:
    """Return the kind of cake of a tier; None where its density alone is known."""
    return tier.spec.inside.cake or (estimates.cake if isinstance(estimates.cake, str) else None)


def layered(tier: Solid, estimates: Estimates) -> Layered | None:
    """Return the layers of a tier, of a dummy None."""
    spec = tier.spec
    if spec.dummy:
        return None
    kind, parts = kind_of(tier, estimates), tier.inner_boards + 1
    depth = tier.part_depth * parts
    usual = 1 if kind in ONE_LAYER else max(1, round(tier.part_depth / estimates.layer.mm))
    layers = spec.inside.layers or usual * parts
    # fillings take no more than half of a tier
    thick = min(spec.inside.filling_thickness.mm, depth / 2 / max(1, layers - parts))
    of_cake = depth - (layers - parts) * thick
    return Layered(kind, layers, of_cake / layers, thick, tier.inner_boards)
