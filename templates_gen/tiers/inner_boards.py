"""Boards inside a deep tier: it is built of several cakes, each on dowels in the one below."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.cakefile.supports import Dowels
from templates_gen.cakefile.tier import CARD
from templates_gen.geometry.box import Point
from templates_gen.geometry.outline import Outline
from templates_gen.tiers.dowels import Bearing, Support, spread
from templates_gen.tiers.solid import Solid


@dataclass(frozen=True, slots=True)
class InnerBoard:
    """A board inside a tier: the height of its upper face over the foot, mm, and its outline.

    ``support`` are the dowels in the cake below it, in the frame of the tier.
    """

    top: float
    outline: Outline
    support: Support

    @property
    def thickness(self) -> float:
        """How thick it is, mm: a card."""
        return CARD.mm


def inner_boards(tier: Solid, through: Point | None = None) -> tuple[InnerBoard, ...]:
    """Return the boards inside a tier, from the bottom up.

    The cakes between them are equally deep; cakes and boards together are as deep as the tier.
    ``through`` is where a dowel through all tiers stands.
    """
    return tuple(_board(tier, number, through) for number in range(tier.inner_boards))


def _board(tier: Solid, number: int, through: Point | None) -> InnerBoard:
    low = tier.part_depth * (number + 1) + CARD.mm * number
    bare = tier.bare
    outline = bare.foot.scaled(1 - (1 - bare.rim.across / bare.foot.across) * low / bare.depth)
    edge = outline.path()
    own = Dowels(thickness=(tier.spec.dowels or Dowels()).thickness)
    support = spread(own, outline.across, Bearing(edge, edge, edge), tier.part_depth, through)
    return InnerBoard(low + CARD.mm, outline, support)
