"""How long work takes on a tier of some size: part of it grows with what there is to cover.

Nothing was published: that half of the time grows is our estimate, changed by ``grows``.
"""

from __future__ import annotations

import math

from templates_gen.cakefile.estimates import Estimates
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


def of_tier(estimates: Estimates, tier: Solid) -> Estimates:
    """Return estimates with the minutes that a tier of this size takes."""
    return of_surface(estimates, tier.bare.top_area + tier.bare.side.area)


def of_surface(estimates: Estimates, surface: float) -> Estimates:
    """Return estimates with the minutes for a surface, mm2."""
    times, given = 1 + estimates.grows / 100 * (surface / USUAL - 1), estimates.minutes
    longer = {name: getattr(given, name) * times for name in GROW}
    return estimates.model_copy(update={"minutes": given.model_copy(update=longer)})
