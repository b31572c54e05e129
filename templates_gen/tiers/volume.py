"""How much a tier holds and how large its side is."""

from __future__ import annotations

import math

from templates_gen.tiers.solid import Layer


def volume(layer: Layer) -> float:
    """Return what a surface goes round, mm3: the rule of the frustum, exact for upright sides."""
    rim, foot = layer.rim.area, layer.foot.area
    return layer.depth / 3 * (rim + math.sqrt(rim * foot) + foot)


def side_area(layer: Layer) -> float:
    """Return the area of a side, mm2: mean girth times slant (Longfield, p. 91)."""
    return (layer.rim.girth + layer.foot.girth) / 2 * layer.side.depth
