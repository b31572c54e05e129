"""The sheet of paste that covers top and side of a draped tier in one."""

from __future__ import annotations

from templates_gen.drawing.shapes.round import disc
from templates_gen.errors import geometry_at
from templates_gen.geometry.arc_fitting import from_path
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.tiers.solid import Solid

ALLOWED = "a plan that stays open when one sheet of paste goes down its side"


def drape_outline(tier: Solid) -> Outline:
    """Return the edge of the paste rolled out, to be laid with its middle on that of the top.

    The coated rim, as long as a slope makes it, grown by trim and by the longest way to the foot.
    Raises CakeError where it would close round a hole.
    """
    coated = tier.coated
    if tier.ball is not None:
        return disc(2 * (tier.ball.offset(tier.spec.coating_mm).meridian + tier.spec.trim.mm))
    top = coated.rim
    if coated.fall is not None:
        # a round one stays round, which takes a little more and can be drawn with the circle guide
        longer = max(coated.on_slope[0], coated.on_slope[3])
        lies = top.path().transformed(coated.on_slope)
        top = top.scaled(longer) if top.radius else from_path(lies)
    with geometry_at(tier.key("cover"), ALLOWED, 'write cover = "panelled"'):
        return offset(top, coated.side.longest + tier.spec.trim.mm)
