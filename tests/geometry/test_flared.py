"""Layers square to tapered sides of plans with creases and sharp corners."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt
import pytest

from templates_gen.drawing.shapes import SHAPES
from templates_gen.geometry.flared import layer
from templates_gen.geometry.outline import Outline

PLANS = {
    "heart": SHAPES["heart"](200.0),
    "petal": SHAPES["petal"](220.0, 7),
    "square": SHAPES["square"](180.0, 0.0),
    "oval": SHAPES["oval"](200.0, 140.0),
    "tee": SHAPES["custom"]("M0 0 H200 V90 H130 V170 H70 V90 H0 Z", 220.0),
}
FEW, MANY = 150, 4000


def places(outline: Outline, count: int) -> npt.NDArray[np.float64]:
    """Return points along an outline, its corners among them."""
    even = [outline.at(outline.girth * share) for share in np.arange(count) / count]
    return np.array([*even, *(point for point, _ in outline.starts)])


@pytest.mark.parametrize("narrowing", [0.003, -0.002])
@pytest.mark.parametrize("name", PLANS)
def test_a_layer_is_square_to_the_side(name: str, narrowing: float) -> None:
    """Every place of it is as far from the nearest line to the tip of the cone as it is thick."""
    plan, thick, tip = PLANS[name], 6.0, np.array([0.0, 0.0, 1 / narrowing])
    foot = np.pad(places(plan, MANY), ((0, 0), (0, 1)))
    ways = (tip - foot) / np.linalg.norm(tip - foot, axis=1)[:, None]
    sizes = (1.0, 1 - 80 * narrowing)
    rings = layer(plan, narrowing, thick, sizes)
    assert rings is not None
    for ring, size in zip(rings, sizes, strict=True):
        high = (1 - size) / narrowing
        for x, y in places(ring, FEW):
            off = np.array([x, y, high]) - foot
            along = np.einsum("ij,ij->i", off, ways)
            far = np.linalg.norm(off - along[:, None] * ways, axis=1).min()
            assert far == pytest.approx(thick, abs=5e-3)
    assert len({len(ring.bends) for ring in rings}) == 1
    assert [len(ring.corners) for ring in rings] == 2 * [len(plan.corners)]
