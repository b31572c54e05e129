"""Cascades on a ledge: their places on a part of it, the rest of the guide on few sheets."""

from __future__ import annotations

import math

import pytest

from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Point
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.cascade_apart import cascade_apart
from templates_gen.printing.templates import templates
from tests.cakes import cake, sample_plan

TIERS = """
[[tier]]
name = "low"
size = "10 in"
depth = "2 in"
[[tier]]
name = "high"
size = "5 in"
depth = "2 in"
"""
CASCADE = """
[[cascade]]
shape = "blossom"
sizes = ["16 mm"]
start_turn = {turn}
end_turn = {turn}
width = "30 mm"
density = 40
"""


def parts(plan: Plan) -> list[tuple[Piece, Piece, Piece]]:
    """Return each guide with a cascade, whole and without it, and the part that has the cascade."""
    found = ((piece, cascade_apart(piece, plan)) for piece in plan.pieces)
    return [(piece, *apart) for piece, apart in found if apart is not None]


def places(piece: Piece) -> list[Point]:
    """Return the middles of the marks of a guide that are small both ways, such as blossoms."""
    marks = (s.path.bounds for s in piece.drawing.strokes if s.role is Role.GUIDE)
    return [box.centre for box in marks if 8 < box.width < 50 and 8 < box.height < 50]


@pytest.fixture(scope="module", name="plan")
def _plan() -> Plan:
    return sample_plan("golden-wedding")


def test_the_part_has_the_places_of_the_whole_guide(plan: Plan) -> None:
    """The pieces of the cascade lie on it as on the whole guide, moved as one."""
    assert len(parts(plan)) == 3
    for whole, plain, part in parts(plan):
        lost = [at for at in places(whole) if at not in places(plain)]
        found = places(part)
        assert len(found) == len(lost) > 0
        move = found[0][0] - lost[0][0], found[0][1] - lost[0][1]
        for before, after in zip(lost, found, strict=True):
            assert after == pytest.approx((before[0] + move[0], before[1] + move[1]), abs=1e-6)
        assert part.size.width * part.size.height < whole.size.width * whole.size.height / 2


def test_the_part_fits_between_the_tier_and_the_edge(plan: Plan) -> None:
    """Its edge keeps between the radii of the tier that stands there and of the ledge itself."""
    seats = {seat.owner: seat for seat in plan.stack.seats}
    for whole, _, part in parts(plan):
        seat = seats[whole.owner]
        inner, outer = seat.upper.covered.foot.radius, seat.outline.radius
        assert inner is not None
        assert outer is not None
        # the mark points to the middle of the ledge from its edge
        mark = next(
            s.path.bounds
            for s in part.drawing.strokes
            if s.role is Role.GUIDE and min(s.path.bounds.width, s.path.bounds.height) < 1e-9
        )
        name = next(label.text for label in part.drawing.labels if label.text in TOWARDS)
        x, y = TOWARDS[name]
        edge = mark.x1 if x > 0 else mark.x0, mark.y1 if y > 0 else mark.y0
        middle = edge[0] - x * outer, edge[1] - y * outer
        far = [math.dist(middle, point) for _, points in part.outline.commands for point in points]
        assert min(far) == pytest.approx(inner, abs=0.02)
        assert max(far) == pytest.approx(outer, abs=0.02)


TOWARDS: dict[str, Point] = {"front": (0, -1), "back": (0, 1), "left": (-1, 0), "right": (1, 0)}


def test_what_is_left_is_printed_on_few_sheets(plan: Plan) -> None:
    """Without the cascade a guide is drawn with the circle guide, or a part on the fold."""
    made = [piece for piece in templates(plan) if piece.kind == "placement-guide"]
    assert [(piece.title, piece.printed) for piece in made] == [
        ("drum: placement guide", False),
        ("drum: cascade guide", True),
        ("ballroom: placement guide, quarter on the fold", True),
        ("ballroom: cascade guide", True),
        ("names: placement guide, half on the fold", True),
        ("names: cascade guide", True),
    ]


@pytest.mark.parametrize(("turns", "apart"), [((0,), 2), ((90,), 2), ((0, 180), 0)])
def test_a_cascade_on_both_sides_keeps_the_whole_guide(turns: tuple[int, ...], apart: int) -> None:
    """One part has all of the cascade or there is none: nothing of it is lost between two."""
    cascades = "".join(CASCADE.format(turn=turn) for turn in turns)
    plan = make_plan(cake(TIERS + cascades))
    guides = [piece for piece in plan.pieces if "places of the cascade" in piece.use]
    assert len(guides) == 2
    assert len(parts(plan)) == apart
