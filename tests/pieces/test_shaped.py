"""Every piece on every shape: corners, faces, and what closes round them."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen import PAPERS, figures, make_pack
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.reading import cake_from
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.guides.decorated import DecoratedTier, build_stack
from templates_gen.guides.drips import drip_row
from templates_gen.guides.faces import faces
from templates_gen.plan import make_plan
from templates_gen.tiers.slanted import SlantedSide
from tests.cakes import cake, one_tier, pieces_of
from tests.strategies import plans

SQUARE = "shape = 'square'\ncover = 'panelled'\n"


@st.composite
def tiers(draw: st.DrawFn) -> dict[str, Any]:
    """Draw a panelled tier of any shape."""
    size = draw(st.integers(150, 320))
    tier = {"size": f"{size} mm", "depth": "100 mm", "cover": "panelled"}
    return tier | draw(plans(float(size)))


def cake_with(tier: dict[str, Any], **more: object) -> Cake:
    """Return a cake of one tier, with more keys."""
    return cake_from({"drum": {"size": "900 mm"}, "tier": [tier | more]})


def tier_of(cake: Cake) -> DecoratedTier:
    """Return the lowest tier of a cake."""
    return build_stack(cake).tiers[0]


def piece(cake: Cake, kind: str) -> Piece:
    """Return a piece of a cake by its kind."""
    return next(each for each in pieces_of(cake) if each.kind == kind)


@settings(max_examples=30)
@given(tiers())
def test_corners_of_a_wrap_stand_where_those_of_the_mid_paste_outline_do(
    spec: dict[str, Any],
) -> None:
    """A fold line for each corner but at front and join; its place is a figure of the wrap."""
    cake = cake_with(spec)
    wrap, rim = piece(cake, "wrap"), tier_of(cake).wrapped.rim
    assert wrap.values.get("corner_positions_mm", ()) == rim.corners
    folds = [s.path.bounds.x0 for s in wrap.drawing.strokes if s.role.word == "fold"]
    trim = wrap.values["trim_mm"]
    assert isinstance(trim, float)
    start = trim / 2
    for corner in rim.corners:
        if min(abs(corner - place) for place in (0, rim.girth / 2, rim.girth)) > 0.5:
            assert min(abs(corner + start - fold) for fold in folds) < 1e-6


def test_a_square_corner_takes_a_quarter_turn_of_paste() -> None:
    """On a sharp corner mid-paste bends by pi / 2 times coating and half the paste: arithmetic."""
    rim = tier_of(one_tier(SQUARE + "coating = '5 mm'\nfondant = '4 mm'")).wrapped.rim
    for start, end in rim.corner_spans:
        assert end - start == pytest.approx(math.pi / 2 * 7)
    assert [face.length for face in faces(rim)] == pytest.approx([rim.girth / 4] * 4)


@pytest.mark.parametrize(
    "lines",
    [
        "size = '6 in'\ndepth = '4 in'\ntop_size = '3 in'\nshape = 'square'\n",
        "size = '8 in'\ndepth = '2 in'\ntop_size = '7 in'\nshape = 'heart'\n",
        "size = '8 in'\ndepth = '4 in'\nshallowest_depth = '2 in'\nslopes_down_to = 'back'\n"
        "shape = 'square'\ncorner = '10 mm'\n",
        "size = '10 in'\ndepth = '4 in'\ntop_size = '9 in'\nshape = 'petal'\nlobes = 8\n"
        "trim = '0 mm'\n",
        "size = '10 in'\ndepth = '4 in'\ntop_size = '6 in'\nshape = 'heart'\ndummy = true\n"
        "fondant = '12 mm'\n",
        "size = '12 in'\ndepth = '4 in'\ntop_size = '6 in'\nshape = 'rectangle'\n"
        "short = '2 in'\n[tier.drips]\nguide = 'top edge'\n",
        "size = '8 in'\ndepth = '4 in'\nshape = 'oval'\nshort = '60 mm'\n"
        "[tier.drips]\nguide = 'top edge'\n",
    ],
    ids=[
        *("tapered square", "tapered heart", "sloped square", "tapered petal", "thick heart"),
        *("rim of a rectangle", "rim of an oval"),
    ],
)
def test_ordinary_tapers_and_slopes_come_to_paper(lines: str) -> None:
    """Their pieces have sound edges and lie on sheets."""
    plan = make_plan(cake(f"[[tier]]\ncover = 'panelled'\n{lines}"))
    assert "wrap" in {each.kind for each in plan.pieces}
    assert make_pack(plan, PAPERS["a4"]).sheets


@settings(max_examples=20)
@given(tiers(), st.integers(1, 5), st.sampled_from(["panel", "join"]))
def test_panels_set_by_faces_tile_the_side(tier: dict[str, Any], count: int, corners: str) -> None:
    """Widths times numbers are the girth; joins stand on corners when asked, else never."""
    spec = cake_with(tier, panels={"per_face": count, "corners": corners})
    rim = tier_of(spec).covered.rim
    if not rim.corners:
        with pytest.raises(CakeError, match="no corners"):
            pieces_of(spec)
        return
    panels = [each for each in pieces_of(spec) if each.kind == "panel"]
    total = sum(float(p.values["width_mm"]) * int(p.values["count"]) for p in panels)  # type: ignore[arg-type]
    assert total == pytest.approx(rim.girth, rel=1e-6)
    collar = piece(spec, "collar")
    tall = collar.size.height - 10
    joins = [
        stroke.path.bounds.x0
        for stroke in collar.drawing.strokes
        if stroke.role.word in ROLES[corners]
        and stroke.path.bounds.width < 1e-9
        and stroke.path.bounds.height > tall * 0.8
    ]
    # at the back join lies the cut edge
    for corner in (each for each in rim.corners if 1e-6 < each < rim.girth - 1e-6):
        near = min(abs(corner - join) for join in joins)
        assert near < 1e-6 if corners == "join" else near > 0.4 * rim.girth / 12 / count


ROLES = {"join": ("guide", "fold", "centre", "cut"), "panel": ("guide",)}
"""A join on a corner lies on the line of the corner, which alone is drawn."""


@settings(max_examples=40)
@given(tiers())
def test_drips_start_at_corners_and_close_on_every_face(spec: dict[str, Any]) -> None:
    """Each corner has a drip, and drips of one face stand evenly."""
    wanted = {"corners": True, "spacing": "28 mm", "pattern": "even"}
    tier = tier_of(cake_with(spec, drips=wanted))
    rim, drips = tier.covered.rim, tier.spec.drips
    assert drips is not None
    if not rim.corners:
        with pytest.raises(CakeError, match="which has none"):
            drip_row(tier, drips, tier.openings)
        return
    row = drip_row(tier, drips, tier.openings)
    for face in faces(rim):
        inside = sorted(
            u + turn
            for u in row.positions
            for turn in (0.0, rim.girth)
            if face.start - 1e-6 <= u + turn <= face.end + 1e-6
        )
        steps = [b - a for a, b in pairwise(inside)]
        assert steps == pytest.approx([steps[0]] * len(steps), abs=1e-6)
        assert inside[0] == pytest.approx(face.start, abs=1e-6)
        assert inside[-1] == pytest.approx(face.end, abs=1e-6)


@pytest.mark.parametrize("shape", sorted(SHAPES))
def test_figures_of_every_shape(shape: str) -> None:
    """Shape, width and girth are figures of a tier, for each surface; layers add up outside."""
    extra = {
        "oval": "short = '7 in'",
        "rectangle": "short = '6 in'",
        "polygon": "sides = 5",
        "petal": "lobes = 7",
        "custom": "outline = 'M0 0 H90 V60 H0 Z'",
    }
    found = figures(make_plan(one_tier(f"shape = '{shape}'\n{extra.get(shape, '')}")))["tiers"][0]
    assert found["shape"] == shape
    assert found["bare"]["across_mm"] > 199.8
    assert found["bare"]["girth_mm"] < found["coated"]["girth_mm"] < found["covered"]["girth_mm"]
    if shape not in ("petal", "heart"):
        larger = found["covered"]["girth_mm"] - found["bare"]["girth_mm"]
        assert larger == pytest.approx(math.tau * 9, abs=1e-3)


def test_a_hexagon_on_a_square_must_lie_inside_it_at_any_turn() -> None:
    """Across flats it fits; turned a quarter its corners reach over, which is an error."""
    text = (
        "[[tier]]\nshape = 'square'\nsize = '226 mm'\ndepth = '4 in'\ncover = 'none'\ncoating = 0\n"
        "[[tier]]\nshape = 'polygon'\nsides = 6\nsize = '200 mm'\ndepth = '4 in'\ncover = 'none'\n"
        "coating = 0\n[tier.position]\nturn = {turn}\n"
    )
    with pytest.raises(CakeError, match="inside"):
        pieces_of(cake(text.format(turn=0)))
    score = next(
        each
        for each in pieces_of(cake(text.format(turn=15)))
        if each.id == "tier-1/placement-guide"
    )
    # a hexagon 200 mm across flats reaches 115.47 mm; at 15 degrees cos(15) of that
    clear = 226 / 2 - 200 / math.sqrt(3) * math.cos(math.radians(15))
    assert score.values["clearance_mm"] == pytest.approx(clear, abs=1e-3)


def unfolded(side: SlantedSide, count: int) -> tuple[float, list[tuple[float, float]]]:
    """Unfold a mesh of triangles one by one; return its area and the places of its rim.

    The independent unrolling: it knows only the corners of the mesh in space.
    """
    us = [side.girth * index / count for index in range(count + 1)]
    rim = [side.in_space(u, 0) for u in us]
    foot = [side.in_space(u, side.depth) for u in us]
    a, b = (0.0, 0.0), (0.0, -math.dist(rim[0], foot[0]))
    area, places = 0.0, [a]
    for index in range(count):
        p = _third(
            a, b, math.dist(rim[index], rim[index + 1]), math.dist(foot[index], rim[index + 1])
        )
        q = _third(
            p,
            b,
            math.dist(rim[index + 1], foot[index + 1]),
            math.dist(foot[index], foot[index + 1]),
        )
        area += shapely.Polygon([a, b, p]).area + shapely.Polygon([p, b, q]).area
        a, b = p, q
        places.append(p)
    return area, places


def _third(
    a: tuple[float, float], b: tuple[float, float], from_a: float, from_b: float
) -> tuple[float, float]:
    """Return the corner of a triangle left of the way from b to a's right: of given sides."""
    long = math.dist(a, b)
    along = (from_a**2 - from_b**2 + long**2) / (2 * long)
    aside = math.sqrt(max(from_a**2 - along**2, 0.0))
    x, y = (b[0] - a[0]) / long, (b[1] - a[1]) / long
    return a[0] + along * x - aside * y, a[1] + along * y + aside * x


