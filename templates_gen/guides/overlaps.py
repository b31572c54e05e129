"""What lies on what on a side: said of everything that is not moved apart by itself."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from templates_gen.errors import PlanWarning
from templates_gen.geometry.areas.lines import Overlap
from templates_gen.geometry.path import line
from templates_gen.guides.guide import Guide
from templates_gen.tiers.solid import Solid


def overlaps(tier: Solid, found: Sequence[Guide]) -> Iterator[PlanWarning]:
    """Yield a warning for each two guides of the covered side that lie on each other.

    Drips and designs go round together as they are meant to; what has its own place, lettering and
    small pieces, is held against them all, and letters against the corners of the tier.
    """
    girth = tier.covered.side.girth
    turns = (-girth, 0.0, girth)
    named = [(guide, _on(guide, turns)) for guide in found if guide.name]
    for (below, under), (above, over) in combinations(named, 2):
        if above.is_placed and over.meets(under):
            text = (
                f"{tier.name}: {above.name} and {below.name} overlap; move one of them if you can."
            )
            yield PlanWarning(above.key, text)
    side = tier.covered.side
    edges = [line((u, 0.0), (u, side.foot_at(u))) for u in tier.covered.rim.corners]
    corners = Overlap(edges, turns)
    for guide in found:
        if guide.is_placed and edges and _on(guide, turns).meets(corners):
            text = f"{tier.name}: {guide.name} runs over a corner, where letters bend."
            yield PlanWarning(guide.key, text)


def _on(guide: Guide, turns: Sequence[float]) -> Overlap:
    return Overlap([stroke.path for stroke in guide.drawing.strokes], turns)
