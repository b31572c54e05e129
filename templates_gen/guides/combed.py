"""A side that is combed: its teeth, and its ridges and grooves on pictures."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.drawing.combs import COMBS, Tooth, mean_depth, mean_square
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import geometry_at
from templates_gen.geometry.path import line
from templates_gen.guides.guide import Guide
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Solid

ALLOWED = "a line from left to right as SVG path data, which does not turn back"
ADVICE = 'write for example line = "M0 0 C 30 40 70 40 100 0"'


@dataclass(frozen=True, slots=True)
class Combed:
    """So many teeth of one form one above the other, each ``pitch`` mm tall, ``groove`` mm deep.

    They shape a side of ``height`` mm; ``scraped`` mm3 of its coating come off.
    """

    tooth: Tooth
    count: int
    pitch: float
    groove: float
    height: float
    scraped: float


def combed(tier: Solid) -> Combed | None:
    """Return how a side is combed, if it is. Raises CakeError for a contour that turns back."""
    spec, side = tier.spec.comb, tier.coated.side
    if spec is None or tier.spec.cover != "none" or not tier.lies_flat:
        return None
    with geometry_at(tier.key("comb", "line"), ALLOWED, ADVICE):
        tooth = COMBS[spec.profile](spec.line)
    height = side.depth
    count = 1 if spec.profile == "contour" else max(1, round(height / spec.pitch.mm))
    groove = spec.groove.mm
    return Combed(tooth, count, height / count, groove, height, _scraped(tooth, groove, side))


def _scraped(tooth: Tooth, groove: float, side: Side) -> float:
    """Return what comes off a side, mm3.

    A line d mm inside a plan is 2 pi d shorter (Steiner), so that a groove takes less than its
    depth × the side: pi d² less for each mm of height.
    """
    narrower = math.pi * side.depth * mean_square(tooth) * groove**2
    return mean_depth(tooth) * groove * side.area - narrower


def guides(tier: Solid, found: Combed | None) -> Iterator[Guide]:
    """Yield the middle of each groove, for pictures; as all else lies on it, it has no name."""
    if found is None or tier.coated.fall is not None:
        return
    layer, deepest = tier.covered, max(found.tooth, key=lambda place: place[1])
    levels = [found.height - (number + deepest[0]) * found.pitch for number in range(found.count)]
    lines = (line((0.0, v), (layer.side.girth, v)) for v in levels)
    yield Guide(
        layer,
        Drawing(tuple(Stroke(path, Role.PIPE) for path in lines)),
        min(levels),
        max(levels),
        on_collar=False,
        note=f"{found.count} grooves",
        key=tier.key("comb"),
    )
