"""How much of everything: paste, coating, icing, gum, paint, and the weight that dowels bear.

Volumes are true for the sizes of the cake file; densities, waste, films and packs are estimates
that the cake file can change.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate

from templates_gen.bench.amounts import MM3_PER_ML
from templates_gen.bench.carving import cake_density
from templates_gen.bench.coats import ALMOND_PASTE, SOFT, coated_with
from templates_gen.bench.inside import filling_density
from templates_gen.bench.letter_cakes import coating_of
from templates_gen.bench.rolled import designs_of, set_on
from templates_gen.cakefile.estimates import Estimates
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.drawing.designs import DESIGNS, DesignKind
from templates_gen.drawing.designs.shells import shell_volume
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import path_length
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.guides.lettering import Lettered
from templates_gen.pieces.collar_paper import above_foot
from templates_gen.pieces.run_out import rims
from templates_gen.tiers.carving import filled
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.tunnel import wall_area
from templates_gen.tiers.volume import inner_volume, volume
from templates_gen.units import counted

FORMULAS = {
    "paste": "fondant and modelling paste: area as it is rolled out (circles whole, strips with"
    " their trims, shapes by the sheet they are cut from) × thickness × density, and waste",
    "gum": "gum powder: 1 level teaspoon (5 mL) to so many grams of modelling paste, usually 250",
    "coating": "coating: (volume of the coated tier − of the bare tier) × density, and waste;"
    " almond paste with the density of fondant (our estimate)",
    "icing": "drips: area × how thick they stand out × density, and waste; a small"
    " batch cannot be bagged",
    "piping": "icing for piping: length of the lines of designs × round section of a line, letters"
    " filled with such lines side by side, × density, and waste; shells: as deep as tall, round"
    " along their length; run-out collars: area × thickness;"
    " a small batch cannot be bagged",
    "paint": "paint: area × coats × wet film, of dust and clear alcohol by volume",
    "dowels": "weight above dowels: volume × density of cake or dummy, filling, coating, fondant"
    " and boards",
}
"""By what is estimated, how."""


def _mass(volume_mm3: float, density: float) -> float:
    """Return grams of so many mm3 at g/cm3."""
    return volume_mm3 / MM3_PER_ML * density


def panels_volume(tier: DecoratedTier) -> float:
    """Return what the panels set on a covering take, mm3."""
    panels = tier.spec.panels
    if panels is None or panels.replace_wrap:
        return 0.0
    return tier.panels_area * panels.thickness.mm


def lining_volume(tier: Solid) -> float:
    """Return what the lining of a hole through a tier takes, mm3."""
    return wall_area(tier) * tier.spec.paste_lining_mm


def coating_density(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return the density of what a tier is coated with, g/cm3: almond paste is as fondant."""
    is_paste = coated_with(tier, estimates) == ALMOND_PASTE
    return estimates.fondant if is_paste else estimates.coating


def coating_volume(tier: Solid) -> float:
    """Return what the coating of a tier takes, mL."""
    return (volume(tier, tier.coated) - volume(tier, tier.bare)) / MM3_PER_ML


def scraped_off(tier: DecoratedTier) -> float:
    """Return what a comb takes off the coating of a tier again, mm3."""
    if tier.combed is None:
        return 0.0
    left = 1 - tier.openings.taken(tier.coated) / tier.coated.side.area
    return tier.combed.scraped * left


DRIPS_OF, ROYAL_ICING = "ganache or icing", "royal icing"
"""What drips are usually piped in, and those that are painted: common practice, no source."""


