"""The bench list as data: what to cut, how much of what, what dowels bear, what happens when."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from templates_gen.bench import quantities
from templates_gen.bench.baking import Baking, advice, baking
from templates_gen.bench.carrying import Load, loads
from templates_gen.bench.carving import Carved, carved, tins
from templates_gen.bench.cascades import cascades
from templates_gen.bench.cut_list import Cut, cut_list, ribbons
from templates_gen.bench.flowers import holders, rolled_for_flowers, wires_to_buy
from templates_gen.bench.letter_cakes import letter_cakes, letters_baked, served
from templates_gen.bench.packs import WHITE, holding, sizes, spare, tinted
from templates_gen.bench.paste import by_colour, gum_by_colour, paste, weighed
from templates_gen.bench.perishable import perishable_warnings
from templates_gen.bench.published import compared
from templates_gen.bench.rolled import Rolled, rolled
from templates_gen.bench.schedule import Timed, as_dated, schedule_warnings, timed_steps
from templates_gen.bench.servings import too_few
from templates_gen.bench.shopping import Cost, cost, shopping
from templates_gen.bench.steps import hours_of_work, steps
from templates_gen.cakefile.cut_from import WAFER
from templates_gen.cakefile.estimates import ESTIMATE, GIVEN, PRACTICE, Estimates
from templates_gen.cakefile.fields import Table
from templates_gen.cakefile.lengths import Length
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.plan import Plan
from templates_gen.tiers.dowels import Support

NOT_STRUCTURAL = (
    "For orientation only: not structural advice. The weights are estimates; a large or unusual"
    " cake is for someone qualified."
)


def bench(plan: Plan) -> dict[str, Any]:
    """Return everything the bench list says, lengths in mm and masses in grams, ready for JSON."""
    stack, estimates = plan.stack, plan.stack.estimates
    parts, carried = (*rolled(plan), *rolled_for_flowers(stack)), loads(stack)
    found = {
        "title": plan.title,
        "pieces": [_cut(cut) for cut in cut_list(plan, parts)],
        **_paste(plan, parts),
        "coating": list(quantities.coatings(stack)),
        "icing": list(quantities.icings(stack)),
        "icing_batches": list(quantities.icing_batches(stack)),
        "piping": list(quantities.pipings(stack)),
        "piping_batch_g": quantities.piping_batch(stack),
        "paint": list(quantities.paints(stack)),
        **_cakes(stack),
        "too_few_portions": too_few(served(stack), plan.guests),
        "carrying": [_load(each) for each in carried],
        "advice": list(advice(stack)),
        "dowels": list(_dowels(stack)),
        "wires": [{"gauge": g, "number": n} for g, n in wires_to_buy(stack).items()],
        "holders": holders(stack),
        "ribbons": [_cut(cut) for cut in ribbons(stack)],
        **_times(plan, carried),
        "estimates": list(_estimates(estimates)),
    }
    bought = shopping(found, estimates, plan.prices, plan.terms.place)
    found["shopping"] = [
        {**asdict(each), "packs": list(map(asdict, each.packs)), "cost": each.cost}
        for each in bought
    ]
    found["cost"] = _cost(cost(found, bought, plan.prices, plan.currency))
    used = {key: says for key, says in quantities.FORMULAS.items() if found[key]}
    return {**found, "formulas": used}


def _paste(plan: Plan, cut: Sequence[Rolled]) -> dict[str, Any]:
    """Return the paste of each template, of each tier and of each colour, and what goes into it."""
    stack, estimates = plan.stack, plan.stack.estimates
    parts = [each for each in cut if each.kind != WAFER]
    found = paste(parts, estimates)
    is_priced = (plan.prices.fondant, plan.prices.modelling_paste) != (None, None)
    sold = sizes(estimates, plan.terms.place, is_priced=is_priced)
    return {
        "rolled": [_rolled(each, estimates) for each in parts],
        "paste": [
            {
                "tier": each.tier,
                "colour": each.colour,
                "kind": each.kind,
                "on_cake_g": each.on_cake,
                "rolled_g": each.rolled,
                "mass_g": each.mass,
                "offcuts_g": each.offcuts,
            }
            for each in found
        ],
        "paste_by_colour": list(_by_colour(by_colour(found), sold, estimates)),
        "paste_published": [asdict(each) for each in compared(stack, found)],
        "gum": [
            {"colour": colour, "tsp": spoons}
            for colour, spoons in gum_by_colour(found, estimates).items()
        ],
    }


def _by_colour(
    masses: Mapping[str, float], sold: Sequence[float], estimates: Estimates
) -> Iterator[dict[str, Any]]:
    """Yield the paste of each colour with its packs; white ones hold what is coloured too."""
    few = tinted(masses, sold)
    for colour, mass in masses.items():
        more = sum(masses[each] for each in few) if colour == WHITE else 0.0
        least = mass + more - spare(mass + more, estimates)
        packs = () if colour in few else holding(least, sold)
        yield {"colour": colour, "mass_g": mass, "packs": list(map(asdict, packs))}


def _cakes(stack: DecoratedStack) -> dict[str, Any]:
    """Return what is baked and carved, and how many it serves."""
    return {
        "baking": [_baked(each) for each in (*baking(stack), *letters_baked(stack))],
        "carving": [_carved(each) for each in carved(stack)],
        "carving_tins": [
            {"tier": tier, "number": number, "tin": str(tin)} for tier, number, tin in tins(stack)
        ],
        "cascades": list(cascades(stack)),
        "letter_cakes": list(letter_cakes(stack)),
        "servings": [asdict(each) for each in served(stack)],
    }


def _cut(cut: Cut) -> dict[str, Any]:
    return {
        "kind": cut.kind,
        "what": cut.what,
        "tier": cut.tier,
        "number": cut.number,
        "sizes_mm": list(cut.sizes),
        "size": cut.size,
        "from": cut.paper,
    }


def _times(plan: Plan, carried: Sequence[Load]) -> dict[str, Any]:
    """Return the order of work, warnings about it, and the hours that it takes."""
    found = steps(plan, carried)
    dated = timed_steps(found, plan.work)
    timed = as_dated(dated, plan.work)
    return {
        "times": [_timed(each) for each in timed],
        "time_warnings": [*schedule_warnings(timed, plan.work), *perishable_warnings(plan, dated)],
        "hours_of_work": hours_of_work(found),
    }


def _cost(each: Cost | None) -> dict[str, Any] | None:
    if each is None:
        return None
    return {**asdict(each), "unpriced": list(each.unpriced), "total": each.total}


def _load(each: Load) -> dict[str, Any]:
    return {
        "what": each.what,
        "mass_g": each.mass,
        "box_mm": [each.width, each.depth, each.height],
        "one_person_kg": each.most,
        "two_person_lift": each.takes_two,
    }


def _baked(each: Baking) -> dict[str, Any]:
    cake = each.inner
    return {
        "tier": each.tier,
        "kind": cake.kind,
        "layers": cake.layers,
        "inner_boards": cake.boards,
        "layer_mm": cake.layer_depth,
        "filling": cake.filling,
        "fillings": cake.fillings,
        "filling_mm": cake.filling_depth,
        "filling_g": each.filling,
        "tins": cake.tins,
        "bakes": len(cake.bakes),
        "batter_g": each.batter,
        "batter_in_tins": [{"tins": tins, "mm": deep} for tins, deep in each.in_tins],
        "source": each.source,
    }


def _carved(each: Carved) -> dict[str, Any]:
    layer = each.layer
    return {
        "tier": each.tier,
        "layer": layer.number,
        "tin": str(layer.tin),
        "base_mm": layer.base,
        "top_mm": layer.top,
        "base_across_mm": each.base_across,
        "top_across_mm": each.top_across,
        "cut_off_g": each.cut_off,
    }


def _rolled(each: Rolled, estimates: Estimates) -> dict[str, Any]:
    return {
        "template": each.piece,
        "kind": each.kind,
        "colour": each.colour,
        "thickness_mm": each.thickness,
        "mass_g": weighed(each.rolled, estimates),
    }


def _timed(each: Timed) -> dict[str, Any]:
    step = each.step
    return {
        "tier": step.tier,
        "step": step.name,
        "what": step.words,
        "minutes": step.minutes,
        "wait_h": step.wait,
        "stage": step.stage,
        "bake": list(step.bake) if step.bake else None,
        "caution": step.caution,
        "templates": list(step.pieces),
        "days_before": each.days_before,
        **{
            name: moment.isoformat() if moment else None
            for name, moment in (
                ("start", each.start),
                ("end", each.end),
                ("latest", each.latest),
                ("earliest", each.earliest),
            )
        },
    }


def _dowels(stack: DecoratedStack) -> Iterator[dict[str, Any]]:
    """Yield the dowels of each tier that carries another, with what they bear, and those inside."""
    estimates = stack.estimates
    weights = quantities.weights_above(stack)
    for above, seat in zip(weights, stack.seats[1:], strict=False):
        if seat.support is not None:
            yield _dowel(seat.name, seat.support, above, estimates)
    for tier, boards, above in zip(stack.tiers, stack.inner_boards, weights, strict=True):
        # below each board inside a tier they bear the cakes above it too
        own = quantities.weight(tier, estimates) / (len(boards) + 1)
        for number, board in enumerate(boards, 1):
            below = f"{tier.name}, below its inner board"
            more = own * (len(boards) + 1 - number)
            yield _dowel(below, board.support, above + more, estimates)


def _dowel(tier: str, support: Support, above: float, estimates: Estimates) -> dict[str, Any]:
    return {
        "tier": tier,
        "count": support.count,
        "length_mm": support.length,
        "positions_mm": [list(each) for each in support.places],
        "bears_g": above,
        "bears_each_g": above / support.count if support.count else None,
        "wooden_buckles_at_n": buckles_at(support.thickness, support.length, estimates.wood),
        "choices": list(support.choices),
    }


def buckles_at(thick: float, length: float, stiff: float) -> float:
    """Return the load in N at which an ideal wooden rod buckles, in mm; its ends can turn.

    Euler: pi^2 E I / L^2, with I = pi d^4 / 64 and E, how ``stiff`` it is along the grain, in
    N/mm2. An upper bound, no advice.
    """
    return math.pi**2 * stiff * math.pi * thick**4 / 64 / length**2


NESTED = {"waits": ("h", PRACTICE), "minutes": ("min", ESTIMATE), "keeps": ("days", PRACTICE)}
"""Tables within the estimates: in which unit they are, and who says so."""
UNITS = {
    **dict.fromkeys(("pack", "gum", "batch", "one_drapes"), "g"),
    **dict.fromkeys(
        ("waste", "pace", "grows", "drapes", "rough", "dust_share", "into_drum", "portions_used"),
        "%",
    ),
    **dict.fromkeys(("tins_at_once", "rise", "batter"), ""),
    "one_lifts": "kg",
    "wood": "N/mm²",
}
"""Units of estimates that are neither lengths nor densities."""


def _estimates(estimates: Estimates) -> Iterator[dict[str, Any]]:
    """Yield each value that quantities are estimated with, and where it comes from."""
    for name, info in type(estimates).model_fields.items():
        value = getattr(estimates, name)
        if name in NESTED:
            yield from _nested(name, value)
            continue
        if name == "cake":
            value = estimates.cake_density.value
        if value is None:
            continue
        yield {
            "name": name,
            "meaning": info.description,
            "value": getattr(value, "mm", value),
            "unit": "mm" if isinstance(value, Length) else UNITS.get(name, "g/cm³"),
            "source": estimates.source(name),
        }


def _nested(table: str, found: Table) -> Iterator[dict[str, Any]]:
    """Yield each value of a table within the estimates."""
    unit, source = NESTED[table]
    for name, info in type(found).model_fields.items():
        yield {
            "name": f"{table}.{name}",
            "meaning": info.description,
            "value": getattr(found, name),
            "unit": unit,
            "source": GIVEN if name in found.model_fields_set else source,
        }
