"""What a raised tier stands on: hollow pillars over the dowels, or one spacer hidden below it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from templates_gen.cakefile.supports import Dowels
from templates_gen.errors import Problem
from templates_gen.geometry.outline import Outline
from templates_gen.tiers.solid import Solid
from templates_gen.units import MM_PER_INCH, at_least, at_most, in_both

BESIDE = 5.0
"""Room between two pillars, and from a pillar to the edge of the board it carries, mm."""
HIDDEN = 2 * MM_PER_INCH
"""How much narrower than the board above a spacer is, so that it does not show: common practice, no
source."""


@dataclass(frozen=True, slots=True)
class Separator:
    """What lifts a tier ``height`` mm off the one below it.

    Pillars are ``thick`` mm and one stands over each dowel; a ``spacer`` has an outline like that
    of the board it carries.
    """

    height: float
    thick: float
    spacer: Outline | None = None

    @property
    def on_pillars(self) -> bool:
        """Whether dowels go on through pillars up to the board above."""
        return self.spacer is None


def separator_of(upper: Solid) -> Separator | None:
    """Return what a tier stands on, if it is raised."""
    spec = upper.spec
    if spec.raised is None:
        return None
    if spec.separator.kind == "pillars":
        return Separator(spec.raised.mm, spec.separator.pillar.mm)
    return Separator(spec.raised.mm, 0.0, upper.like_foot(spacer_size(upper)))


def spacer_size(upper: Solid) -> float:
    """Return how large the spacer under a raised tier is, mm, measured as the tier is."""
    board, own = upper.board_size, upper.spec.separator.spacer
    return own.mm if own else max(board - HIDDEN, board / 2)


def separator_problems(lower: Solid, upper: Solid) -> Iterator[Problem]:
    """Yield what cannot be: dowels in pillars no thicker than they, a spacer that shows."""
    found = separator_of(upper)
    if found is None:
        return
    dowel = (lower.spec.dowels or Dowels()).thickness.mm
    if found.spacer is None and found.thick <= dowel:
        yield Problem(
            upper.key("separator", "pillar"),
            f"pillars {in_both(found.thick)} thick over dowels of {in_both(dowel)}",
            "hollow pillars, thicker than the dowels in them",
            f"use thicker pillars, or thinner dowels in “{lower.name}”",
        )
    inset = lower.spec.dowels.inset if lower.spec.dowels else None
    least = found.thick / 2 + BESIDE
    if found.spacer is None and inset is not None and inset.mm < least:
        yield Problem(
            lower.key("dowels", "inset"),
            f"“{inset}” under pillars {in_both(found.thick)} thick",
            f"{at_least(least)} or more: the board above lies on the whole of a pillar",
            "use a larger inset, or thinner pillars",
        )
    if found.spacer is not None and spacer_size(upper) > upper.board_size + 1e-6:
        yield Problem(
            upper.key("separator", "spacer"),
            f"a spacer {in_both(spacer_size(upper))} wide",
            f"up to the board above it, {at_most(upper.board_size)}",
            "use a smaller spacer, so that it is hidden",
        )
