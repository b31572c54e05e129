"""Hypothesis strategies: random cakes, pieces and numbers the laws are tested on."""

from __future__ import annotations

import math
from typing import Any

from hypothesis import reject
from hypothesis import strategies as st

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import Length, length_of
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.shape_keys import shape_keys
from templates_gen.drawing.patterns import PATTERNS
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError
from templates_gen.plan import Plan, make_plan
from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Drawn, Table
from tests.random_cakes.files import at_hand


def mm(least: float, most: float) -> st.SearchStrategy[Length]:
    """Lengths in mm, to a hundredth."""
    return st.integers(round(least * 100), round(most * 100)).map(
        lambda hundredths: length_of(hundredths / 100)
    )


@st.composite
def drips(draw: st.DrawFn, depth: float) -> dict[str, Any]:
    """Drips that fit a tier of the depth and do not touch."""
    width = draw(st.integers(4, 12))
    least = int(1.5 * width) + 1
    shortest = draw(st.integers(least, max(least, int(depth / 2))))
    return {
        "spacing": length_of(draw(st.integers(2 * width + 4, 60))),
        "width": length_of(width),
        "shortest": length_of(shortest),
        "longest": length_of(draw(st.integers(shortest, max(shortest, int(depth))))),
        "pattern": draw(st.sampled_from(sorted(PATTERNS))),
        "waves": draw(st.integers(1, 3)),
        "shuffle": draw(st.integers(0, 999)),
        "lengths": [length_of(shortest), length_of(least), length_of(shortest)],
        "line": "M0 0 C 30 40 70 60 100 0",
        "front": draw(st.sampled_from(["drip", "gap"])),
        "guide": draw(st.sampled_from(["collar", "top edge", "both"])),
    }


@st.composite
def panels(draw: st.DrawFn, depth: float, replace_wrap: bool) -> dict[str, Any]:
    """Panels that fit a tier of the depth."""
    measure = draw(
        st.one_of(
            st.fixed_dictionaries({"count": st.integers(1, 24)}),
            st.fixed_dictionaries({"width": mm(20, 150)}),
            st.fixed_dictionaries({"mould": mm(20, 150)}),
            st.just({}),
        )
    )
    rows = draw(st.integers(1, 3))
    height = draw(st.one_of(st.none(), mm(5, math.floor(depth / rows))))
    return {
        **measure,
        **({"height": height} if height else {}),
        "rows": rows,
        "joins": draw(st.sampled_from(["in line", "staggered"])),
        "place": draw(st.sampled_from(["base", "rim"])),
        "front": draw(st.sampled_from(["panel", "join"])),
        "replace_wrap": replace_wrap,
    }


@st.composite
def plans(draw: st.DrawFn, size: float) -> dict[str, Any]:
    """Draw a shape of the size in mm, with the keys it takes."""
    shape = draw(st.sampled_from(sorted(SHAPES)))
    taken = shape_keys(shape)
    plan: dict[str, Any] = {"shape": shape}
    if "short" in taken:
        plan["short"] = length_of(size * draw(st.sampled_from([0.6, 0.8, 1.0])))
    if "corner" in taken and draw(st.booleans()):
        plan["corner"] = length_of(draw(st.integers(0, int(size / 5))))
    if "sides" in taken:
        plan["sides"] = draw(st.integers(3, 12))
    if "lobes" in taken:
        plan["lobes"] = draw(st.integers(5, 12))
    if "outline" in taken:
        plan["outline"] = draw(st.sampled_from(OWN))
    return plan


OWN = (
    "M0 0 C 0 -60 100 -60 100 0 L 50 120 Z",
    "M0 0 h80 v30 h-25 v40 h-30 v-40 h-25 z",
    "M50 0 A50 40 0 0 1 50 80 A30 40 0 0 1 50 0 Z",
)
"""Closed curves as SVG path data."""


@st.composite
def tiers(draw: st.DrawFn, size: float) -> dict[str, Any]:
    """Draw a tier of the size in mm, with or without panels and drips."""
    depth = draw(st.integers(60, 200))
    cover = draw(st.sampled_from(["drape", "panelled", "none"]))
    tier: dict[str, Any] = {
        "size": length_of(size),
        "depth": length_of(depth),
        "coating": draw(mm(0, 10)),
        "cover": cover,
        "first": draw(st.sampled_from(["top", "side"])),
        "trim": draw(mm(0, 30)),
        "rolling_out_circle": draw(st.booleans()),
    }
    if cover != "none":
        tier["fondant"] = draw(mm(2, 6))
    if draw(st.booleans()):
        replace_wrap = cover == "panelled" and draw(st.booleans())
        tier["panels"] = draw(panels(depth, replace_wrap))
    if draw(st.booleans()):
        tier["drips"] = draw(drips(depth))
    return tier


@st.composite
def values(draw: st.DrawFn) -> Table:
    """Draw the values of a cake file over all its keys; most can be made."""
    return cake_data(Drawn(draw))


@st.composite
def any_cakes(draw: st.DrawFn) -> Cake:
    """Draw a cake over all keys that can be read; three of four of them can be made."""
    try:
        return cake_from(draw(values()), folder=at_hand())
    except CakeError:
        reject()


@st.composite
def any_plans(draw: st.DrawFn) -> Plan:
    """Draw the plan of a cake over all keys."""
    try:
        return make_plan(draw(any_cakes()))
    except CakeError:
        reject()


@st.composite
def cakes(draw: st.DrawFn, most_tiers: int = 3) -> Cake:
    """Cakes of a few tiers, each smaller than the one below by enough for its layers."""
    count = draw(st.integers(1, most_tiers))
    size = draw(st.integers(120 + 60 * (count - 1), 320))
    widths = [size - 50 * place for place in range(count)]
    stack = [draw(tiers(float(width))) for width in widths]
    if count == 1:
        stack[0] |= draw(plans(float(size)))
    data = {"title": "Random", "tier": stack}
    return cake_from(data)
