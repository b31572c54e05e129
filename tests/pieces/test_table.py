"""The stage that makes pieces: what geometry cannot do is told at the tier it belongs to."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import partial

import pytest
from shapely import Polygon

from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Owner, Piece
from templates_gen.errors import CakeError, GeometryError
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import polyline
from templates_gen.guides.decorated import DecoratedStack, build_stack
from templates_gen.pieces.table import made
from templates_gen.tiers.seat import Seat
from templates_gen.tiers.solid import Solid
from tests.cakes import cake, one_tier, pieces_of

TIERS = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"
BOW: tuple[Point, ...] = ((0.0, 0.0), (90.0, 60.0), (90.0, 0.0), (0.0, 60.0))
"""An edge that crosses itself."""


def unmade(subject: object) -> Iterator[Piece]:
    """Fail as geometry does, before there is a piece."""
    raise GeometryError("the curves do not meet")
    yield


def crossed(subject: object) -> Iterator[Piece]:
    """Yield a piece whose edge crosses itself."""
    edge = polyline(BOW, closed=True)
    yield Piece(Owner("t", "t"), "wrap", "T", "covered", "", edge, Drawing())


def second_tier(stack: DecoratedStack) -> Solid:
    """Return the upper tier of two."""
    return stack.tiers[1]


def its_seat(stack: DecoratedStack) -> Seat:
    """Return the surface that the upper tier of two stands on."""
    return stack.seats[1]


@pytest.mark.parametrize("subject", [second_tier, its_seat])
@pytest.mark.parametrize("build", [unmade, crossed])
def test_geometry_that_fails_is_a_problem_of_the_tier(
    build: Callable[[object], Iterable[Piece]], subject: Callable[[DecoratedStack], object]
) -> None:
    """It names the tier, what was found, what is allowed and what to do."""
    with pytest.raises(CakeError) as caught:
        made(partial(build, subject(build_stack(cake(TIERS)))))
    (problem,) = caught.value.problems
    assert problem.key == ("tier", 1)
    assert problem.found in ("the curves do not meet", "the outline crosses itself")
    assert problem.allowed
    assert problem.advice


def test_a_surface_that_cannot_be_is_a_problem_of_its_tier() -> None:
    """A layer that bridges the mouth of a hollow is told of every tier with such an outline."""
    mouth = "M0 0 H200 V90 H190 V10 H10 V190 H190 V110 H200 V200 H0 Z"
    tier = f"[[tier]]\nsize = '8 in'\ndepth = '4 in'\nshape = 'custom'\noutline = '{mouth}'\n"
    with pytest.raises(CakeError) as caught:
        pieces_of(cake(2 * (tier + "coating = '12 mm'\n")))
    for index, problem in enumerate(caught.value.problems):
        assert problem.key == ("tier", index, "outline")
        assert "closes round a hole" in problem.found
    assert len(caught.value.problems) == 2


def test_a_cover_that_closes_round_a_hollow_is_a_problem_of_the_cover() -> None:
    """One sheet of paste cannot go down a hollow that it bridges at the mouth."""
    hollow = "M0 0 H200 V60 H180 V20 H20 V180 H180 V140 H200 V200 H0 Z"
    tier = f"[[tier]]\nsize = '30 in'\ndepth = '6 in'\nshape = 'custom'\noutline = '{hollow}'\n"
    with pytest.raises(CakeError) as caught:
        pieces_of(cake(tier + "cover = 'drape'\n"))
    (problem,) = caught.value.problems
    assert problem.key == ("tier", 0, "cover")
    assert "closes round a hole" in problem.found
    assert "panelled" in problem.advice


def test_a_narrow_top_has_a_narrow_top_edge_guide() -> None:
    """A ring leaves two fifths of the way to the middle: on a top 48 mm deep it is 14.4 mm wide."""
    plain = "shape = 'rectangle'\nshort = '30 mm'\ndummy = true\ncoating = '5 mm'\n"
    drips = "cover = 'panelled'\nfondant = '4 mm'\n[tier.drips]\nguide = 'top edge'\n"
    (ring,) = [p for p in pieces_of(one_tier(plain + drips)) if p.kind == "top-edge-guide"]
    outer, inner = (Polygon(points) for points, _ in sampled(ring.outline))
    assert outer.exterior.distance(inner.exterior) == pytest.approx(14.4, abs=0.01)
