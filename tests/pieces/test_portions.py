"""Portion guides: every portion is as large as was asked for, and none is counted twice."""

from __future__ import annotations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from templates_gen.drawing.drawing import Drawing
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.outline import Outline
from templates_gen.guides.decorated import build_stack
from templates_gen.pieces.portions import _grid, _inwards, _rings
from tests.cakes import cake, pieces_of
from tests.shapes import EVERY


def guides(lines: str, size: str = "8 in", more: str = "") -> list[dict[str, object]]:
    """Return the figures of the portion guides of a cake."""
    text = f"[portions]\n{lines}\n[[tier]]\nsize = '{size}'\ndepth = '4 in'\n{more}"
    return [dict(p.values) for p in pieces_of(cake(text)) if p.kind == "portions"]


def test_a_square_by_hand() -> None:
    """An 8 in square makes 8 by 4 portions of 1 by 2 in, and nothing is left."""
    (found,) = guides("width = '1 in'\nlength = '2 in'", more="shape = 'square'")
    assert (found["portion_count"], found["edge_pieces"]) == (32, 0)


def test_a_portion_without_a_crumb_of_its_corner_is_whole() -> None:
    """Of 1290 mm² a corner rounded by 0.5 mm takes 0.05; one rounded by 3 mm takes 1.9: too much.

    What a rounded corner takes is (1 - pi / 4) r².
    """
    square = "shape = 'square'\ncorner = '{} mm'\n"
    found = [guides("", more=square.format(corner)) for corner in (0.5, 3)]
    counted = [(each["portion_count"], each["edge_pieces"]) for (each,) in found]
    assert counted == [(32, 0), (28, 4)]


def test_rings_by_hand() -> None:
    """On an 8 in round: rings 3.5, 2.5 in from the middle to their own, then what is left.

    Girths at the middles of the rings over 2 in, cut off: 2 pi 3.5 / 2 = 10.99, 2 pi 2.5 / 2 =
    7.85, 2 pi 1.5 / 2 = 4.71; the middle of 1 in radius holds 3.14 sq in, one portion of 2 sq in.
    """
    (found,) = guides("cuts = 'rings'")
    assert found["portion_count"] == 10 + 7 + 4 + 1


def test_rings_end_before_the_core_is_narrow() -> None:
    """What is left in the middle of 300 x 80 mm stays one and a half portions wide: our choice."""
    area = shapely.box(0, 0, 300, 80)
    inner = [ring for ring, _ in _inwards(area, 20, 1000)]
    assert len(inner) == 1
    assert shapely.bounds(inner[0])[3] - shapely.bounds(inner[0])[1] == pytest.approx(40)
    assert [ring for ring, _ in _inwards(area, 30, 1000)] == []


def test_only_what_is_eaten() -> None:
    """Without [portions], and for a dummy, there is no guide."""
    assert guides("", more="dummy = true") == []
    plain = pieces_of(cake("[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"))
    assert "portions" not in {piece.kind for piece in plain}


@settings(max_examples=40, deadline=None)
@given(EVERY, st.floats(20, 60), st.floats(20, 60))
def test_grids(outline: Outline, width: float, length: float) -> None:
    """The whole cells of a grid, and pieces at the edge, are what the cuts leave of the shape."""
    area = region(outline.path())
    whole, edge, drawing = _grid(area, width, length)
    shares = [part.area / (width * length) for part in parts_of(area, drawing)]
    surely, perhaps = (sum(share > 1 - lack for share in shares) for lack in (1e-9, 5e-3))
    assert surely <= whole <= perhaps
    assert whole * width * length <= area.area + 1
    assert edge > 0 or whole * width * length == pytest.approx(area.area, rel=1e-3)


@settings(max_examples=40, deadline=None)
@given(EVERY, st.floats(20, 60), st.floats(20, 60))
def test_rings(outline: Outline, width: float, length: float) -> None:
    """The cuts leave as many parts as are counted, none of them less than a portion."""
    area = region(outline.path())
    whole, edge, drawing = _rings(area, width, length)
    parts = [part.area for part in parts_of(area, drawing)]
    portion = min(width * length, area.area)
    assert sum(size > 0.998 * portion for size in parts) >= whole >= 1
    assert len(parts) == pytest.approx(whole + edge, abs=edge)
    assert edge or min(parts) > 0.998 * portion
    outer = outline.bounds.expanded(0.1)
    assert all(outer.contains(stroke.path.bounds) for stroke in drawing.strokes)


@pytest.mark.parametrize("size", ["6 in", "8 in", "10 in", "12 in"])
def test_rings_of_a_square_by_hand(size: str) -> None:
    """A square of an even number of inches is wholly cut into portions of 1 by 2 in."""
    (found,) = guides("cuts = 'rings'", size, more="shape = 'square'")
    assert found["portion_count"] == int(size.split()[0]) ** 2 / 2


@pytest.mark.parametrize(
    "plan",
    [
        "shape = 'heart'",
        "shape = 'oval'\nshort = '5 in'",
        "shape = 'custom'\noutline = 'M0 0 h80 v30 h-30 v60 h-20 v-60 h-30 z'",
    ],
)
def test_rings_have_even_portions(plan: str) -> None:
    """On every shape the smallest part between the cuts is a portion."""
    made = cake(f"[portions]\ncuts = 'rings'\n[[tier]]\nsize = '10 in'\ndepth = '4 in'\n{plan}")
    (tier,) = build_stack(made).tiers
    area = region(tier.bare.rim.path())
    whole, edge, drawing = _rings(area, 25.4, 50.8)
    sizes = sorted(part.area for part in parts_of(area, drawing))
    assert edge == 0
    assert len(sizes) == whole
    assert sizes[0] > 0.998 * 25.4 * 50.8


def parts_of(area: BaseGeometry, drawing: Drawing) -> list[BaseGeometry]:
    """Return the parts of an area that cuts leave."""
    lines = [
        shapely.LineString(points)
        for stroke in drawing.strokes
        for points, _ in sampled(stroke.path)
    ]
    # on a grid, so that a cut that ends beside an edge ends on it
    noded = shapely.union_all([*lines, area.boundary], grid_size=1e-3)
    parts = [part for part in shapely.get_parts(shapely.polygonize([noded])) if part.area > 1]
    room = area.buffer(0.01)
    return [part for part in parts if room.covers(part.representative_point())]


@pytest.mark.parametrize("cuts", ["grid", "rings"])
def test_the_count_is_printed(cuts: str) -> None:
    """The guide says how many portions it makes."""
    text = f"[portions]\ncuts = '{cuts}'\n[[tier]]\nsize = '10 in'\ndepth = '4 in'\n"
    (piece,) = [p for p in pieces_of(cake(text)) if p.kind == "portions"]
    count = piece.values["portion_count"]
    assert any(label.text.startswith(f"{count} portions") for label in piece.drawing.labels)


def test_a_guide_says_in_which_unit_its_portions_are() -> None:
    """Numbers without a unit have that of the file."""
    found = cake(
        "unit = 'in'\nportions = { width = 1, length = 2 }\n[[tier]]\nsize = 8\ndepth = 4\n"
    )
    (piece,) = (piece for piece in pieces_of(found) if piece.kind == "portions")
    words = " ".join(label.text for label in piece.drawing.labels)
    assert "portions of 1 in × 2 in" in words
