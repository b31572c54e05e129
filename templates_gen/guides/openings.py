"""The hole through a tier on its papers: where it comes through a side, and what it leaves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.booleans import Area, clipped_area, region, union
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.tiers.tunnel import openings, tunnel


@dataclass(frozen=True, slots=True)
class Openings:
    """The hole through a tier on each surface, in (u, v), in front and behind; none without one."""

    ends: Mapping[str, tuple[Path, Path]] = field(default_factory=dict)

    def repeated(self, layer: Layer) -> tuple[Path, ...]:
        """Return both ends on three turns, from u = -girth on."""
        girth = layer.rim.girth
        ends = self.ends.get(layer.surface, ())
        return tuple(path.moved(turn, 0) for path in ends for turn in (-girth, 0.0, girth))

    def on(self, layer: Layer) -> tuple[Path, ...]:
        """Return the openings as one turn shows them: one at the join twice."""
        girth = layer.rim.girth
        boxed = [(path, path.bounds) for path in self.repeated(layer)]
        return tuple(path for path, box in boxed if box.x1 > 0 and box.x0 < girth)

    def area(self, layer: Layer) -> Area | None:
        """Return what they take of a side, in side coordinates; None for a whole side."""
        return union([region(path) for path in self.on(layer)])

    def taken(self, layer: Layer) -> float:
        """Return how much both ends take of a side, mm2."""
        return sum(region(path).area for path in self.ends.get(layer.surface, ()))

    def laid_flat(self, layer: Layer, sheet: Box) -> tuple[Path, ...]:
        """Return them on the paper, round the join and on over it, as far as a sheet goes.

        The sheet is in (u, v).
        """
        parts = (clipped_area(path, sheet) for path in self.repeated(layer))
        return tuple(layer.side.unrolled(part) for part in parts if part.commands)

    def to_check(self, layer: Layer, sheet: Box) -> Drawing:
        """Return their edges on the paper as ``laid_flat``, to compare with the cake."""
        paths = self.laid_flat(layer, sheet)
        return Drawing(tuple(Stroke(path, Role.CHECK) for path in paths))

    def values(self, layer: Layer) -> dict[str, float]:
        """Return how large one lies flat, as figures of a piece."""
        if layer.surface not in self.ends:
            return {}
        box = self.ends[layer.surface][0].bounds
        return {"opening_width_mm": box.width, "opening_height_mm": box.height}


def openings_of(tier: Solid) -> Openings:
    """Return the hole through a tier on its surfaces. Raises CakeError as ``tunnel``."""
    hole = tunnel(tier)
    if hole is None:
        return Openings()
    layers = (tier.bare, tier.coated, tier.wrapped, tier.covered)
    return Openings({layer.surface: openings(hole, layer) for layer in layers})
