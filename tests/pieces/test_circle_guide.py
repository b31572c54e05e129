"""Circle guide: a hole for every circle, each at its radius from the pivot."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Point
from templates_gen.guides.decorated import build_stack
from templates_gen.pieces.circle_guide import HOLE, circles
from tests.cakes import cake as cake_of
from tests.cakes import pieces_of
from tests.strategies import cakes


def strip(cake: Cake) -> Piece:
    """Return the circle guide of a cake."""
    return next(piece for piece in pieces_of(cake) if piece.kind == "circle-guide")


def holes(piece: Piece) -> list[Point]:
    """Return the middle of each pencil hole as seen from the pivot."""
    boxes = [s.path.bounds for s in piece.drawing.strokes]
    (pivot,) = [box.centre for box in boxes if box.width == pytest.approx(4, abs=1e-3)]
    middles = [box.centre for box in boxes if box.width == pytest.approx(2 * HOLE, abs=1e-3)]
    return [(x - pivot[0], y - pivot[1]) for x, y in middles]


@given(cakes())
def test_each_circle_of_the_cake_has_a_hole_at_its_radius(cake: Cake) -> None:
    """The distance from pivot to hole is the radius, and no circle is without one.

    A cake without circles has no strip.
    """
    if not circles(build_stack(cake)):
        assert all(piece.kind != "circle-guide" for piece in pieces_of(cake))
        return
    piece = strip(cake)
    found = sorted(math.hypot(*hole) for hole in holes(piece))
    assert found == pytest.approx(sorted(piece.values["radii_mm"]), abs=1e-3)  # type: ignore[arg-type]
    for circle in circles(build_stack(cake)):
        assert min(abs(radius - circle.radius) for radius in found) < 0.051


def test_small_circles_of_nearly_one_radius_keep_their_radius() -> None:
    """Many circles of 25 mm across, a tenth apart, are fanned out and stay true."""
    sizes = (26.0, 25.8, 25.6, 25.4, 25.2, 25.0)
    tiers = "".join(
        f"[[tier]]\nsize = '{size} mm'\ndepth = '20 mm'\ncover = 'none'\ncoating = 0\n"
        for size in sizes
    )
    piece = strip(cake_of(tiers))
    found = sorted(math.hypot(*hole) for hole in holes(piece))
    assert found[:6] == pytest.approx(sorted(size / 2 for size in sizes), abs=1e-3)


def test_every_hole_has_its_name() -> None:
    """Each hole has a label, and the name tells width and whose circle it is."""
    piece = strip(cake_of("[[tier]]\nname = 'lower'\nsize = '8 in'\ndepth = '4 in'"))
    words = [label.text for label in piece.drawing.labels]
    assert "8 in (203.2 mm): lower board, bare" in words
    assert "8 11/16 in (221.2 mm): lower covered" in words
    assert len([word for word in words if ": " in word]) == len(holes(piece))
