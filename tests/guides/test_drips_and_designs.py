"""Drips and a design on one side: on paper both can be read."""

from __future__ import annotations

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import sampled_lines
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import line, polyline
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.collar import build
from templates_gen.pieces.marks import QUARTERS
from templates_gen.plan import make_plan
from templates_gen.tiers.pose import Pose
from templates_gen.views.elevation import tier_seen
from templates_gen.views.view import View
from tests.random_cakes.chance import Seeded, Table
from tests.random_cakes.files import at_hand
from tests.random_cakes.sides import Room, design, drips

SIDES = 24
"""Sides that are tried: of some the drips or the design are refused."""
ON_EDGE = 0.05
"""So near to the edge of a drip a line lies on it, mm."""


def decorated() -> Iterator[tuple[DecoratedTier, Piece]]:
    """Yield tiers with random drips and a random design, each with its collar."""
    for seed in range(SIDES):
        chance, taper = Seeded(seed), seed % 3 == 0
        room = Room(depth=110.0, girth=600.0, corners=0)
        tier: Table = {
            "size": "8 in",
            "depth": "120 mm",
            **({"bottom_size": "9 in"} if taper else {}),
            "drips": {**drips(chance, room), "guide": "collar", "corners": False},
            "design": [{**design(chance, room), "paper": "collar"}],
        }
        try:
            (made,) = make_plan(cake_from({"tier": [tier]}, folder=at_hand())).stack.tiers
            (collar,) = build(made)
        except CakeError:
            continue
        yield made, collar


def inside(drawing: Drawing, drips_: BaseGeometry) -> float:
    """Return how much of the lines of a drawing lies within drips, off their edges, mm."""
    lines = [sampled_lines(stroke.path) for stroke in drawing.strokes]
    return float(sum(shapely.intersection(each, drips_).length for each in lines))


def test_a_design_stops_beside_the_drips_that_hang_over_it() -> None:
    """On the collar no line of it runs on under a drip, and the drips themselves are whole."""
    crossed = 0
    for tier, collar in decorated():
        covering, *others = [each for each in tier.guides if each.layer is tier.covered]
        assert covering.covers
        side = tier.covered.side
        flat = side.unroll(covering.drawing)
        edges = shapely.union_all([region(stroke.path) for stroke in flat.strokes])
        # where the collar marks front and quarters, in a role that a design may have too
        us = [share * side.girth for share, _ in QUARTERS]
        marks = (Stroke(line((u, -30.0), (u, 30.0)), Role.GUIDE) for u in us)
        marked = side.unroll(Drawing(tuple(marks)))
        beside = [sampled_lines(each.path).buffer(ON_EDGE) for each in marked.strokes]
        within = edges.buffer(-ON_EDGE).difference(shapely.union_all(beside))
        roles = {stroke.role for each in others for stroke in each.drawing.strokes}
        raw = sum(inside(side.unroll(each.drawing), within) for each in others)
        crossed += raw > 1
        drawn = Drawing(tuple(each for each in collar.drawing.strokes if each.role in roles))
        assert inside(drawn, within) < ON_EDGE
        kept = shapely.union_all([sampled_lines(each.path) for each in collar.drawing.strokes])
        shown = edges.boundary.intersection(collar.area)
        assert shapely.difference(shown, kept.buffer(ON_EDGE)).length < 1
    assert crossed > 5


def in_front(view: View, drawing: Drawing) -> BaseGeometry:
    """Return the areas of drips that are whole in sight, as they look from the front."""
    found: list[BaseGeometry] = []
    for stroke in drawing.strokes:
        for points, _ in sampled(stroke.path):
            if all(view.is_seen(u, v) for u, v in points):
                found.append(region(polyline([view.seen(u, v) for u, v in points], closed=True)))
    return shapely.union_all(found)


def test_from_the_front_a_design_stops_beside_the_drips_too() -> None:
    """No line runs on under a drip of the elevation, though the design itself goes on there."""
    crossed = 0
    for tier, _ in decorated():
        view = View(tier, Pose(), 0.0)
        covering, *others = [each for each in tier.guides if each.layer is tier.covered]
        within = in_front(view, covering.drawing).buffer(-ON_EDGE)
        assert not within.is_empty
        seen = tier_seen(view)
        assert inside(seen, within) < ON_EDGE
        side = tier.covered.side
        edges = [region(stroke.path) for stroke in side.unroll(covering.drawing).strokes]
        whole = shapely.union_all(edges).buffer(-ON_EDGE)
        crossed += sum(inside(side.unroll(each.drawing), whole) for each in others) > 1
    assert crossed > 5
