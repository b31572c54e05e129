"""A tier with everything that is marked on it, each worked out once, when it is first needed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.tier import Tier
from templates_gen.geometry.outline import Outline
from templates_gen.guides import combed, designs, drips, lettering, panels, scatter
from templates_gen.guides.combed import Combed
from templates_gen.guides.drips import DripRow
from templates_gen.guides.guide import Guide
from templates_gen.guides.keep_clear import closed_areas, cut_out
from templates_gen.guides.lettering import Lettered
from templates_gen.guides.openings import Openings, openings_of
from templates_gen.guides.panels import PanelRow
from templates_gen.guides.scatter import Scattered
from templates_gen.memo import NOTHING_KEPT, Memo
from templates_gen.tiers.drape import drape_outline
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.stack import Stack, stack_of


@dataclass(frozen=True, eq=False)  # equal as solids are
class DecoratedTier(Solid):
    """A tier as a solid, with what is on it. Every property raises CakeError where it cannot be.

    Letterings and small pieces are by their places in the cake file.
    """

    @cached_property
    def openings(self) -> Openings:
        """The hole through the tier, on each of its surfaces."""
        return openings_of(self)

    @cached_property
    def drape(self) -> Outline:
        """The edge of the one sheet that covers it."""
        return drape_outline(self)

    @cached_property
    def panel_row(self) -> PanelRow | None:
        """Its panels."""
        spec = self.spec.panels
        return panels.panel_row(self, spec) if spec and self.lies_flat else None

    @cached_property
    def combed(self) -> Combed | None:
        """How its coating is combed."""
        return combed.combed(self)

    @cached_property
    def drip_row(self) -> DripRow | None:
        """Its drips."""
        spec = self.spec.drips
        return drips.drip_row(self, spec, self.openings) if spec and self.lies_flat else None

    @cached_property
    def letterings_on_side(self) -> Mapping[int, Lettered]:
        """The names and messages on its side."""
        return lettering.on_sides(self, self.openings)

    @cached_property
    def letterings_on_top(self) -> Mapping[int, Lettered]:
        """The names and messages on its top."""
        return lettering.on_tops(self)

    @cached_property
    def scatters(self) -> Mapping[int, Scattered]:
        """The small pieces on its side, clear of all else that has its place there."""
        if not self.spec.scatter:
            return {}
        letters = [path for each in self.letterings_on_side.values() for path in each.on_side]
        taken = closed_areas(self, self.openings, self.drip_row, letters)
        return scatter.scatters(self, taken)

    @cached_property
    def marked(self) -> tuple[Guide, ...]:
        """What is on its side, whole, what is nearer to the eye later; also over an opening."""
        return tuple(self._marked())

    @cached_property
    def guides(self) -> tuple[Guide, ...]:
        """What is on its side as guides show it: nothing lies in an opening."""
        return tuple(self._beside_openings(guide) for guide in self.marked)

    def _marked(self) -> Iterator[Guide]:
        """Yield every guide: one line for each kind that there is."""
        if not self.lies_flat:
            return
        yield from panels.guides(self, self.panel_row)
        yield from drips.guides(self, self.drip_row)
        yield from combed.guides(self, self.combed)
        yield from designs.guides(self)
        yield from lettering.guides(self, self.letterings_on_side)
        yield from scatter.guides(self, self.scatters)

    def _beside_openings(self, guide: Guide) -> Guide:
        holes = self.openings.on(guide.layer)
        return replace(guide, drawing=cut_out(guide.drawing, holes, guide.layer.side.girth))


DecoratedStack = Stack[DecoratedTier]
"""The tiers of a cake one upon the other, with what is on them."""


def build_stack(cake: Cake, memo: Memo = NOTHING_KEPT) -> DecoratedStack:
    """Return the tiers of a cake one upon the other, each with what is on it."""

    def make(spec: Tier, index: int, name: str) -> DecoratedTier:
        return memo.get(
            (DecoratedTier, spec, index, name), lambda: DecoratedTier(spec, index, name)
        )

    return stack_of(cake, make, memo)
