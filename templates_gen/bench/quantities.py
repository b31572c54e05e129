"""How much of everything: paste, coating, icing, gum, paint, and the weight that dowels bear.

Volumes are true for the sizes of the cake file; densities, waste, films and packs are estimates
that the cake file can change.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from templates_gen.cakefile.cutting import Topper
from templates_gen.cakefile.estimates import Estimates
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.offset import offset
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.guides.drips import drips_drawing
from templates_gen.guides.scatter import Scattered
from templates_gen.pieces import gore, lining, topper
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.volume import volume

MM3_PER_ML = 1000.0
GUM_GRAMS = 250.0
"""Sugar paste to one level teaspoon of gum powder: common practice, no source."""
TEASPOON = 5.0
"""mL: 21 CFR 101.9(b)(5)(viii)."""
OUNCE = 28.0
"""Grams to an ounce on food labels: 21 CFR 101.9(b)(5)(viii)."""
SUGAR, MODELLING = "fondant", "modelling paste"
FORMULAS = {
    "paste": "paste: area as it is rolled (without trim) × thickness × density, and waste",
    "gum_tsp": "modelling paste: area of panels, small pieces and toppers × thickness × density,"
    " and waste; gum powder: 1 level teaspoon (5 mL) to 250 g of it",
    "coating": "coating: (volume of the coated tier − of the bare tier) × density, and waste",
    "icing": "icing: area of the drips × how thick they stand out × density, and waste",
    "paint": "paint: area × coats × wet film, half of it dust and half clear alcohol by volume",
    "dowels": "weight: volume × density of cake or dummy, coating and paste; no filling, no boards",
}
"""By what is reckoned, how."""


@dataclass(frozen=True, slots=True)
class Paste:
    """Paste of one kind and colour for a tier, with waste; ``net`` is without it, both grams."""

    tier: str
    colour: str
    kind: str
    net: float
    mass: float
    packs: int


def _mass(volume_mm3: float, density: float) -> float:
    """Return grams of so many mm3 at g/cm3."""
    return volume_mm3 / MM3_PER_ML * density


def _with_waste(mass: float, estimates: Estimates) -> float:
    return mass * (1 + estimates.waste / 100)


def packs(mass: float, estimates: Estimates) -> int:
    """Return how many whole packs hold so many grams."""
    return math.ceil(mass / estimates.pack - 1e-9)


def covering_area(tier: DecoratedTier) -> float:
    """Return the area of the paste that covers a tier as it is rolled, without trim, mm2.

    What is cut out for a hole is rolled all the same; its lining comes on top.
    """
    spec = tier.spec
    if spec.cover == "none":
        return 0.0
    cut = [*lining.build(tier), *gore.build(tier), *gore.build_cap(tier)]
    extra = sum(piece.area.area * piece.copies for piece in cut)
    if spec.cover == "drape":
        return extra + offset(tier.drape, -spec.trim.mm).area
    if not tier.lies_flat:
        return extra
    return extra + tier.top.top_area + tier.wrapped.side.area


def panels_area(tier: DecoratedTier) -> float:
    """Return the area of all panels of a tier, mm2."""
    row = tier.panel_row
    if row is None:
        return 0.0
    return row.rows * row.height * sum(width * number for width, number in row.widths)


def panels_volume(tier: DecoratedTier) -> float:
    """Return what the panels set on a covering take, mm3."""
    panels = tier.spec.panels
    if panels is None or panels.replace_wrap:
        return 0.0
    return panels_area(tier) * panels.thickness.mm


def scatter_volume(made: Scattered) -> float:
    """Return what small pieces scattered over a tier take, mm3."""
    return region(made.outline).area * len(made.places) * made.spec.thickness.mm


def topper_volume(spec: Topper) -> float:
    """Return what toppers of one kind take, with the tabs they are cut with, mm3."""
    area = sum(region(outline).area for outline in topper.outlines(spec))
    return area * spec.thickness.mm * spec.count


def paste(stack: DecoratedStack, estimates: Estimates) -> tuple[Paste, ...]:
    """Return the paste of each tier, the covering before what is set on it, then of toppers."""
    found = []
    for part, kind, colour, mm3 in _parts(stack):
        net = _mass(mm3, estimates.fondant)
        mass = _with_waste(net, estimates)
        if mass:
            found.append(Paste(part, colour, kind, net, mass, packs(mass, estimates)))
    return tuple(found)


def _parts(stack: DecoratedStack) -> Iterator[tuple[str, str, str, float]]:
    """Yield for what it is, the kind of paste, its colour, mm3."""
    for tier in stack.tiers:
        spec, name = tier.spec, tier.name
        yield name, SUGAR, spec.colour, covering_area(tier) * spec.paste_mm
        if spec.panels is not None:
            yield name, MODELLING, spec.panels.colour or spec.colour, panels_volume(tier)
        for scatter in tier.scatters.values():
            yield name, MODELLING, scatter.spec.colour, scatter_volume(scatter)
    for each in stack.toppers:
        yield "topper", MODELLING, each.colour, topper_volume(each)


def paste_by_colour(found: Sequence[Paste], estimates: Estimates) -> dict[str, tuple[float, int]]:
    """Return grams and packs of each colour for the whole cake."""
    sums: dict[str, float] = defaultdict(float)
    for each in found:
        sums[each.colour] += each.mass
    return {colour: (mass, packs(mass, estimates)) for colour, mass in sums.items()}


def gum_teaspoons(mass: float) -> float:
    """Return level teaspoons of gum for so many grams of modelling paste, to the next quarter."""
    return math.ceil(mass / GUM_GRAMS * 4 - 1e-9) / 4


def coating_volume(tier: Solid) -> float:
    """Return what the coating of a tier takes, mL."""
    return (volume(tier, tier.coated) - volume(tier, tier.bare)) / MM3_PER_ML


def drips_area(tier: DecoratedTier) -> float:
    """Return the area of the drips of a tier on its side, mm2."""
    if tier.drip_row is None:
        return 0.0
    drawn = drips_drawing(tier.drip_row, tier.covered.side)
    return sum(stroke.path.area for stroke in drawn.strokes)


def drips_volume(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return what the drips of a tier take, mL."""
    return drips_area(tier) * estimates.drip.mm / MM3_PER_ML


