"""Portion guides: every portion is as large as was asked for, and none is counted twice."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity

from templates_gen.drawing.outline import Outline
from templates_gen.drawing.polygons import region, sampled
from templates_gen.pieces.portions import _grid, _rings
from templates_gen.pieces.table import build_pieces
from tests.cakes import cake
from tests.shapes import EVERY


def guides(lines: str, size: str = "8 in", more: str = "") -> list[dict[str, object]]:
    """Return the figures of the portion guides of a cake."""
    text = f"[portions]\n{lines}\n[[tier]]\nsize = '{size}'\ndepth = '4 in'\n{more}"
    return [dict(p.values) for p in build_pieces(cake(text)) if p.kind == "portions"]


def test_a_square_by_hand() -> None:
    """An 8 in square makes 8 by 4 portions of 1 by 2 in, and nothing is left."""
    (found,) = guides("width = '1 in'\nlength = '2 in'", more="shape = 'square'")
    assert (found["portion_count"], found["edge_pieces"]) == (32, 0)


def test_rings_by_hand() -> None:
    """On an 8 in round: rings 3.5, 2.5 in from the middle to their own, then what is left.

    Girths at the middles of the rings over 2 in, cut off: 2 pi 3.5 / 2 = 10.99, 2 pi 2.5 / 2 =
    7.85, 2 pi 1.5 / 2 = 4.71; the middle of 1 in radius holds 3.14 sq in, one portion of 2 sq in.
    """
    (found,) = guides("cuts = 'rings'")
    assert found["portion_count"] == 10 + 7 + 4 + 1


def test_only_what_is_eaten() -> None:
    """Without [portions], and for a dummy, there is no guide."""
    assert guides("", more="dummy = true") == []
    plain = build_pieces(cake("[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"))
    assert "portions" not in {piece.kind for piece in plain}


@settings(max_examples=40, deadline=None)
@given(EVERY, st.floats(20, 60), st.floats(20, 60))
def test_grids(outline: Outline, width: float, length: float) -> None:
    """The whole cells of a grid, and pieces at the edge, are what the cuts leave of the shape."""
    whole, edge, drawing = _grid(outline, width, length)
    area = region(outline.path())
    # a little longer, so that they cross the edge
    cuts = [
        affinity.scale(shapely.LineString(points), 1.0001, 1.0001).coords
        for stroke in drawing.strokes
        for points, _ in sampled(stroke.path)
    ]
    lines = shapely.MultiLineString([*cuts, *[ring.coords for ring in [area.boundary]]])
    parts = [p for p in shapely.get_parts(shapely.polygonize([shapely.node(lines)])) if p.area > 1]
    inside = [part for part in parts if area.covers(part.representative_point())]
    shares = [part.area / (width * length) for part in inside]
    surely, perhaps = (sum(share > 1 - lack for share in shares) for lack in (1e-9, 5e-3))
    assert surely <= whole <= perhaps
    assert whole * width * length <= area.area + 1
    assert edge > 0 or whole * width * length == pytest.approx(area.area, rel=1e-3)


@settings(max_examples=40, deadline=None)
@given(EVERY, st.floats(20, 60), st.floats(20, 60))
def test_rings(outline: Outline, width: float, length: float) -> None:
    """Portions of rings and what they count never come to more than the shape holds."""
    whole, edge, drawing = _rings(outline, width, length)
    assert edge == 0
    assert whole >= 1
    assert (whole - 1) * width * length <= outline.area * 1.02
    outer = outline.bounds.grown(0.1)
    assert all(outer.holds(stroke.path.bounds) for stroke in drawing.strokes)


@pytest.mark.parametrize("cuts", ["grid", "rings"])
def test_the_count_is_printed(cuts: str) -> None:
    """The guide says how many portions it makes."""
    text = f"[portions]\ncuts = '{cuts}'\n[[tier]]\nsize = '10 in'\ndepth = '4 in'\n"
    (piece,) = [p for p in build_pieces(cake(text)) if p.kind == "portions"]
    count = piece.values["portion_count"]
    assert any(label.text.startswith(f"{count} portions") for label in piece.drawing.labels)
