"""The picture: what is on it lies where the collars and the tiers say, and nothing hidden shows."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import DecoratedStack, build_stack
from templates_gen.guides.drips import drip_row
from templates_gen.views.elevation import DETAIL, FORM, elevation, from_above, views
from templates_gen.views.view import View
from tests.cakes import cake, sample
from tests.random_cakes.files import at_hand
from tests.strategies import cakes

NEAR = 0.1
"""How far a line of the picture may lie from where it should, mm of the cake."""


def lines(drawing: Drawing, role: Role) -> shapely.MultiLineString:
    """Return the lines of a role as shapely has them."""
    return shapely.MultiLineString(
        [
            points
            for stroke in drawing.strokes
            if stroke.role is role
            for points, _ in sampled(stroke.path)
        ]
    )


def feet(stack: DecoratedStack) -> list[tuple[View, float, float]]:
    """Return the middle of the foot of every drip: whose, its u and v."""
    found = []
    for view in views(stack):
        if view.tier.spec.drips is not None:
            row = drip_row(view.tier, view.tier.spec.drips, view.tier.openings)
            found += [(view, u, v) for u, v in zip(row.positions, row.lengths, strict=True)]
    return found


def in_space(stack: DecoratedStack, view: View, u: float, v: float) -> tuple[float, float, float]:
    """Return where the side of a tier puts (u, v), moved by hand to where the tier stands."""
    x, y, z = view.tier.covered.side.in_space(u, v)
    place = stack.places[view.tier.index]
    turn = math.radians(place.turn)
    below = stack.tiers[: view.tier.index]
    boards = [tier.spec.board_thickness_mm for tier in (*below, view.tier)]
    return (
        place.right + x * math.cos(turn) - y * math.sin(turn),
        place.back + x * math.sin(turn) + y * math.cos(turn),
        z + sum(tier.covered.depth for tier in below) + sum(boards),
    )


def is_in_front(stack: DecoratedStack, view: View, u: float, v: float) -> bool:
    """Say whether a place on a side is seen: it faces the viewer, and the tier hides it nowhere."""
    left, here, right = (in_space(stack, view, u + step, v) for step in (-0.5, 0.0, 0.5))
    # outwards is to the right of the way round
    if -(right[0] - left[0]) > -0.05:
        return False
    girth = view.tier.covered.side.girth
    ring = [in_space(stack, view, girth * step / 720, v)[:2] for step in range(720)]
    way = shapely.LineString([(here[0], here[1] - 1.5), (here[0], here[1] - 9999)])
    return not shapely.intersects(way, shapely.Polygon(ring))


def judge_feet(made: Cake) -> int:
    """Compare every drip's foot that is seen with the picture; return how many are."""
    stack = build_stack(made)
    drawn = lines(elevation(stack), DETAIL)
    seen = 0
    for view, u, v in feet(stack):
        if is_in_front(stack, view, u, v):
            seen += 1
            x, _, z = in_space(stack, view, u, v)
            assert shapely.distance(drawn, shapely.Point(x, z)) < NEAR
    return seen


@pytest.mark.parametrize("name", ["harbour-wedding", "lantern-birthday"])
def test_the_foot_of_a_drip_is_where_the_side_puts_it(name: str) -> None:
    """Each drip in front ends in the picture at its place in space, as long as on the collar."""
    assert judge_feet(sample(name)) > 5


def test_a_tier_that_stands_aside_and_turned() -> None:
    """Drips go with their tier, however it stands."""
    text = (
        "[[tier]]\nsize='250 mm'\ndepth='90 mm'\n[[tier]]\nsize='150 mm'\ndepth='90 mm'\n"
        "[tier.position]\nright='30 mm'\nback='12 mm'\nturn=40\n[tier.drips]\npattern='wave'\n"
    )
    assert judge_feet(cake(text)) > 5


@settings(max_examples=20, deadline=None)
@given(cakes())
def test_random_cakes(made: Cake) -> None:
    """The picture of any cake agrees with its collars and lies within its outline."""
    judge_feet(made)
    stack = build_stack(made)
    drawing = elevation(stack)
    drum = stack.seats[0].outline.across
    widest = max([drum, *(tier.covered.rim.across for tier in stack.tiers)])
    for stroke in drawing.strokes:
        box = stroke.path.bounds
        assert max(abs(box.x0), abs(box.x1)) <= widest / 2 + NEAR
        assert box.y0 >= -stack.drum_thickness - NEAR
        assert box.y1 <= stack.height + NEAR