def painted_area(tier: DecoratedTier) -> float:
    """Return the area that is painted on a tier, mm2."""
    paint = tier.spec.paint
    if paint is None:
        return 0.0
    if paint.on in ("drips", "panels"):
        return drips_area(tier) if paint.on == "drips" else panels_area(tier)
    top = tier.covered.top_area if paint.on == "whole" else 0.0
    return tier.covered.side.area + top


def paint_volume(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return the paint of a tier, all coats, mL."""
    coats = tier.spec.paint.coats if tier.spec.paint else 0
    return painted_area(tier) * coats * estimates.film.mm / MM3_PER_ML


def weight(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return what a finished tier weighs, g, without filling and board."""
    inner = estimates.dummy if tier.spec.dummy else estimates.cake_density.value
    layers = (tier.bare, tier.coated, tier.covered)
    bare, coated, covered = (volume(tier, layer) for layer in layers)
    return (
        _mass(bare, inner)
        + _mass(coated - bare, estimates.coating)
        + _mass(covered - coated + panels_volume(tier), estimates.fondant)
    )


def weights_above(stack: DecoratedStack, estimates: Estimates) -> list[float]:
    """Return what stands on each tier, g, from the bottom up."""
    each = [weight(tier, estimates) for tier in stack.tiers[:0:-1]]
    return list(accumulate(each, initial=0.0))[::-1]


def coatings(stack: DecoratedStack, estimates: Estimates) -> Iterator[dict[str, object]]:
    """Yield buttercream or ganache for each tier that has any."""
    for tier in stack.tiers:
        millilitres = coating_volume(tier) * (1 + estimates.waste / 100)
        if millilitres > 0:
            grams = millilitres * estimates.coating
            yield {"tier": tier.name, "volume_ml": millilitres, "mass_g": grams}


def icings(stack: DecoratedStack, estimates: Estimates) -> Iterator[dict[str, object]]:
    """Yield icing for the drips of each tier that has any."""
    for tier in stack.tiers:
        millilitres = drips_volume(tier, estimates) * (1 + estimates.waste / 100)
        if millilitres:
            grams = millilitres * estimates.drip_icing
            yield {"tier": tier.name, "volume_ml": millilitres, "mass_g": grams}


def paints(stack: DecoratedStack, estimates: Estimates) -> Iterator[dict[str, object]]:
    """Yield dust and alcohol for each tier that is painted."""
    for tier in stack.tiers:
        millilitres = paint_volume(tier, estimates)
        if tier.spec.paint is not None:
            yield {
                "tier": tier.name,
                "on": tier.spec.paint.on,
                "coats": tier.spec.paint.coats,
                "dust_ml": millilitres / 2,
                "alcohol_ml": millilitres / 2,
            }