@pytest.mark.parametrize(
    "lines",
    ["", "shape = 'square'", "shape = 'polygon'\nsides = 5", "shape = 'oval'\nshort = '6 in'"],
)
def test_a_mesh_unfolded_by_itself_lies_as_the_paper_does(lines: str) -> None:
    """Area and every distance between places of the rim are those of the wrap's side."""
    tier = tier_of(one_tier(f"{lines}\ntop_size = '6 in'\ncover = 'panelled'"))
    side = tier.wrapped.side
    assert isinstance(side, SlantedSide)
    count = 1440
    area, places = unfolded(side, count)
    flat = [side.flat(side.girth * index / count, 0) for index in range(count + 1)]
    for step in (90, 360, 720, 1440):
        assert math.dist(places[0], places[step]) == pytest.approx(
            math.dist(flat[0], flat[step]), abs=0.1
        )
    # and the paper's ends meet: the foot mirrors itself about the front
    (x0, y0), (x1, y1) = side.flat(0, side.depth), side.flat(side.girth, side.depth)
    front = side.flat(side.girth / 2, 0)[0]
    assert (x1 - front, y1) == pytest.approx((front - x0, y0), abs=1e-3)
    sheet = piece(one_tier(f"{lines}\ntop_size = '6 in'\ncover = 'panelled'\ntrim = 0"), "wrap")
    assert region(sheet.outline, 1e-3).area == pytest.approx(area, rel=1e-3)


