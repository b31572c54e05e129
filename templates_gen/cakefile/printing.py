"""How much of a cake is printed, chosen for one run instead of what its file says."""

from __future__ import annotations

from templates_gen.cakefile.model import Cake


def printed_whole(cake: Cake) -> Cake:
    """Return a cake of which every template is printed whole, but for tiers without sheets."""
    tiers = tuple(
        tier if tier.print == "none" else tier.model_copy(update={"print": None})
        for tier in cake.tier
    )
    return cake.model_copy(update={"print": "whole", "tier": tiers})
