"""Outlines of every shape, for laws."""

from __future__ import annotations

from hypothesis import strategies as st

from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.outline import Outline
from tests.strategies import OWN

SIZES = st.floats(60, 600)


@st.composite
def _oval(draw: st.DrawFn) -> Outline:
    size = draw(SIZES)
    return SHAPES["oval"](size, size * draw(st.floats(0.4, 1)))


@st.composite
def _flat_sided(draw: st.DrawFn) -> Outline:
    size = draw(SIZES)
    short = size * draw(st.floats(0.4, 1))
    return SHAPES["rectangle"](size, short, short / 2 * draw(st.sampled_from([0, 0.1, 0.5, 1])))


@st.composite
def _polygon(draw: st.DrawFn) -> Outline:
    size, sides = draw(SIZES), draw(st.integers(3, 12))
    return SHAPES["polygon"](size, sides, size / 2 * draw(st.sampled_from([0, 0.1, 0.5])))


PLAIN = {
    "round": st.builds(SHAPES["round"], SIZES),
    "oval": _oval(),
    "square": st.builds(SHAPES["square"], SIZES, st.just(0.0) | st.floats(0.1, 30)),
    "rectangle": _flat_sided(),
    "polygon": _polygon(),
    "petal": st.builds(SHAPES["petal"], SIZES, st.integers(5, 12)),
    "heart": st.builds(SHAPES["heart"], SIZES),
    "custom": st.builds(SHAPES["custom"], st.sampled_from(OWN), SIZES),
}
"""A strategy for each shape of the table."""
EVERY: st.SearchStrategy[Outline] = st.one_of(*PLAIN.values())
CONVEX: st.SearchStrategy[Outline] = st.one_of(
    *(PLAIN[name] for name in ("round", "oval", "square", "rectangle", "polygon"))
)