def test_openings_of_wrap_and_lining_have_edges_of_one_length() -> None:
    """At one radius the edge of the opening is as long as that of the lining that meets it.

    A panelled dummy whose paste is so thin that mid-paste and covered side are one to 0.3 mm.
    """
    hole = "[tier.opening]\nradius = '4 cm'\ncut = 'before'"
    text = f"dummy = true\ncover = 'panelled'\nfondant = '0.5 mm'\n{hole}"
    spec = one_tier(text, depth="6 in")
    wrap = piece(spec, "wrap")
    front = next(
        stroke.path
        for stroke in wrap.drawing.strokes
        if stroke.role.word == "cut" and 150 < stroke.path.bounds.centre[0] < 500
        if stroke.path != wrap.outline
    )
    halves = [each for each in pieces_of(spec) if each.kind == "lining"]
    edge = 0.0
    for half in halves:
        trim = next(stroke for stroke in half.drawing.strokes if stroke.role.word == "trim")
        edge += half.copies * _space_length(trim.path)
    opening = _on_cylinder(front, 101.85)
    assert opening == pytest.approx(edge, rel=4e-3)


def _space_length(path: object) -> float:
    """Return the length in space of the lining's edge: it bends round the hole."""
    points, _ = next(sampled(path, 1e-3))  # type: ignore[arg-type]
    return sum(math.dist(a, b) for a, b in pairwise(points))


def _on_cylinder(path: object, radius: float) -> float:
    """Return the length in space of the opening's edge: it bends round the tier."""
    points, _ = next(sampled(path, 1e-3))  # type: ignore[arg-type]
    places = [(radius * math.sin(u / radius), radius * math.cos(u / radius), v) for u, v in points]
    return sum(math.dist(a, b) for a, b in pairwise(places))
