"""What a tier of cake takes: tins, batter, filling, and what to think of before it is made."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from templates_gen.bench.amounts import MM3_PER_ML, carried
from templates_gen.bench.coats import ALMOND_PASTE, coated_with
from templates_gen.bench.inside import Inner, filling_density, inner, on_shelf, tin_size
from templates_gen.cakefile.estimates import CAKES, Estimates
from templates_gen.cakefile.letter_cakes import name_of
from templates_gen.cakefile.tier import CARD
from templates_gen.errors import Key, PlanWarning
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.tiers.carving import (
    CarvedLayer,
    carved_layers,
    filled,
    in_tins,
    is_carved,
    is_trimmed,
    tin_area,
)
from templates_gen.tiers.volume import inner_volume, volume
from templates_gen.units import in_both


@dataclass(frozen=True, slots=True)
class Baking:
    """What a tier is baked of: its inside, grams of batter (None of an unknown kind), of filling.

    ``in_tins`` is in how many tins the batter is how deep, mm.
    """

    tier: str
    inner: Inner
    batter: float | None
    in_tins: tuple[tuple[int, float], ...]
    filling: float
    source: str


def baking(stack: DecoratedStack) -> tuple[Baking, ...]:
    """Return what each tier of cake is baked of."""
    made = ((tier, inner(tier, stack.estimates)) for tier in stack.tiers)
    return tuple(_baking(tier, cake, stack.estimates) for tier, cake in made if cake is not None)


def _baking(tier: DecoratedTier, cake: Inner, estimates: Estimates) -> Baking:
    """Batter rises to so many times its depth; what is levelled off is baked too."""
    waste = 1 + estimates.waste / 100
    whole = volume(tier, tier.bare) - inner_volume(tier)
    fillings, area = filled(tier, estimates), tin_area(tier, estimates)
    if is_trimmed(tier):
        # its cakes are as wide and as deep all over as it is anywhere, and filled so
        fillings = area * cake.fillings * cake.filling_depth
        whole = area * cake.cake_depth + fillings
    filling = fillings / MM3_PER_ML * filling_density(cake.filling, estimates) * waste
    carved = carved_layers(tier, estimates)
    if carved:
        # the batter fills tins of several sizes, and what is carved off is baked too
        raw = sum(_baked(layer, cake) for layer in carved) / MM3_PER_ML
        return replace(of_batter(tier.name, cake, raw, filling, estimates), in_tins=())
    raw = (whole - fillings + area * cake.level * cake.tins) / MM3_PER_ML
    return of_batter(tier.name, cake, raw, filling, estimates)


def of_batter(tier: str, cake: Inner, raw: float, filling: float, estimates: Estimates) -> Baking:
    """Return what is baked of a kind of cake: ``raw`` mL before it is levelled and cut."""
    if cake.kind is None:
        return Baking(tier, cake, None, (), filling, "")
    kind = CAKES[cake.kind]
    rises, gravity = estimates.rise or kind.rises, estimates.batter or kind.batter
    source = "what you gave" if estimates.batter else kind.batter_source
    depths = tuple((number, high / rises) for number, high in cake.in_tins)
    return Baking(tier, cake, raw / rises * gravity, depths, filling, source)


def _baked(layer: CarvedLayer, cake: Inner) -> float:
    """Return the cake that is baked for a layer, with its share of what is levelled off, mm3."""
    return layer.tin.area * (layer.top - layer.base + cake.level * cake.tins / cake.layers)


def advice(stack: DecoratedStack) -> Iterator[str]:
    """Yield what to think of: tiers deeper than one cake, circles too large, bare almond paste."""
    estimates = stack.estimates
    yield from (each.text for each in too_large(stack))
    deepest = estimates.deepest.mm
    for tier in stack.tiers:
        spec = tier.spec
        if not spec.dummy and not is_carved(tier) and tier.part_depth > deepest + 0.1:
            boards = math.ceil((spec.depth.mm + CARD.mm) / (deepest + CARD.mm) - 1e-3) - 1
            yield (
                f"{tier.name}: {in_both(tier.part_depth)} is deeper than one cake. Build it of"
                f" {boards + 1} with {'a board' if boards == 1 else 'boards'} and dowels between:"
                f" write [tier.inside] inner_boards = {boards}. Portions are cut from each."
            )
        tins = in_tins(carved_layers(tier, estimates))
        yield from (
            f"{tier.name}: its layers take a tin of {tin}, larger than an ordinary one: bake cakes"
            " to join side by side."
            for tin in tins
            if not tin.is_ordinary
        )
        if spec.cover == "drape":
            yield from _draping(tier, estimates)
        bare = spec.coating_mm and spec.cover == "none"
        if bare and coated_with(tier, estimates) == ALMOND_PASTE:
            yield (
                f"{tier.name}: nothing goes over its almond paste here. For royal icing let the"
                " paste dry for 3 to 7 days first, then allow a day for each of three coats."
            )


def too_large(stack: DecoratedStack) -> Iterator[PlanWarning]:
    """Yield a warning for each cake whose tins do not fit on the oven shelf."""
    estimates = stack.estimates
    shelf = f"{in_both(estimates.shelf_width.mm)} × {in_both(estimates.shelf_depth.mm)}"
    for key, name, sizes in _tin_sizes(stack):
        if not all(on_shelf(size, estimates) for size in sizes):
            text = (
                f"{name}: a tin of its size does not fit on an oven shelf of {shelf}: bake cakes to"
                " join side by side, or write shelf_width and shelf_depth of a larger oven under"
                " [estimates]."
            )
            yield PlanWarning(key, text)


def _tin_sizes(stack: DecoratedStack) -> Iterator[tuple[Key, str, list[tuple[float, float]]]]:
    """Yield for each cake that is baked the key that its tins follow, its name and their sizes."""
    for index, tier in enumerate(stack.tiers):
        if not tier.spec.dummy:
            tins = in_tins(carved_layers(tier, stack.estimates))
            sizes = [(tin.across, tin.across) for tin in tins] or [tin_size(tier)]
            yield ("tier", index, "size"), tier.name, sizes
    for cake in stack.letter_cakes:
        size = cake.spec.tin_width.mm, cake.spec.tin_length.mm
        yield ("letter_cake", cake.index, "tin_length"), name_of(cake.index + 1), [size]


def _draping(tier: DecoratedTier, estimates: Estimates) -> Iterator[str]:
    spec, coated = tier.spec, tier.coated
    mass = tier.drape.area * spec.paste_mm / MM3_PER_ML * estimates.fondant
    deep = coated.depth >= estimates.drapes / 100 * coated.foot.across
    if not deep and mass <= estimates.one_drapes:
        return
    why = (
        "it is about as deep as wide, so the sheet pleats and tears"
        if deep
        else ("more than one person lays over alone")
    )
    thick = estimates.panelled.mm
    apart = (coated.top_area + coated.side.area) * thick / MM3_PER_ML * estimates.fondant
    yield (
        f"{tier.name}: one sheet {in_both(tier.drape.across)} across of {carried(mass)} to drape:"
        f" {why}. Panelled (cover = “panelled”), a disc and a wrap {in_both(thick)} thick"
        f" take {carried(apart)}."
    )
