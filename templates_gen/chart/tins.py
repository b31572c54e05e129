"""The rows of the chart: a tin planned as a tier, panelled and draped."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from templates_gen.bench.bench_list import bench
from templates_gen.cakefile.lengths import Length, length_of, parse_length
from templates_gen.cakefile.reading import cake_from
from templates_gen.plan import Plan, make_plan
from templates_gen.units import MM_PER_INCH

SIZES = tuple(parse_length(f"{inches} in") for inches in (4, 6, 8, 10, 12, 14))
"""The usual tins: common practice, no source."""
SHAPES = ("round", "square")
STEP = 2 * MM_PER_INCH
"""How much smaller than a tier the one above it is, for its dowels: common practice, no source."""
NAME = "tin"


@dataclass(frozen=True, slots=True)
class Layers:
    """What every tin of a chart has: its depth, and how thick it is coated and covered."""

    depth: Length
    coating: Length | None = None
    paste: Length | None = None
    mould: Length | None = None

    def keys(self, cover: str) -> dict[str, Any]:
        """Return them as keys of a tier with this cover."""
        given = {"depth": self.depth, "coating": self.coating, "fondant": self.paste}
        found: dict[str, Any] = {key: value for key, value in given.items() if value is not None}
        if self.mould is not None and cover == "panelled":
            found["panels"] = {"mould": self.mould}
        return {**found, "cover": cover}


@dataclass(frozen=True, slots=True)
class Tin:
    """A row: lengths in mm, masses in grams; ``dowels`` is None for one that carries no tier."""

    shape: str
    size: Length
    strip: float
    disc: float
    rolling_out: float
    panelled: float
    draped: float
    coating: float
    ribbon: float
    drum: float
    dowels: int | None
    portions: int
    panels: int | None
    gap: float | None


def tins(sizes: Sequence[Length], shapes: Sequence[str], layers: Layers) -> Iterator[Tin]:
    """Yield a row for each tin. Raises CakeError for one that cannot be made."""
    for shape in shapes:
        for size in sizes:
            yield _tin(size, shape, layers)


def stack_of(size: Length, shape: str, layers: Layers, cover: str) -> dict[str, Any]:
    """Return the cake that a row is read off: the tin, and on it one that is 2 in smaller."""
    own = {"name": NAME, "size": size, "shape": shape, **layers.keys(cover)}
    tiers = [own]
    if size.mm - STEP >= STEP - 1e-9:
        upper = {**own, "name": "above", "size": length_of(size.mm - STEP)}
        upper.pop("panels", None)
        tiers.append(upper)
    return {"tier": tiers}


def _tin(size: Length, shape: str, layers: Layers) -> Tin:
    panelled, draped = (
        make_plan(cake_from(stack_of(size, shape, layers, cover)))
        for cover in ("panelled", "drape")
    )
    values, lists = _values(panelled), bench(panelled)
    dowels = [each["count"] for each in lists["dowels"] if each["tier"] == NAME]
    covered = panelled.stack.tiers[0].covered
    return Tin(
        shape,
        size,
        values["wrap"]["finished_length_mm"],
        values["disc"]["across_mm"],
        _values(draped)["rolling-out-circle"]["across_mm"],
        _grams(lists, "paste"),
        _grams(bench(draped), "paste"),
        _grams(lists, "coating"),
        covered.foot.girth,
        panelled.stack.seats[0].outline.across,
        dowels[0] if dowels else None,
        next(each["portions"]["wedding"] for each in lists["servings"] if each["tier"] == NAME),
        values["panel"]["count"] if layers.mould else None,
        values["panel"]["per_join_mm"] if layers.mould else None,
    )


def _values(plan: Plan) -> dict[str, Mapping[str, Any]]:
    """Return the figures of the tin's pieces by kind."""
    return {piece.kind: piece.values for piece in plan.pieces if piece.tier == NAME}


def _grams(found: Mapping[str, Any], key: str) -> float:
    """Return what of one kind the tin takes, with waste; panels set on the covering are not in."""
    kinds = (None, "fondant")
    return math.fsum(
        each["mass_g"] for each in found[key] if each["tier"] == NAME and each.get("kind") in kinds
    )
