"""The hole right through a tier: its openings on the flat, its lining, what it must leave."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

import pytest
import shapely
from fontTools.misc.transform import Transform
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry.base import BaseGeometry

from templates_gen.bench.steps import steps
from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.drips import drip_row, drips_drawing
from templates_gen.pieces.cautions import cautions
from templates_gen.plan import make_plan
from tests.cakes import cake as parse
from tests.cakes import one_tier, pieces_of
from tests.laws import words_lie_on_their_piece

HOLE = "dummy = true\ncover = 'panelled'\n"
CUT_FIRST = "\ncut = 'before'"


def holed(lines: str = "radius = '5 cm'", tier: str = "", depth: str = "6 in") -> Cake:
    """Return a cake of one tier with a hole."""
    return one_tier(f"{HOLE}{tier}\n[tier.opening]\n{lines}", depth=depth)


def piece(cake: Cake, kind: str) -> Piece:
    """Return a piece of a cake by its kind."""
    return next(each for each in pieces_of(cake) if each.id.endswith(kind))


def cut_out(found: Piece) -> list[Path]:
    """Return what is cut out of a piece."""
    cuts = [stroke.path for stroke in found.drawing.strokes if stroke.role is Role.CUT]
    return [path for path in cuts if path.bounds != found.outline.bounds]


def checked(found: Piece) -> list[Path]:
    """Return the edges of a hole that a piece shows to be compared with the cake."""
    return [stroke.path for stroke in found.drawing.strokes if stroke.role is Role.CHECK]


def lines_of(paths: Iterable[Path]) -> BaseGeometry:
    """Return paths as lines, for shapely."""
    found = (shapely.LineString(points) for path in paths for points, _ in sampled(path))
    return shapely.union_all(list(found))


def test_an_opening_lies_flat_wider_than_the_hole() -> None:
    """Half-width R asin(a / R), half-height a, at mid-paste: arithmetic of the developed side."""
    wrap = piece(holed(), "wrap")
    radius = 8 * 25.4 / 2 + 2.5
    wide = 2 * radius * math.asin(50 / radius)
    assert wrap.values["opening_width_mm"] == pytest.approx(wide, abs=2e-3)
    assert wrap.values["opening_height_mm"] == pytest.approx(100, abs=2e-3)
    assert wide > 100


def test_the_hole_is_cut_to_the_dummy_once_the_wrap_is_on() -> None:
    """By default the wrap shows its outline to check and cuts nothing out; by choice it is cut."""
    after, before = (piece(holed(f"radius = '3 cm'{cut}"), "wrap") for cut in ("", CUT_FIRST))
    assert not after.openings
    assert not cut_out(after)
    assert not checked(before)
    inner = after.size.expanded(-0.5)  # at the ends a cut goes on along the edge of the strip
    drawn, cut = (
        shapely.clip_by_rect(lines_of(found), *inner) for found in (checked(after), cut_out(before))
    )
    assert drawn.hausdorff_distance(cut) < 0.1
    assert "Then cut out the hole, the knife along the dummy" in after.use
    assert "Cut the hole out first" in before.use


@pytest.mark.parametrize(
    ("tier", "more", "said"),
    [
        (HOLE, "", "then the top disc, then cut out the hole to the edge of the dummy and line"),
        (HOLE, CUT_FIRST, "Cut the hole out of the wrap; put on"),
        ("dummy = true\n", "", "trim the base, then cut out the hole to the edge of the dummy"),
        (f"{HOLE}[tier.panels]\nreplace_wrap = true\n", CUT_FIRST, "then cut out the hole to"),
    ],
)
def test_the_order_of_work_says_when_the_hole_is_cut(tier: str, more: str, said: str) -> None:
    """After the covering, along the dummy; a wrap before it goes on, where that is chosen."""
    plan = make_plan(
        one_tier(f"first = 'side'\n{tier}[tier.opening]\nradius = '3 cm'{more}", depth="6 in")
    )
    assert said in " ".join(step.words for step in steps(plan))


def test_the_lining_waves_as_crossing_cylinders_do() -> None:
    """Its edge is sqrt(R^2 - a^2 sin^2 t) from the middle.

    Source: algebra on a public forum for the unrolled edge of a branch, x(t) = sqrt(D^2 - d^2
    cos^2 t); it follows from the geometry.
    """
    lining = piece(holed(), "lining")
    across = 8 * 25.4 / 2 + 5
    long = math.pi * 50
    (edge,) = [s.path for s in lining.drawing.strokes if s.role.word == "trim"][:1]
    points, _ = next(sampled(edge, 1e-3))
    middle = (edge.bounds.x0 + edge.bounds.x1) / 2
    height = max(y for _, y in points) - across
    for x, y in points:
        wanted = math.sqrt(across**2 - 50**2 * math.sin((x - middle) / 50) ** 2)
        assert y - height == pytest.approx(wanted, abs=5e-3)
    assert lining.values["lining_length_mm"] == pytest.approx(2 * long)
    assert lining.values["lining_max_mm"] == pytest.approx(2 * across, abs=1e-6)
    least = 2 * math.sqrt(across**2 - 50**2)
    assert lining.values["lining_min_mm"] == pytest.approx(least, abs=1e-6)


@pytest.mark.parametrize(("half", "nearer"), [("lining-bottom", "left"), ("lining-top", "right")])
def test_a_lining_aside_is_not_mirrored_on_the_face_that_looks_into_the_hole(
    half: str, nearer: str
) -> None:
    """Of a hole moved to the right the wall at the right is the shorter.

    Seen from inside the hole with the front edge away from one, the right of the cake is at the
    left on the floor, which one sees from above, and at the right under the roof, seen from below.
    Source: x to the right and y to the front make a right-handed frame with z down.
    """
    radius, aside, finished = 30.0, 25.0, 8 * 25.4 / 2 + 5
    lining = piece(holed(f"radius = '{radius} mm'\nsideways = '{aside} mm'"), half)
    edges = [stroke.path for stroke in lining.drawing.strokes if stroke.role is Role.TRIM]
    front, back = (next(sampled(edge, 1e-3))[0] for edge in edges)
    labels = {label.text.split()[0]: label.at[1] for label in lining.drawing.labels}
    assert labels["front"] > labels["back"]
    for at, place in ((0, "left"), (-1, "right")):
        length = max(front[at][1], back[at][1]) - min(front[at][1], back[at][1])
        across = aside + radius if place == nearer else aside - radius
        assert length == pytest.approx(2 * math.sqrt(finished**2 - across**2), abs=1e-3)


@pytest.mark.parametrize(
    ("shape", "more", "copies"),
    [
        ("round", "", [2]),
        ("square", "", [2]),
        ("round", "sideways = '20 mm'", [1, 1]),
        ("square", "turn = 20", [1, 1]),
        ("heart", "", [2]),
    ],
)
def test_halves_of_the_lining_that_are_alike_are_one_piece(
    shape: str, more: str, copies: list[int]
) -> None:
    """Where the tier is alike left and right of the hole, one half is cut twice."""
    hole = f"dummy = true\n[tier.opening]\nradius = '30 mm'\n{more}"
    made = pieces_of(one_tier(f"shape = '{shape}'\n{hole}"))
    assert [each.copies for each in made if each.kind == "lining"] == copies


@settings(max_examples=30)
@given(
    st.sampled_from(["", "shape = 'square'", "shape = 'polygon'\nsides = 6", "shape = 'heart'"]),
    st.integers(-60, 60),
    st.integers(0, 15),
)
def test_every_place_of_an_opening_lies_on_the_wall_of_the_hole(
    shape: str, turn: int, aside: int
) -> None:
    """Taken back into space, the opening's edge is a hole's radius from its axis."""
    cake = holed(f"radius = '3 cm'\nturn = {turn}\nsideways = '{aside} mm'", shape)
    (tier,) = build_stack(cake).tiers
    side = tier.wrapped.side
    found = tier.openings.ends[tier.wrapped.surface]
    assert found is not None
    angle = math.radians(turn)
    for path in found:
        points, _ = next(sampled(path, 0.05))
        for u, v in points[::7]:
            x, y, z = side.in_space(u, v)
            right = x * math.cos(angle) + y * math.sin(angle)
            assert math.hypot(right - aside, z - 76.2) == pytest.approx(30, abs=0.06)


def test_a_hole_that_leaves_too_little_is_refused_with_the_largest() -> None:
    """20 mm must be left above, below and beside; the message gives what leaves as much."""
    with pytest.raises(CakeError, match=r"56\.2 mm"):
        pieces_of(holed("radius = '6 cm'"))
    pieces_of(holed("radius = '56.19 mm'"))
    with pytest.raises(CakeError, match=r"(?s)opening.sideways.*61\.6 mm"):
        pieces_of(holed("radius = '2 cm'\nsideways = '7 cm'"))
    pieces_of(holed("radius = '2 cm'\nsideways = '61.6 mm'"))
    with pytest.raises(CakeError, match=r"(?s)opening.height.*from 1⅝ in \(40 mm\)"):
        pieces_of(holed("radius = '2 cm'\nheight = '39 mm'"))
    pieces_of(holed("radius = '2 cm'\nheight = '40 mm'"))
    with pytest.raises(CakeError, match=r"(?s)opening.radius.*56\.2 mm"):
        pieces_of(holed("radius = '6 cm'\nsideways = '1 cm'\nheight = '7 cm'"))


def test_drips_end_above_the_hole_or_are_left_out() -> None:
    """No drip comes within 5 mm of an opening; the paper says how many were changed."""
    drips = "[tier.drips]\npattern = 'even'\nlongest = '9 cm'"
    for spec, word in (("shorten", "shortened"), ("leave out", "left out")):
        cake = holed(f"radius = '5 cm'\ndrips = '{spec}'\n{drips}")
        (tier,) = build_stack(cake).tiers
        collar = piece(cake, "collar")
        (warning,) = collar.warnings
        whole = piece(one_tier(HOLE + drips, depth="6 in"), "collar")
        many = whole.values["drip_count"]
        assert isinstance(many, int)
        count = collar.values["drip_count"]
        assert count == many if spec == "shorten" else int(str(count)) < many
        area = tier.openings.area(tier.covered)
        assert area is not None
        assert tier.spec.drips is not None
        row = drip_row(tier, tier.spec.drips, tier.openings)
        (sound,) = build_stack(one_tier(HOLE + drips, depth="6 in")).tiers
        usual = drip_row(sound, tier.spec.drips, sound.openings)
        left = set(zip(row.positions, row.lengths, strict=True))
        changed = len({*zip(usual.positions, usual.lengths, strict=True)} - left)
        assert warning.text.endswith(f": drips above the opening: {changed} {word}.")
        for stroke in drips_drawing(row, tier.covered.side).strokes:
            assert shapely.distance(region(stroke.path), area) > 4.0


@pytest.mark.parametrize("turn", [-60, 0, 90])
def test_no_word_of_a_paper_stands_in_an_opening(turn: int) -> None:
    """Names of marks, titles and the words at the join lie on paper that is not cut away."""
    words_lie_on_their_piece(pieces_of(holed(f"radius = '55 mm'\nturn = {turn}{CUT_FIRST}")))


def test_drips_cut_short_and_drips_left_out_are_both_counted() -> None:
    """Above the middle of the hole a wide drip has no room; beside the middle it is shortened."""
    drips = "[tier.drips]\npattern = 'even'\nlongest = '9 cm'\nwidth = '22 mm'\nspacing = '40 mm'"
    (warning,) = piece(holed(f"radius = '5 cm'\n{drips}"), "collar").warnings
    assert re.search(r"the opening: [1-9]\d* shortened, [1-9]\d* left out\.$", warning.text)


def test_what_is_marked_on_a_side_stops_at_an_opening() -> None:
    """Joins of panels on a collar do not cross the hole."""
    cake = holed("radius = '5 cm'", "", "6 in")
    panels = one_tier(
        f"{HOLE}[tier.opening]\nradius = '5 cm'\n[tier.panels]\ncount = 24", depth="6 in"
    )
    (tier,) = build_stack(panels).tiers
    collar = piece(panels, "collar")
    guides = [s for s in collar.drawing.strokes if s.role.word == "guide"]
    top = collar.size.y1
    front = tier.openings.on(tier.covered)[0].transformed
    lane = 6.5
    hole = region(front(Transform(1, 0, 0, -1, 0, top - lane))).buffer(-0.1)
    assert not any(
        shapely.LineString(points).intersects(hole)
        for stroke in guides
        for points, _ in sampled(stroke.path)
    )
    assert len(piece(cake, "collar").drawing.strokes) < len(collar.drawing.strokes)


def test_only_a_dummy_has_a_hole() -> None:
    """A hole through cake is refused; the pack of a dummy says how such a tier is carried."""
    with pytest.raises(CakeError, match="dummy = true"):
        one_tier("[tier.opening]\nradius = '4 cm'", depth="6 in")
    assert any("dowels beside the hole" in text for text in cautions(build_stack(holed())))
    assert not any("hole" in text for text in cautions(build_stack(one_tier())))


PLANS = (
    "",
    "shape = 'square'",
    "shape = 'oval'\nshort = '6 in'",
    "shape = 'heart'",
    "shape = 'rectangle'\nshort = '7 in'",
)


@pytest.mark.parametrize("plan", PLANS)
@pytest.mark.parametrize("turn", [-90, -57, -25, 25, 57, 90])
def test_a_hole_may_be_turned_to_any_side(plan: str, turn: int) -> None:
    """Every piece of the tier is made, with as much cut out of its wrap as its holes take."""
    cake = holed(f"radius = '3 cm'\nturn = {turn}{CUT_FIRST}", f"{plan}\ntrim = '0 mm'")
    (tier,) = build_stack(cake).tiers
    wrap = piece(cake, "wrap")
    holes = cut_out(wrap)
    found = tier.openings.ends[tier.wrapped.surface]
    assert found is not None
    area = sum(region(path).area for path in found)
    assert sum(region(path).area for path in holes) == pytest.approx(area, abs=0.5)
    assert all(wrap.size.expanded(1e-6).contains(path.bounds) for path in holes)


def test_a_hole_aside_of_the_back_join_is_drawn_where_it_is() -> None:
    """A hole that lies wholly to one side of the join is not looked for at the other end."""
    text = (
        "[[tier]]\nsize = '182.6 mm'\ndepth = '82.7 mm'\ndummy = true\ncover = 'panelled'\n"
        "[tier.opening]\nradius = '18.59 mm'\nsideways = '1 1/8 in'"
    )
    for name in ("wrap", "collar"):
        assert len(checked(piece(parse(text), name))) == 2
    assert len(cut_out(piece(parse(text + CUT_FIRST), "wrap"))) == 2


@pytest.mark.parametrize("name", ["wrap", "collar"])
def test_a_hole_at_the_back_join_is_shown_at_both_ends(name: str) -> None:
    """What is drawn at the end, trim and tab included, is what is cut at the start."""
    cake = holed("radius = '4 cm'\nsideways = '2 cm'\nto = 'left'", "trim = '15 mm'")
    (tier,) = build_stack(cake).tiers
    found = piece(cake, name)
    layer = tier.wrapped if name == "wrap" else tier.covered
    whole = lines_of(checked(found)).buffer(0.5)
    low, high = found.size.y0, found.size.y1
    girth, start = layer.side.girth, found.outline.bounds.x0
    at_start = shapely.clip_by_rect(whole, start, low, start + 15, high)
    past_end = shapely.clip_by_rect(whole, start + girth, low, start + girth + 15, high)
    assert at_start.area > 15
    moved = affinity.translate(at_start, girth, 0)
    assert moved.symmetric_difference(past_end).area < 1.0


@pytest.mark.parametrize("turn", [-12, 12])
def test_a_sliver_of_a_hole_over_the_join_is_not_lost(turn: int) -> None:
    """Of a hole that reaches 0.8 mm over the back join, one turn of the side shows all."""
    radius = build_stack(one_tier(HOLE)).tiers[0].wrapped.rim.radius or math.nan
    over = radius * math.sin(math.radians(abs(turn)) + 0.8 / radius)
    (tier,) = build_stack(holed(f"radius = '{over} mm'\nturn = {turn}")).tiers
    layer, ends = tier.wrapped, tier.openings.ends[tier.wrapped.surface]
    whole = sum(region(path).area for path in ends)
    found = shapely.union_all([region(path) for path in tier.openings.on(layer)])
    shown = shapely.clip_by_rect(found, 0, -99, layer.rim.girth, 999)
    assert shown.area == pytest.approx(whole, abs=0.01)


def test_a_hole_through_a_hollow_is_refused() -> None:
    """A level hole across the notch of a heart would come through the side four times."""
    with pytest.raises(CakeError, match="hollow"):
        pieces_of(
            one_tier(
                f"{HOLE}shape = 'heart'\n[tier.opening]\n"
                "radius = '28 mm'\nturn = 90\nsideways = '9 cm'",
                size="12 in",
            )
        )


@pytest.mark.parametrize("spec", ["shorten", "leave out"])
def test_a_hole_that_leaves_no_drip_is_refused(spec: str) -> None:
    """Where every drip would run into the hole, the message says so at the hole's key."""
    text = (
        "[[tier]]\nsize = '190 mm'\ndepth = '150 mm'\ndummy = true\n"
        f"[tier.opening]\nradius = '55 mm'\ndrips = '{spec}'\n"
        "[tier.drips]\nspacing = '300 mm'\nlongest = '60 mm'\nwidth = '17 mm'\npattern = 'even'\n"
    )
    with pytest.raises(CakeError, match=r"opening\.drips\n.*2 in all"):
        pieces_of(parse(text))


def test_the_one_height_of_a_hole_is_said_once() -> None:
    """A hole as large as the tier allows has no range of heights."""
    hole = "dummy = true\n[tier.opening]\nradius = '30 mm'\nheight = '{}'\n"
    with pytest.raises(CakeError) as caught:
        make_plan(one_tier(hole.format("40 mm"), depth="100 mm"))
    assert [each.allowed for each in caught.value.problems] == ["a height of 1 15/16 in (50 mm)"]
    with pytest.raises(CakeError, match=r"\(50 mm\) to .*\(70 mm\)"):
        make_plan(one_tier(hole.format("40 mm"), depth="120 mm"))
