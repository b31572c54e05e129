"""What tiers are coated with, and the thin coat before it."""

from __future__ import annotations

from templates_gen.bench.step import Step, in_fives
from templates_gen.cakefile.estimates import Estimates
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.tiers.layered import ONE_LAYER, kind_of

ALMOND_PASTE, SOFT = "almond paste (marzipan)", "buttercream or ganache"
"""What coats a fruit cake, and what coats any other: common practice, no source."""


def coated_with(tier: DecoratedTier, estimates: Estimates) -> str:
    """Say what a tier is coated with; almond paste is rolled out and cannot be combed."""
    is_rich = not tier.spec.dummy and kind_of(tier, estimates) in ONE_LAYER
    return ALMOND_PASTE if is_rich and tier.combed is None else SOFT


def crumb_coat(name: str, minutes: float) -> Step:
    """Return the step that coats a cake thinly."""
    words = "A thin coat to hold the crumbs; chill until firm."
    return Step("crumb coat", name, words, in_fives(minutes), "crumb coat")
