"""A tier as a solid: its plan outline raised to a depth, grown by coating and paste."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from templates_gen.cake.model import Tier
from templates_gen.cake.slug import tier_slug
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import Key
from templates_gen.tiers.side import Side, UprightSide


@dataclass(frozen=True)
class Layer:
    """One surface of a tier: which it is, its outlines at rim and foot, its depth in mm."""

    surface: str
    rim: Outline
    foot: Outline
    depth: float

    @cached_property
    def side(self) -> Side:
        """The side of this surface."""
        return UprightSide(self.rim, self.depth)

    def grown(self, surface: str, by: float, *, above: float | None = None) -> Layer:
        """Return the surface with ``by`` mm more on its side, and as much or ``above`` on top."""
        higher = self.depth + (by if above is None else above)
        return Layer(surface, self.rim.grown(by), self.foot.grown(by), higher)


@dataclass(frozen=True)
class Solid:
    """A tier as it stands on the cake, with what was asked for it."""

    asked: Tier
    place: int
    name: str

    @property
    def slug(self) -> str:
        """The tier's name for ids and files."""
        return tier_slug(self.name, self.place)

    def key(self, *names: str) -> Key:
        """Return the key of one of the tier's values in the cake file."""
        return ("tier", self.place, *names)

    @cached_property
    def bare(self) -> Layer:
        """The cake or dummy itself."""
        outline = SHAPES[self.asked.shape](**self.asked.plan)
        return Layer("bare", outline, outline, self.asked.depth.mm)

    @cached_property
    def coated(self) -> Layer:
        """With its coating, on side and top."""
        return self.bare.grown("coated", self.asked.coating_mm)

    @cached_property
    def covered(self) -> Layer:
        """With coating and paste, on side and top."""
        return self.coated.grown("covered", self.asked.paste_mm)

    @cached_property
    def wrapped(self) -> Layer:
        """The middle of the paste on a panelled side: a bent strip keeps its length there.

        Neutral line: *Sheet and Plate Metal Work*, ch. XXXII. Top first: the side stands up to the
        upper face of the top disc; side first: up to the coated top.
        """
        paste = self.asked.paste_mm
        above = paste if self.asked.first == "top" else 0.0
        return self.coated.grown("mid-paste", paste / 2, above=above)

    @property
    def top(self) -> Layer:
        """The surface whose rim the top disc of a panelled tier has."""
        return self.coated if self.asked.first == "top" else self.covered

    @cached_property
    def board(self) -> Outline:
        """The board under the tier: the bare foot, or one like it of another size."""
        foot, size = self.bare.foot, self.asked.board
        return foot if size is None else foot.scaled(size.mm / foot.across)
