"""A tier as a solid: its plan outline raised to a depth, grown by coating and paste."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.cake.model import Tier
from templates_gen.cake.slug import slug
from templates_gen.errors import Key
from templates_gen.tiers.outline import SHAPES, Outline
from templates_gen.tiers.side import Side, UprightSide


@dataclass(frozen=True, slots=True)
class Layer:
    """One surface of a tier: which it is, its outline, its depth in mm."""

    surface: str
    outline: Outline
    depth: float

    @property
    def side(self) -> Side:
        """The side of this surface."""
        return UprightSide(self.outline, self.depth)


@dataclass(frozen=True, slots=True)
class Solid:
    """A tier as it stands on the cake, with what was asked for it."""

    asked: Tier
    place: int
    name: str

    @property
    def slug(self) -> str:
        """The tier's name for ids and files."""
        return slug(self.name)

    def key(self, *names: str) -> Key:
        """Return the key of one of the tier's values in the cake file."""
        return ("tier", self.place, *names)

    @property
    def bare(self) -> Layer:
        """The cake or dummy itself."""
        return Layer("bare", SHAPES[self.asked.shape](self.asked), self.asked.depth.mm)

    @property
    def coated(self) -> Layer:
        """With its coating, on side and top."""
        return self._grown("coated", self.bare, self.asked.coating_mm)

    @property
    def covered(self) -> Layer:
        """With coating and paste, on side and top."""
        return self._grown("covered", self.coated, self.asked.paste_mm)

    @property
    def wrapped(self) -> Layer:
        """The middle of the paste on a panelled side: a bent strip keeps its length there.

        Neutral line: *Sheet and Plate Metal Work*, ch. XXXII. Top first: the side stands up to the
        upper face of the top disc; side first: up to the coated top.
        """
        top_first = self.asked.first == "top"
        depth = self.covered.depth if top_first else self.coated.depth
        return Layer("mid-paste", self.coated.outline.grown(self.asked.paste_mm / 2), depth)

    @property
    def top(self) -> Layer:
        """The surface whose outline the top disc of a panelled tier has."""
        return self.coated if self.asked.first == "top" else self.covered

    @staticmethod
    def _grown(surface: str, layer: Layer, by: float) -> Layer:
        return Layer(surface, layer.outline.grown(by), layer.depth + by)