def test_drips_behind_are_hidden() -> None:
    """Of twelve drips round a tier with one in front, the five in front show, two edge on."""
    made = cake(
        "[[tier]]\nsize='200 mm'\ndepth='100 mm'\ncover='none'\ncoating='0 mm'\n[tier.drips]\n"
        f"spacing='{200 * math.pi / 12} mm'\npattern='even'\nlongest='50 mm'\nshortest='50 mm'\n"
    )
    drawn = lines(elevation(build_stack(made)), DETAIL)
    # across the picture, half-way down the drips, each one shows both edges of its run
    across = shapely.intersection(drawn, shapely.LineString([(-110, 75), (110, 75)]))
    assert len(shapely.get_parts(across)) == 5 * 2 + 2


def test_a_drip_hides_the_join_under_it() -> None:
    """Panel joins end where a drip hangs over them."""
    made = cake(
        "[[tier]]\nsize='200 mm'\ndepth='100 mm'\n[tier.panels]\ncount=8\nfront='join'\n"
        "place='rim'\n[tier.drips]\npattern='even'\nlongest='50 mm'\n"
    )
    stack = build_stack(made)
    (view,) = views(stack)
    drawn = lines(elevation(stack), DETAIL)
    (row,) = (
        [drip_row(view.tier, view.tier.spec.drips, view.tier.openings)]
        if view.tier.spec.drips
        else []
    )
    top = stack.height
    inside = shapely.LineString([(-3, top - 20), (3, top - 20)])
    below = shapely.LineString([(-3, top - row.lengths[0] - 5), (3, top - row.lengths[0] - 5)])
    assert not shapely.intersects(drawn, inside)
    assert shapely.intersects(drawn, below)


def test_the_outline_is_as_large_as_the_tiers() -> None:
    """A round tier looks like a rectangle: covered across and depth, on what is below it."""
    stack = build_stack(sample("naming-day"))
    form = [s.path.bounds for s in elevation(stack).strokes if s.role is FORM]
    foot = 0.0
    for tier in stack.tiers:
        foot += 3.0  # its board
        half = tier.covered.rim.across / 2
        box = (-half, foot, half, foot + tier.covered.depth)
        assert any(each == pytest.approx(box, abs=0.01) for each in form)
        foot += tier.covered.depth


def test_the_plan_shows_every_outline() -> None:
    """From above: the drum and each covered tier, at its place."""
    stack = build_stack(
        cake(
            "[drum]\nsize='400 mm'\n[[tier]]\nsize='250 mm'\ndepth='90 mm'\n[[tier]]\n"
            "size='100 mm'\ndepth='90 mm'\n[tier.position]\nright='-20 mm'\nplace='back'\n"
        )
    )
    boxes = [stroke.path.bounds for stroke in from_above(stack).strokes]
    assert [round(box.width, 3) for box in boxes] == [400, 268, 118]
    assert boxes[2].centre[0] == pytest.approx(-20)


def test_what_reaches_over_hides_what_lies_under_it() -> None:
    """The edge of a tier under one that reaches over it is not drawn there."""
    stack = build_stack(
        cake(
            "[[tier]]\nsize='200 mm'\ndepth='90 mm'\n[[tier]]\nsize='150 mm'\ndepth='90 mm'\n"
            "[tier.position]\nback='-40 mm'\noverhang='20 mm'\n"
        )
    )
    lower = lines(Drawing(from_above(stack).strokes[1:2]), FORM)
    assert shapely.distance(lower, shapely.Point(0, -109)) > 20
    assert shapely.distance(lower, shapely.Point(0, 109)) < NEAR


def test_artwork_with_an_open_line_in_it_has_a_picture() -> None:
    """A leaf with its vein in one path, over another design, is drawn as any artwork."""
    designs = [{"kind": "diamonds"}, {"kind": "artwork", "file": "leaf.svg"}]
    tier = {"shape": "polygon", "sides": 7, "size": "161 mm", "depth": "54 mm", "cover": "none"}
    spec = cake_from({"tier": [{**tier, "design": designs}]}, folder=at_hand())
    assert elevation(build_stack(spec)).strokes


@pytest.mark.parametrize(
    "data",
    ["M50 0 L79 90 L2 35 L98 35 L21 90 Z", "M0 0 L100 100 M0 100 L100 0"],
    ids=["star of five lines", "two lines that cross"],
)
@pytest.mark.parametrize("after", [True, False], ids=["after swags", "before swags"])
def test_artwork_may_cross_itself(data: str, after: bool) -> None:
    """It is drawn and shown in the picture, whatever it lies on or under."""
    svg = f'<svg xmlns="http://www.w3.org/2000/svg"><path d="{data}"/></svg>'
    file = Attached("own.svg", svg.encode())
    designs = [{"kind": "artwork", "file": file}, {"kind": "swags"}][:: -1 if after else 1]
    tier = {"size": "8 in", "depth": "4 in", "design": designs}
    assert elevation(build_stack(cake_from({"tier": [tier]}))).strokes