def drips_volume(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return what the drips of a tier take, mL."""
    return tier.drips_area * estimates.drip.mm / MM3_PER_ML


def painted_area(tier: DecoratedTier) -> float:
    """Return the area that is painted on a tier, mm2."""
    paint = tier.spec.paint
    if paint is None:
        return 0.0
    if paint.on in ("drips", "panels"):
        return tier.drips_area if paint.on == "drips" else tier.panels_area
    top = tier.covered.top_area if paint.on == "whole" else 0.0
    return tier.covered.side.area - tier.openings.taken(tier.covered) + top


def paint_volume(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return the paint of a tier, all coats, mL."""
    coats = tier.spec.paint.coats if tier.spec.paint else 0
    return painted_area(tier) * coats * estimates.film.mm / MM3_PER_ML


def weight(tier: DecoratedTier, estimates: Estimates) -> float:
    """Return what a finished tier weighs, g, with filling and board."""
    layers = (tier.bare, tier.coated, tier.covered)
    bare, coated, covered = (volume(tier, layer) for layer in layers)
    boards = inner_volume(tier)
    return (
        _mass(boards, estimates.board)
        + _inside(tier, bare - boards, estimates)
        + _mass(coated - bare - scraped_off(tier), coating_density(tier, estimates))
        + _mass(covered - coated + panels_volume(tier) + lining_volume(tier), estimates.fondant)
        + _mass(tier.board.area * tier.board_thickness, estimates.board)
    )


def _inside(tier: DecoratedTier, held: float, estimates: Estimates) -> float:
    """Return what a dummy, or cake and its filling, of ``held`` mm3 in all weighs, g."""
    if tier.spec.dummy:
        return _mass(held, estimates.dummy)
    of_filling = filled(tier, estimates)
    density = filling_density(tier.spec.inside.filling, estimates)
    return _mass(held - of_filling, cake_density(tier, estimates)) + _mass(of_filling, density)


def separator_weight(seat: Seat, estimates: Estimates) -> float:
    """Return what a raised tier stands on, g: a spacer is a dummy, pillars are as boards, solid."""
    found = seat.separator
    if found is None:
        return 0.0
    if found.spacer is not None:
        return _mass(found.spacer.area * found.height, estimates.dummy)
    count = seat.support.count if seat.support else 0
    return _mass(count * math.pi / 4 * found.thick**2 * found.height, estimates.board)


def weights_above(stack: DecoratedStack) -> list[float]:
    """Return what stands on each tier, g, from the bottom up."""
    each = [
        weight(tier, stack.estimates) + separator_weight(seat, stack.estimates)
        for tier, seat in zip(stack.tiers[:0:-1], stack.seats[:0:-1], strict=True)
    ]
    return list(accumulate(each, initial=0.0))[::-1][: len(stack.tiers)]


def coatings(stack: DecoratedStack) -> Iterator[dict[str, object]]:
    """Yield what each tier is coated with, if it has any."""
    estimates = stack.estimates
    for tier in stack.tiers:
        millilitres = coating_volume(tier) * (1 + estimates.waste / 100)
        if millilitres > 0:
            density = coating_density(tier, estimates)
            grams = millilitres * density
            off = _mass(scraped_off(tier), density)
            yield {
                "tier": tier.name,
                "what": coated_with(tier, estimates),
                "volume_ml": millilitres,
                "mass_g": grams,
                "scraped_off_g": off,
            }
    for cake in stack.letter_cakes:
        millilitres = coating_of(cake) * (1 + estimates.waste / 100)
        if millilitres > 0:
            name, grams = name_of(cake.index + 1), millilitres * estimates.coating
            yield {
                "tier": name,
                "what": SOFT,
                "volume_ml": millilitres,
                "mass_g": grams,
                "scraped_off_g": 0.0,
            }


def icings(stack: DecoratedStack) -> Iterator[dict[str, object]]:
    """Yield icing for the drips of each tier that has any."""
    estimates = stack.estimates
    for tier in stack.tiers:
        millilitres = drips_volume(tier, estimates) * (1 + estimates.waste / 100)
        if millilitres:
            grams = millilitres * estimates.drip_icing
            yield {
                "tier": tier.name,
                "what": _for_drips(tier),
                "volume_ml": millilitres,
                "mass_g": grams,
            }


def drips_of(tier: DecoratedTier) -> str:
    """Return what the drips of a tier are piped in, in their colour; painted, it must dry hard."""
    paint, colour = tier.spec.paint, tier.spec.drips.colour if tier.spec.drips else None
    if paint and paint.on in ("drips", "whole"):
        return ROYAL_ICING
    return f"{colour} {DRIPS_OF}" if colour else DRIPS_OF


def _for_drips(tier: DecoratedTier) -> str:
    return f"{drips_of(tier)} for drips"


def pipings(stack: DecoratedStack) -> Iterator[dict[str, object]]:
    """Yield icing for the designs and for the letters of each tier that has any, all of it piped.

    ``length_m`` is that of all lines as they are piped.
    """
    estimates = stack.estimates
    section = math.pi / 4 * estimates.piped_line.mm**2
    for tier in stack.tiers:
        lengths = {
            "designs": sum(map(_line_length, _piped(tier))),
            "lettering": sum(_letters_length(each, estimates) for each in _piped_letters(tier)),
        }
        yield from _run_out(stack, tier)
        yield from _shells(tier, estimates)
        for what, length in lengths.items():
            millilitres = length * section / MM3_PER_ML * (1 + estimates.waste / 100)
            if length:
                grams = millilitres * estimates.drip_icing
                yield {
                    "tier": tier.name,
                    "what": what,
                    "length_m": length / 1000,
                    "volume_ml": millilitres,
                    "mass_g": grams,
                }


@dataclass(frozen=True, slots=True)
class Shell:
    """A shell of a border, mm: how long and tall it is, and whether it stands at the base."""

    long: float
    tall: float
    is_low: bool


def shells_on(tier: DecoratedTier) -> Iterator[Shell]:
    """Yield each shell on a tier."""
    for _, spec, guide in designs_of(tier, tier.marked):
        if not DESIGNS[spec.kind].solid or spec.stencil is not None:
            continue
        middle = (guide.top + guide.foot) / 2
        for path in set_on(tier, guide):
            box, v = path.bounds, path.bounds.centre[1]
            is_low = v > middle if spec.form == "both" else spec.form != "top"
            yield Shell(box.width * guide.layer.side.girth_ratio(v), box.height, is_low)


def _shells(tier: DecoratedTier, estimates: Estimates) -> Iterator[dict[str, object]]:
    """Yield the icing of borders of shells, if there are any."""
    found = list(shells_on(tier))
    volume = sum(shell_volume(each.long, each.tall) for each in found) / MM3_PER_ML
    millilitres = volume * (1 + estimates.waste / 100)
    if found:
        yield {
            "tier": tier.name,
            "what": counted(len(found), "shell"),
            "length_m": 0.0,
            "volume_ml": millilitres,
            "mass_g": millilitres * estimates.drip_icing,
        }


def _piped_letters(tier: DecoratedTier) -> Iterator[Lettered]:
    """Yield the letterings that are neither cut from paste nor spread through a stencil."""
    for each in (*tier.letterings_on_side.values(), *tier.letterings_on_top.values()):
        if not each.spec.cut and each.spec.stencil is None:
            yield each


def _letters_length(lettered: Lettered, estimates: Estimates) -> float:
    """Return how long the lines are that fill some letters side by side, mm.

    A stroke thinner than a line takes one line: half of its edge.
    """
    edges = sum(map(path_length, lettered.outlines))
    filled = sum(region(path).area for path in lettered.outlines)
    return max(filled / estimates.piped_line.mm, edges / 2)


def _piped(tier: DecoratedTier) -> Iterator[Guide]:
    """Yield the designs that are neither of paste nor spread through a stencil."""
    for _, spec, guide in designs_of(tier, tier.guides):
        design = DESIGNS[spec.kind]
        if design.strip is None and spec.stencil is None and not _is_no_line(design):
            yield guide


def _is_no_line(design: DesignKind) -> bool:
    """Tell whether a design is no line that is piped."""
    return design.balls or design.edges or design.solid


def _line_length(guide: Guide) -> float:
    """Return how long all lines of a guide are on the cake, mm."""
    kept = above_foot(guide.layer)
    on_side = Drawing(tuple(Stroke(kept(each.path), each.role) for each in guide.drawing.strokes))
    return sum(path_length(stroke.path) for stroke in guide.layer.side.unroll(on_side).strokes)


def icing_batches(stack: DecoratedStack) -> Iterator[dict[str, object]]:
    """Yield what is mixed for all drips of one kind, of each kind a batch that can be bagged."""
    estimates = stack.estimates
    masses: dict[str, float] = defaultdict(float)
    for tier in stack.tiers:
        grams = drips_volume(tier, estimates) * (1 + estimates.waste / 100) * estimates.drip_icing
        masses[_for_drips(tier)] += grams
    for what, mass in masses.items():
        if mass:
            yield {"what": what, "mass_g": max(estimates.batch, mass)}


def piping_batch(stack: DecoratedStack) -> float:
    """Return the grams of icing to mix for all piping, 0 for a cake without."""
    found = [each["mass_g"] for each in pipings(stack)]
    mass = sum(each for each in found if isinstance(each, float))
    return max(stack.estimates.batch, mass) if mass else 0.0


def _run_out(stack: DecoratedStack, tier: DecoratedTier) -> Iterator[dict[str, object]]:
    """Yield the royal icing of the collar on a tier: its area, so thick, and waste."""
    for rim in rims(stack):
        if rim.tier is tier:
            whole = rim.ring.area * rim.spec.thickness.mm / MM3_PER_ML
            millilitres = whole * (1 + stack.estimates.waste / 100)
            yield {
                "tier": tier.name,
                "what": "run-out collar",
                "length_m": 0.0,
                "volume_ml": millilitres,
                "mass_g": millilitres * stack.estimates.drip_icing,
            }


def paints(stack: DecoratedStack) -> Iterator[dict[str, object]]:
    """Yield dust and alcohol for each tier that is painted."""
    estimates = stack.estimates
    dust = estimates.dust_share / 100
    for tier in stack.tiers:
        millilitres = paint_volume(tier, estimates)
        if tier.spec.paint is not None:
            yield {
                "tier": tier.name,
                "on": tier.spec.paint.on,
                "coats": tier.spec.paint.coats,
                "dust_ml": millilitres * dust,
                "dust_g": millilitres * dust * estimates.dust,
                "alcohol_ml": millilitres * (1 - dust),
            }
