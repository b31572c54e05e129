"""How much of a cake is printed, chosen for one run instead of what its file says."""

from __future__ import annotations

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.kinds import Templates


def printed_whole(cake: Cake) -> Cake:
    """Return a cake of which every template is printed whole, but for what has no sheets."""
    tiers = tuple(
        tier if tier.print == "none" else tier.model_copy(update={"print": None})
        for tier in cake.tier
    )
    kept = {name: said for name, said in cake.templates if said == "none"}
    changed = {"print": "whole", "tier": tiers, "templates": Templates(**kept)}
    return cake.model_copy(update=changed)
