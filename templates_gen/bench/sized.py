"""How long work takes on a tier of some size: part of it grows with what there is to cover.

So does what is mixed for a bake with its tins. Nothing was published: that half of the time grows
is our estimate, changed by ``grows``.
"""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.cakefile.estimates import Estimates
from templates_gen.tiers.carving import tin_area
from templates_gen.tiers.solid import Solid
from templates_gen.units import MM_PER_INCH

ACROSS, DEPTH = 6 * MM_PER_INCH, 4 * MM_PER_INCH
"""The round tier, mm, that minutes of work are given for."""
USUAL = math.pi * ACROSS * (ACROSS / 4 + DEPTH)
"""The surface of its top and side, mm2."""
GROW = (
    *("level", "fill", "carve", "crumb_coat", "coat", "comb", "cover", "clean", "drum"),
    *("design", "strips", "paint"),
)
"""Minutes that grow with the surface that is worked on."""
BAKE = ("bake",)
"""Minutes that grow with the tins, however deep a tier is that is built of what comes out."""


def of_tier(estimates: Estimates, tier: Solid) -> Estimates:
    """Return estimates with the minutes that a tier of this size takes."""
    area = tin_area(tier, estimates)
    tin = area + 2 * math.sqrt(math.pi * area) * DEPTH  # as if it were round
    baked = _longer(estimates, BAKE, tin)
    return of_surface(baked, tier.bare.top_area + tier.bare.side.area)


def of_surface(estimates: Estimates, surface: float) -> Estimates:
    """Return estimates with the minutes for a surface, mm2."""
    return _longer(estimates, GROW, surface)


def _longer(estimates: Estimates, names: Iterable[str], surface: float) -> Estimates:
    times, given = 1 + estimates.grows / 100 * (surface / USUAL - 1), estimates.minutes
    longer = {name: getattr(given, name) * times for name in names}
    return estimates.model_copy(update={"minutes": given.model_copy(update=longer)})
