"""Designs: they close on every shape, stay in their band, and have the sizes they say."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any

import pytest
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry

from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.lengths import length_of
from templates_gen.drawing.attached import Attached
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.designs.motif import Cell
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.shapes import SHAPES
from templates_gen.errors import CakeError
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path, rectangle
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.designs import design_guide
from templates_gen.guides.guide import Guide
from templates_gen.guides.intervals import intervals
from templates_gen.guides.keep_clear import cut_out
from templates_gen.tiers.solid import Layer
from tests.cakes import one_tier, pieces_of
from tests.geometry.test_curves import true_length
from tests.shapes import EVERY, PLAIN

LEAF = b"""<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 40">
<path d="M0 20 L20 0 Q 40 0 80 20 L20 40 Z"/></svg>"""
REPEATED = [word for word, design in DESIGNS.items() if design.repeat is not None]


def layer(outline: Outline, depth: float = 120.0) -> Layer:
    """Return the covered surface of a tier with upright walls."""
    return Layer("covered", outline, outline, depth)


@st.composite
def layers(draw: st.DrawFn, outline: Outline) -> Layer:
    """Draw a surface with upright walls, or one that tapers up or down."""
    foot = draw(st.none() | st.floats(0.7, 1.4))
    return layer(outline) if foot is None else Layer("covered", outline, outline.scaled(foot), 120)


@st.composite
def designs(draw: st.DrawFn, depth: float) -> Design:
    """Draw a design that fits a side of the depth."""
    kind = draw(st.sampled_from(sorted(DESIGNS)))
    top = draw(st.floats(0, depth / 2))
    given: dict[str, Any] = {
        "kind": kind,
        "top": length_of(top),
        "bottom": length_of(draw(st.floats(top + 20, depth))),
        "width": length_of(draw(st.floats(15, 90))),
        "start": draw(st.sampled_from(["front", "between", "join"])),
    }
    if kind == "artwork":
        given |= {"file": Attached("leaf.svg", LEAF), "mirror": False}
    if DESIGNS[kind].forms:
        given["form"] = draw(st.sampled_from(DESIGNS[kind].forms))
    return Design(**given)


def made(side: Layer, spec: Design) -> Guide | None:
    """Return a design on a side, or None where it is refused."""
    try:
        return design_guide(side, spec)
    except CakeError:
        return None


def turned(guide: Guide, by: float, girth: float) -> list[Path]:
    """Return what a guide draws, moved along the side."""
    return [stroke.path.moved(by, 0) for stroke in guide.drawing.strokes]


ASIDE = 0.0123
"""How far beside the join drawings are cut to compare them, mm."""


def outline_of(paths: list[Path], girth: float) -> BaseGeometry:
    """Return paths on the stretch of a side from 0 to its girth, what reaches over put back."""
    lines = [
        [(x + turn, y) for x, y in line]
        for path in paths
        for line, _ in sampled(path, 0.001)
        for turn in (-2 * girth, -girth, 0, girth)
    ]
    # upright lines often lie at the join itself: cut a little beside it
    return shapely.clip_by_rect(shapely.MultiLineString(lines), ASIDE, -1, girth + ASIDE, 1000)


def farthest(lines: BaseGeometry, others: BaseGeometry) -> float:
    """Return how far a corner of some lines lies from the nearest of the others, mm."""
    parts = [shapely.get_coordinates(line) for line in shapely.get_parts(others)]
    tree = shapely.STRtree([shapely.LineString(pair) for part in parts for pair in pairwise(part)])
    places = shapely.points(shapely.get_coordinates(lines))
    _, distances = tree.query_nearest(places, return_distance=True)
    return float(max(distances))


@given(EVERY, st.data())
@settings(max_examples=60)
def test_a_design_closes_on_every_shape(outline: Outline, data: st.DataObject) -> None:
    """Moved along by one repeat the drawing falls on itself, over the join as elsewhere.

    On a side that tapers too: its places go once round as u goes through the girth of the rim.
    """
    side = data.draw(layers(outline))
    spec = data.draw(designs(side.side.depth))
    # what keeps its true size on a taper has repeats that are not alike in (u, v) there
    assume(not (DESIGNS[spec.kind].true_size and side.is_tapered))
    guide = made(side, spec)
    if guide is None:
        assert spec.kind in ("arches", "pearls")  # a low band has no room for them
        return
    girth = side.side.girth
    # level lines fall on themselves wherever they are moved, edges after one turn
    count = guide.values["repeat_count"]
    assert isinstance(count, int)
    pitch = girth / count
    if DESIGNS[spec.kind].repeat is None:
        pitch = girth if DESIGNS[spec.kind].edges else girth / 7
    once = outline_of(turned(guide, 0, girth), girth)
    moved = outline_of(turned(guide, pitch, girth), girth)
    assert once.length == pytest.approx(moved.length, rel=1e-6)
    assert farthest(moved, once) < 0.005
    if DESIGNS[spec.kind].repeat is not None:
        at_top = girth * side.side.girth_ratio(spec.top.mm if spec.top else 0.0)
        assert guide.values["repeat_width_mm"] == pytest.approx(at_top / count, abs=1e-9)


@pytest.mark.parametrize("foot", [300, 150])
def test_repeats_low_on_a_taper_are_as_wide_there_as_they_say(foot: float) -> None:
    """Both how many close and how wide each is are of the girth at the top of the band.

    Source: the chord of a sector of the circle there, whose radius is that of the cone.
    """
    rim = SHAPES["round"](200)
    side = Layer("covered", rim, rim.scaled(foot / 200), 120)
    slant = math.hypot(120, foot / 2 - 100)
    top = slant - 40
    girth = math.pi * (200 + (foot - 200) * top / slant)
    guide = design_guide(
        side,
        Design(kind="pearls", width=length_of(30), top=length_of(top), bottom=length_of(slant)),
    )
    assert guide.values["repeat_count"] == round(girth / 30)
    assert guide.values["repeat_width_mm"] == pytest.approx(girth / round(girth / 30))
    assert "at the top" in guide.note
    balls = side.side.unroll(guide.drawing).strokes
    nearest = min(balls, key=lambda stroke: stroke.path.bounds.y0)
    highest = max(balls, key=lambda stroke: stroke.path.bounds.y1)
    for ball in (nearest, highest):
        width, height = ball.path.bounds.size
        assert width == pytest.approx(height, rel=0.12)


def test_a_drawing_moved_by_half_a_repeat_is_another() -> None:
    """The comparison above can fail."""
    side = layer(SHAPES["round"](200))
    guide = design_guide(side, Design(kind="swags"))
    pitch, girth = guide.values["repeat_width_mm"], side.side.girth
    assert isinstance(pitch, float)
    once, moved = (outline_of(turned(guide, by, girth), girth) for by in (0, pitch / 2))
    assert farthest(moved, once) > 5


@given(EVERY, st.data())
def test_a_design_stays_in_its_band(outline: Outline, data: st.DataObject) -> None:
    """Nothing is drawn above its top, below its foot, or beyond what it claims."""
    side = data.draw(layers(outline))
    spec = data.draw(designs(side.side.depth))
    guide = made(side, spec)
    if guide is None:
        return
    assert spec.top is not None
    assert spec.bottom is not None
    # a straight line of a geode, from corner to corner on the paper, bows on a cone
    bow = 0.1 if spec.kind == "geode" else 1e-6
    assert spec.top.mm - bow <= guide.top <= guide.foot <= spec.bottom.mm + bow
    for stroke in guide.drawing.strokes:
        box = stroke.path.bounds
        assert guide.top - 1e-6 <= box.y0 <= box.y1 <= guide.foot + 1e-6


CORNERED = [name for name in SHAPES if name not in ("round", "oval", "custom")]


@pytest.mark.parametrize("kind", REPEATED)
@pytest.mark.parametrize("shape", CORNERED)
@given(st.data())
@settings(max_examples=4)
def test_faces_are_filled_from_corner_to_corner(kind: str, shape: str, data: st.DataObject) -> None:
    """On every face whole repeats stand between its corners; no repeat bends round one."""
    side = layer(data.draw(PLAIN[shape]))
    wide, leaf = length_of(data.draw(st.floats(10, 60))), Attached("leaf.svg", LEAF)
    spec = Design(kind=kind, per="face", width=wide, file=leaf)
    corners = side.rim.corners
    found = intervals(side, spec)
    assert len(found) == len(corners)
    assert sum(run.length for run in found) == pytest.approx(side.side.girth)
    for run, corner in zip(found, corners, strict=True):
        assert run.start == pytest.approx(corner)
        assert run.count * run.pitch == pytest.approx(run.length)
        if run.length > 60:
            assert run.pitch == pytest.approx(spec.width.mm, rel=0.5)  # type: ignore[union-attr]


def test_a_rectangle_has_two_widths_of_repeats() -> None:
    """Faces of 200 and 120 mm, 50 mm asked for: four of 50, and two of 60 each; 12 in all."""
    side = layer(SHAPES["rectangle"](200, 120))
    guide = design_guide(side, Design(kind="stripes", per="face", width=length_of(50)))
    assert guide.values["repeat_count"] == 12
    widths = guide.values["repeat_width_mm"]
    assert isinstance(widths, tuple)
    assert sorted(set(widths)) == pytest.approx([50, 60])


def test_overlapped_swags_do_not_bend_round_a_corner_to_others() -> None:
    """Where faces differ there is no string from one to the next: an error says so."""
    side = layer(SHAPES["rectangle"](200, 120))
    spec = Design(kind="swags", form="overlapped", per="face", width=length_of(50))
    with pytest.raises(CakeError, match="reach over the corner"):
        design_guide(side, spec)


def test_faces_of_a_round_tier_are_an_error() -> None:
    """It has none."""
    with pytest.raises(CakeError, match="without corners"):
        pieces_of(one_tier("[[tier.design]]\nper = 'face'"))


@pytest.mark.parametrize("start", ["front", "between", "join"])
@pytest.mark.parametrize("count", [7, 8])
def test_repeats_begin_where_they_should(start: str, count: int) -> None:
    """A stripe in the middle of the front, two beside it, or one from the join on."""
    side = layer(SHAPES["round"](200))
    guide = design_guide(
        side, Design.model_validate({"kind": "stripes", "count": count, "start": start})
    )
    girth = side.side.girth
    middles = [stroke.path.bounds.centre[0] % girth for stroke in guide.drawing.strokes]
    pitch = girth / count
    from_front = min(abs(middle - girth / 2) for middle in middles)
    from_join = min(middles)
    if start == "join":
        assert from_join == pytest.approx(pitch / 2)
    else:
        assert from_front == pytest.approx(0 if start == "front" else pitch / 2, abs=1e-9)


def values(lines: str) -> dict[str, Any]:
    """Return the figures of the collar of an 8 by 4 in tier with one design."""
    made = pieces_of(one_tier(f"[[tier.design]]\n{lines}"))
    return dict(next(piece for piece in made if piece.kind == "collar").values)


GIRTH = math.pi * (203.2 + 18)
"""Covered: 5 mm of coating and 4 mm of paste on 8 in."""


def test_swags_report_the_string_to_cut() -> None:
    """Ten swags of 69.5 mm, 20 mm deep: the length of the line drawn, by svgpathtools."""
    found = values("kind = 'swags'\nwidth = '70 mm'\ndrop = '20 mm'")
    assert found["repeat_count"] == 10
    assert found["repeat_width_mm"] == pytest.approx(GIRTH / 10)
    assert found["sag_mm"] == 20
    side = layer(SHAPES["round"](203.2 + 18), 105.6)
    drawn = design_guide(side, Design(kind="swags", width=length_of(70), drop=length_of(20)))
    assert true_length(drawn.drawing.strokes[0].path) == pytest.approx(
        found["string_length_mm"], abs=1e-3
    )


@pytest.mark.parametrize("lines", ["top_size = '7 in'", "shallowest_depth = '4 in'"])
def test_swags_report_the_string_to_cut_on_uneven_sides(lines: str) -> None:
    """As long as it lies on the paper, measured by svgpathtools; the longest where they differ."""
    uneven = build_stack(one_tier(lines, "10 in", "6 in")).tiers[0].covered
    spec = Design(kind="swags", form="double", count=8, drop=length_of(30))
    guide = design_guide(uneven, spec)
    drawn = [true_length(stroke.path) for stroke in uneven.side.unroll(guide.drawing).strokes]
    found = guide.values["string_length_mm"]
    assert found == pytest.approx((max(drawn[::2]), max(drawn[1::2])), abs=1e-3)
    even = design_guide(layer(SHAPES["round"](uneven.rim.across)), spec)
    assert even.values["string_length_mm"] != pytest.approx(found, abs=1)


def test_overlapped_and_double_swags() -> None:
    """Overlapped strings span two repeats; the second of a double swag hangs half as deep again."""
    over = values("kind = 'swags'\nform = 'overlapped'\ncount = 10\ndrop = '40 mm'")
    single = values("kind = 'swags'\ncount = 5\ndrop = '40 mm'")
    assert over["string_length_mm"] == pytest.approx(single["string_length_mm"])
    double = values("kind = 'swags'\nform = 'double'\ncount = 5\ndrop = '40 mm'")
    assert double["sag_mm"] == (40, 60)
    assert double["string_length_mm"][0] == pytest.approx(single["string_length_mm"])


def test_diamonds_close_and_say_their_angle() -> None:
    """Tip angle and slope by trigonometry: tan(slope) is height over width."""
    found = values("kind = 'diamonds'\nwidth = '30 mm'\nrows = 3\nbottom = '90 mm'")
    wide, tall = found["diamond_width_mm"], found["diamond_height_mm"]
    assert found["repeat_count"] * wide == pytest.approx(GIRTH)
    assert tall == pytest.approx(30)
    assert math.tan(math.radians(found["slope_deg"])) == pytest.approx(tall / wide)
    assert found["angle_deg"] == pytest.approx(2 * math.degrees(math.atan(wide / tall)))


@given(st.floats(25, 40))
def test_usual_diamonds_come_near_what_was_asked(size: float) -> None:
    """25 to 40 mm, common practice, no source: the diamond that closes is at most 3 % off."""
    found = values(f"kind = 'diamonds'\nwidth = '{size:.2f} mm'")
    assert found["diamond_width_mm"] == pytest.approx(size, rel=0.03)


@pytest.mark.parametrize("form", ["even", "falling"])
def test_ruffles_fill_their_band(form: str) -> None:
    """Spaces make up the band; falling ones shrink upwards, even ones are alike."""
    found = values(f"kind = 'ruffles'\nrows = 5\nform = '{form}'\ntop = '10 mm'\nbottom = '90 mm'")
    spaces = found["spacing_mm"]
    assert sum(spaces) == pytest.approx(80)
    ratios = [upper / lower for lower, upper in pairwise(spaces)]
    assert all(ratio == pytest.approx(1 if form == "even" else 0.85) for ratio in ratios)


@given(st.data())
@settings(max_examples=40)
def test_pearls_never_overlap(data: st.DataObject) -> None:
    """Whatever is left to the program, any two pearls are a pearl apart, middle to middle."""
    size, width = data.draw(st.floats(8, 60)), data.draw(st.floats(2, 30))
    form = data.draw(st.sampled_from(["square", "staggered"]))
    spec = Design(kind="pearls", width=length_of(size), breadth=length_of(width), form=form)
    side = layer(SHAPES["round"](200), data.draw(st.floats(40, 200)))
    guide = made(side, spec)
    if guide is None:
        assert width > intervals(side, spec)[0].pitch - 1e-6
        return
    boxes = [stroke.path.bounds for stroke in guide.drawing.strokes]
    middles = shapely.points([box.centre for box in boxes])
    tree = shapely.STRtree(middles)
    near = tree.query(middles, predicate="dwithin", distance=width - 1e-6)
    assert all(a == b for a, b in near.T)


@pytest.mark.parametrize("form", ["round", "pointed"])
def test_arches_are_as_wide_and_tall_as_they_say(form: str) -> None:
    """The box of an arch is its width by the band; its arc rises as its circles do."""
    side = layer(SHAPES["round"](200))
    spec = Design(kind="arches", form=form, breadth=length_of(40), bottom=length_of(100))
    guide = design_guide(side, spec)
    box = guide.drawing.strokes[0].path.bounds
    assert (box.width, box.height) == pytest.approx((40, 100), abs=1e-3)
    assert guide.values["arch_rise_mm"] == pytest.approx(
        20 if form == "round" else math.sqrt(40**2 - 20**2)
    )


def test_artwork_is_fitted_in_its_proportions() -> None:
    """80 by 40 in a repeat 60 mm wide: 60 by 30 mm; in a band 20 mm tall: 40 by 20 mm."""
    side = layer(SHAPES["round"](600 / math.pi))
    spec = {"kind": "artwork", "file": Attached("leaf.svg", LEAF), "count": 10}
    for more, wide, tall in (({}, 60, 30), ({"height": length_of(20)}, 40, 20)):
        guide = design_guide(side, Design.model_validate(spec | more))
        assert guide.values["art_width_mm"] == pytest.approx(wide)
        assert guide.values["art_height_mm"] == pytest.approx(tall)
        box = guide.drawing.strokes[0].path.bounds
        assert (box.width, box.height) == pytest.approx((wide, tall))


def test_artwork_keeps_its_size_on_a_taper() -> None:
    """On the paper of a side that widens downwards each is as large as its figures say."""
    tapered = build_stack(one_tier("top_size = '7 in'", "10 in", "6 in")).tiers[0].covered
    spec = {"kind": "artwork", "file": Attached("leaf.svg", LEAF), "count": 4}
    guide = design_guide(tapered, Design.model_validate(spec | {"height": length_of(40)}))
    wide, tall = guide.values["art_width_mm"], guide.values["art_height_mm"]
    assert isinstance(wide, float)
    assert isinstance(tall, float)
    upright = layer(SHAPES["round"](1000))
    true = design_guide(upright, Design.model_validate(spec | {"height": length_of(40)}))
    assert (wide, tall) == pytest.approx((80, 40))
    areas = [
        region(stroke.path).area
        for drawing in (tapered.side.unroll(guide.drawing), true.drawing)
        for stroke in drawing.strokes
    ]
    assert areas == pytest.approx([areas[-1]] * 8, rel=1e-4)


def test_mirrored_artwork_closes_by_pairs() -> None:
    """Every other repeat is turned round, and an odd number of them is an error."""
    side = layer(SHAPES["round"](200))
    spec = {"kind": "artwork", "file": Attached("leaf.svg", LEAF), "mirror": True}
    guide = design_guide(side, Design.model_validate(spec | {"width": length_of(45)}))
    assert guide.values["repeat_count"] == 14
    girth, pitch = side.side.girth, guide.values["repeat_width_mm"]
    assert isinstance(pitch, float)
    first, second, third = (stroke.path for stroke in guide.drawing.strokes[:3])
    whole = outline_of(turned(guide, 0, girth), girth)
    assert farthest(outline_of(turned(guide, 2 * pitch, girth), girth), whole) < 0.005
    assert farthest(outline_of(turned(guide, pitch, girth), girth), whole) > 1
    assert first.moved(2 * pitch, 0).bounds == pytest.approx(third.bounds)
    assert second.commands[0][1][0][0] == pytest.approx(second.bounds.x1)
    with pytest.raises(CakeError, match="even number"):
        design_guide(side, Design.model_validate(spec | {"count": 13}))


def test_a_strip_of_its_own_leaves_the_collar() -> None:
    """Asked for on a strip it is there, at its place on the side, and not on the collar."""
    made = pieces_of(
        one_tier(
            "[[tier.design]]\nkind = 'waves'\n[[tier.design]]\nkind = 'swags'\npaper = 'strip'"
        )
    )
    by_kind = {piece.kind: piece for piece in made}
    assert by_kind["design-strip"].id == "tier-1/design-strip-2"
    assert by_kind["design-strip"].title == "tier 1: strip for swags (design 2)"
    assert by_kind["design-strip"].values["design_2"] == "swags"
    assert "design_2" not in by_kind["collar"].values
    assert by_kind["collar"].values["design"] == "waves"


def test_openings_clip_what_they_cut() -> None:
    """Nothing is left in an opening, over the join too, and all outside it stays."""
    girth = 600.0
    side = layer(SHAPES["round"](girth / math.pi))
    drawing = design_guide(side, Design(kind="waves", rows=6)).drawing
    hole = circle((2.0, 60.0), 30.0)
    left = cut_out(drawing, (hole,), girth)
    area = shapely.MultiPoint([(2, 60), (602, 60)]).buffer(29.9, quad_segs=90)
    lines = shapely.MultiLineString(
        [line for stroke in left.strokes for line, _ in sampled(stroke.path)]
    )
    whole = shapely.MultiLineString(
        [line for stroke in drawing.strokes for line, _ in sampled(stroke.path)]
    )
    assert not shapely.intersects(lines, area)
    outside = shapely.difference(whole, shapely.MultiPoint([(2, 60), (602, 60)]).buffer(30))
    assert lines.length == pytest.approx(outside.length, rel=1e-3)
    assert lines.length < whole.length - 100


@given(EVERY, st.data())
@settings(max_examples=30)
def test_every_design_keeps_out_of_an_opening(outline: Outline, data: st.DataObject) -> None:
    """On every shape, wherever the opening is, the join included; it loses no more than that."""
    side = layer(outline)
    guide = made(side, data.draw(designs(side.depth)))
    if guide is None:
        return
    girth = side.side.girth
    u, v = data.draw(st.floats(0, girth)), data.draw(st.floats(20, 100))
    hole = circle((u, v), 15.0)
    kept = [stroke.path for stroke in cut_out(guide.drawing, (hole,), girth).strokes]
    left = outline_of(kept, girth)
    whole = outline_of(turned(guide, 0, girth), girth)
    holes = shapely.MultiPoint([(u + turn, v) for turn in (-girth, 0, girth)])
    assert not shapely.intersects(left, holes.buffer(14.9))
    outside = shapely.difference(whole, holes.buffer(15.0, quad_segs=64))
    # two folds of neighbours may be one line
    length = shapely.union_all(left).length
    assert length == pytest.approx(shapely.union_all(outside).length, rel=2e-3, abs=0.5)


def test_a_drawing_clear_of_openings_is_left_as_it_is() -> None:
    """Not a curve is touched."""
    drawing = Drawing((Stroke(circle((100, 50), 10), Role.GUIDE),))
    assert cut_out(drawing, (rectangle(Box(200, 0, 300, 90)),), 600.0) == drawing


@pytest.mark.parametrize("plan", ["shape = 'square'", "shape = 'rectangle'\nshort = '8 in'"])
def test_ruffles_stop_at_a_straight_hole(plan: str) -> None:
    """A level line on a flat-sided tier is left out across both ends of the hole."""
    hole = "dummy = true\ncover = 'panelled'\ncoating = '0 mm'\n[tier.opening]\nradius = '3 cm'\n"
    row = "[[tier.design]]\nkind = 'ruffles'\nrows = 1\ntop = '20 mm'\nbottom = '60 mm'"
    made = one_tier(f"{plan}\n{hole}{row}")
    assert {"collar", "wrap"} <= {each.kind for each in pieces_of(made)}
    (tier,) = build_stack(made).tiers
    (guide,) = tier.guides
    drawn = sum(
        shapely.LineString(points).length
        for stroke in guide.drawing.strokes
        for points, _ in sampled(stroke.path)
    )
    half = math.sqrt(30**2 - (tier.covered.depth - 50.8 - 60) ** 2)
    assert drawn == pytest.approx(tier.covered.side.girth - 4 * half, abs=0.1)


def test_bands_left_to_themselves_are_20_mm_tall() -> None:
    """A side of 100 mm has five: our choice."""
    motif = DESIGNS["bands"].draw(Cell(50, 100))
    assert dict(motif.values) == {"repeat_count": 5, "band_height_mm": 20}


@pytest.mark.parametrize("kind", ["swags", "scallops"])
def test_a_drop_too_deep_for_its_band_is_named(kind: str) -> None:
    """The error is at the key that is too large, with the largest that does."""
    with pytest.raises(CakeError) as caught:
        values(f"kind = '{kind}'\ncount = 8\ntop = '10 mm'\nbottom = '30 mm'\ndrop = '30 mm'")
    (problem,) = caught.value.problems
    assert problem.key[-1] == "drop"
    assert "20 mm" in problem.allowed.replace("\xa0", " ")


@pytest.mark.parametrize("kind", ["chevrons", "scallops", "swags", "pleats"])
@pytest.mark.parametrize("size", [152, 178, 203, 254, 279])
def test_an_even_number_of_repeats_goes_round_where_none_is_said(kind: str, size: int) -> None:
    """A side folds in four with it; each is within an eighth of its usual width, or the nearest."""
    tier = one_tier(f"[[tier.design]]\nkind = '{kind}'\n", f"{size} mm")
    (guide,) = build_stack(tier).tiers[0].guides
    count, width = guide.values["repeat_count"], guide.values["repeat_width_mm"]
    assert isinstance(count, int)
    assert isinstance(width, float)
    usual = DESIGNS[kind].repeat
    assert usual is not None
    assert count % 2 == 0
    assert abs(width - usual) <= usual / 8 + 1e-9


def test_a_given_number_of_repeats_stays_odd() -> None:
    """So does the number that follows from a given width."""
    for line, count in {"count = 17": 17, "width = '40.5 mm'": 17}.items():
        tier = one_tier(f"[[tier.design]]\nkind = 'scallops'\n{line}\n")
        (guide,) = build_stack(tier).tiers[0].guides
        assert guide.values["repeat_count"] == count


@pytest.mark.parametrize("form", ["bottom", "top", "both"])
@pytest.mark.parametrize("shape", ["round", "square", "heart"])
def test_shells_stand_at_the_edges_and_each_touches_the_next(form: str, shape: str) -> None:
    """A border at the top edge, at the base, or at both; from the head of one to that of the next.

    The last ends where the first begins, once round the side.
    """
    side = layer(SHAPES[shape](200), 100.0)
    guide = design_guide(side, Design(kind="shells", form=form, height=length_of(9)))
    boxes = [stroke.path.bounds for stroke in guide.drawing.strokes]
    rows = {"top": [(0.0, 9.0)], "bottom": [(91.0, 100.0)]}
    rows["both"] = [*rows["top"], *rows["bottom"]]
    for low, high in rows[form]:
        row = sorted((box for box in boxes if abs(box.y0 - low) < 1), key=lambda box: box.x0)
        assert all((box.y0, box.y1) == pytest.approx((low, high), abs=1e-6) for box in row)
        ends = [*(box.x0 for box in row), row[0].x0 + side.side.girth]
        assert [box.x1 for box in row] == pytest.approx(ends[1:], abs=1e-6)
    assert sum(abs(box.y0 - low) < 1 for low, _ in rows[form] for box in boxes) == len(boxes)


def test_shells_taller_than_their_band_are_refused() -> None:
    """Two borders of 30 mm do not go into a band of 50 mm; the most is half of it."""
    spec = Design(
        kind="shells", form="both", height=length_of(30), top=length_of(0), bottom=length_of(50)
    )
    with pytest.raises(CakeError) as caught:
        design_guide(layer(SHAPES["round"](200)), spec)
    (problem,) = caught.value.problems
    assert problem.key == ("height",)
    assert "25 mm" in problem.allowed
