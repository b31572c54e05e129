"""The cake in space: on the solid, with everything that is on it, the same each time."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import product
from typing import Any

import pytest
import shapely
from fontTools.misc.transform import Identity
from hypothesis import given, settings

from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.colour_words import from_hex
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError, NumberError
from templates_gen.geometry.areas.booleans import Area, filled
from templates_gen.guides.decorated import build_stack
from templates_gen.memo import Memo
from templates_gen.plan import make_plan
from templates_gen.views.coloured import front_colours
from templates_gen.views.colours import colour_of
from templates_gen.views.elevation import DETAIL, elevation
from templates_gen.views.scene import Scene, scene
from templates_gen.views.scene.marks import MOST_POINTS, points_of
from templates_gen.views.scene.parts import Body, Mark, Shape
from templates_gen.web.scene_data import body_text, placed, scene_text
from tests import plan_laws
from tests.cakes import SAMPLES, cake, one_tier, sample
from tests.solids import Model
from tests.strategies import cakes

NEAR = 0.3
"""How far a point may be from the independent solid, mm, which is made of chords itself."""


BARE = "cover='none'\ncoating='0 mm'\nboard_thickness='0 mm'\n"
"""A tier without layers and without a board."""


def scene_of(made: Cake) -> Scene:
    """Return a cake in space."""
    return scene(build_stack(made))


def judge_solid(made: Cake) -> None:
    """Compare the columns of every tier with an independent solid, at the rim and at the foot."""
    stack = build_stack(made)
    for tier, body in zip(stack.tiers, scene(stack).bodies[1:], strict=True):
        # the model knows no balls and no custom outlines
        if body.sphere is not None or tier.covered.off or tier.spec.outline:
            continue
        coating = tier.spec.coating_mm
        model = Model(tier.spec, coating + tier.spec.paste_side_mm)
        over = Model(tier.spec, coating + tier.spec.paste_top_mm)
        for column in body.columns:
            for x, y, z in (column.rim, column.foot):
                edge = model.section(z).exterior
                assert edge.distance(shapely.Point(x, y)) < NEAR
            x, y, z = column.rim
            assert z == pytest.approx(over.top(x, y), abs=NEAR)
            assert z == pytest.approx(body.top + body.slope[0] * x + body.slope[1] * y, abs=1e-6)
            assert column.foot[2] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_sides_lie_on_the_solid(path: object) -> None:
    """Every column of every sample stands on its tier's side, from the top to the foot."""
    judge_solid(sample(path.stem))  # type: ignore[attr-defined]


def text_of(found: Scene) -> str:
    """Return a scene as JSON."""
    return scene_text(found, [placed(body_text(body).text, body.at) for body in found.bodies])


@settings(max_examples=10, deadline=None)
@given(cakes())
def test_random_cakes(made: Cake) -> None:
    """The scene of any cake lies on its solids, and is the same when made again."""
    judge_solid(made)
    one, other = (text_of(scene_of(made)) for _ in range(2))
    assert one == other


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_a_number_that_no_browser_reads_is_refused(number: float) -> None:
    """Wherever it stands; a tier may be called as such numbers are."""
    found = scene_of(one_tier('name="-Infinity NaN"'))
    assert '"-Infinity NaN"' in text_of(found)
    body = found.bodies[-1]
    for wrong in (
        replace(body, top=number),
        replace(body, slope=(number, 0.0)),
        replace(body, columns=(replace(body.columns[0], depth=number), *body.columns[1:])),
    ):
        with pytest.raises(NumberError):
            text_of(replace(found, bodies=(wrong,)))


def test_faces_come_near_the_round() -> None:
    """Half-way between two columns of a round tier the flat face is within 0.06 mm of it."""
    (_, body) = scene_of(one_tier("cover='none'\ncoating='0 mm'", size="300 mm")).bodies
    for a, b in zip(body.columns, body.columns[1:], strict=False):
        middle = [(p + q) / 2 for p, q in zip(a.rim, b.rim, strict=True)]
        assert 150 - math.hypot(*middle[:2]) < 0.06


def test_boards_and_icing_along_a_rim_reach_into_corners() -> None:
    """A bare tier 310 by 215 mm has corners 155 mm aside and 107.5 mm off its middle: by hand."""
    lines = "shape = 'rectangle'\nshort = '215 mm'\ncover = 'none'\ncoating = '0 mm'\ndrips = {}\n"
    (_, body) = scene_of(one_tier(lines, size="310 mm")).bodies
    icing = body.on_top[0].shapes[0][0]
    for x, y in product((-155.0, 155.0), (-107.5, 107.5)):
        for ring in (body.board, icing):
            assert min(math.dist(point, (x, y)) for point in ring) < 0.01


def parts(found: Scene) -> list[str]:
    """Return what can be picked."""
    everything: list[str] = []
    for body in found.bodies:
        everything.append(body.look.part)
        everything += [mark.look.part for mark in (*body.on_side, *body.on_top)]
        everything += [body.hole.look.part] if body.hole else []
    everything += [each.look.part for each in found.lying]
    return [*everything, *(each.look.part for each in found.standing)]


def expected_parts(made: Cake) -> set[str]:
    """Return what a cake file has that must be seen."""
    found = {"drum"} | {f"topper.{index}" for index in range(len(made.topper))}
    found |= {f"flower.{index}" for index in range(len(made.flower))}
    found |= {f"cascade.{index}" for index in range(len(made.cascade))}
    found |= {f"letter_cake.{index}" for index in range(len(made.letter_cake))}
    for index, tier in enumerate(made.tier):
        found.add(f"tier.{index}")
        for key in ("panels", "drips", "opening", "ribbon", "comb", "run_out"):
            if getattr(tier, key) is not None:
                found.add(f"tier.{index}.{key}")
        for key in ("design", "lettering", "scatter"):
            found |= {f"tier.{index}.{key}.{place}" for place in range(len(getattr(tier, key)))}
    return found | ({"drum.ribbon"} if made.drum.ribbon else set())


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_everything_that_is_on_a_cake_is_there(path: object) -> None:
    """Every tier, everything on it, the drum, cascades and toppers have a part of their own."""
    made = sample(path.stem)  # type: ignore[attr-defined]
    assert set(parts(scene_of(made))) == expected_parts(made)


def tier_of(lines: str) -> Body:
    """Return a tier 200 mm wide and 100 mm deep, without layers."""
    bare = "cover='none'\ncoating='0 mm'\n"
    return scene_of(one_tier(bare + lines, size="200 mm", depth="100 mm")).bodies[1]


WOUND = """
[[tier]]
size = "240 mm"
depth = "80 mm"
position.turn = 25
[[tier]]
size = "150 mm"
top_size = "120 mm"
depth = "60 mm"
[[cascade]]
shape = "heart"
sizes = ["24 mm", "14 mm"]
end_turn = 80
width = "60 mm"
end_width = "60 mm"
"""


def area_of(shape: Shape) -> shapely.Polygon:
    """Return what one contour encloses."""
    (ring,) = shape
    return shapely.Polygon(ring)


def test_pieces_of_a_cascade_are_shown_where_they_lie() -> None:
    """On an upright side, a taper, a drum and a turned tier each heart covers its outline."""
    stack = build_stack(cake(WOUND))
    drum, lower, upper = scene(stack).bodies
    shown = [body.on_side[-1] for body in (lower, upper)]
    shown += [body.on_top[-1] for body in (drum, lower)]
    laid = [tier.cascades[0] for tier in stack.tiers] + [each.cascades[0] for each in stack.ledges]
    onto = [Identity, Identity, *(each.seat.lies.transform.inverse() for each in stack.ledges)]
    assert [bool(mark.repeated) for mark in shown] == [True, False, True, True]
    for mark, pieces, move in zip(shown, laid, onto, strict=True):
        true = sorted((filled(each.outline.transformed(move)) for each in pieces), key=middle_of)
        found = sorted(map(area_of, mark.every_shape), key=middle_of)
        assert len(found) == len(true) > 1
        for one, other in zip(found, true, strict=True):
            assert shapely.symmetric_difference(one, other).area < 0.04 * other.area


def middle_of(area: Area) -> tuple[float, float]:
    """Return the middle of an area, to 0.1 mm."""
    return round(area.centroid.x, 1), round(area.centroid.y, 1)


def test_drips_are_filled_where_the_guide_has_them() -> None:
    """Twelve drips, each 50 mm long and 15 mm wide at its root, the first at the front."""
    spacing = 200 * math.pi / 12
    body = tier_of(f"[tier.drips]\nspacing='{spacing} mm'\npattern='even'\nlongest='50 mm'\n")
    (drips,) = body.on_side
    assert len(drips.shapes) == 12
    for ((ring,),) in zip(drips.shapes, strict=True):
        us, vs = zip(*ring, strict=True)
        assert max(vs) == pytest.approx(50, abs=0.2)
        assert max(us) - min(us) == pytest.approx(15, abs=0.2)
    (poured,) = body.on_top
    (edge, inner) = poured.shapes[0]
    assert [round(math.hypot(*ring[0])) for ring in (edge, inner)] == [100, 90]


def test_a_hole_goes_straight_through() -> None:
    """In front and behind its edge lies on a level round tunnel, point by point alike."""
    body = scene_of(
        one_tier("dummy=true\ncover='none'\n[tier.opening]\nradius='25 mm'\n", size="200 mm")
    ).bodies[1]
    assert body.hole is not None
    for (u, v), (w, down) in zip(body.hole.front, body.hole.back, strict=True):
        assert v == pytest.approx(down)
        # how far to the left of the middle, on a round of radius 100 mm
        one, other = (100 * math.sin(each / 100) for each in (u, w))
        assert one == pytest.approx(other, abs=1e-6)
        assert math.hypot(one, 101.6 - v - 50.8) == pytest.approx(25, abs=0.01)


def test_a_sloped_top_is_a_plane() -> None:
    """It falls from 100 mm at the back to 60 mm at the front, by a fifth."""
    body = tier_of("shallowest_depth='60 mm'\n")
    assert body.slope == pytest.approx((0.0, 0.2))
    assert body.top == pytest.approx(80.0)


SLOPED = """
shallowest_depth = "50 mm"
slopes_down_to = "left"
cover = "none"
coating = "0 mm"
ribbon = "12 mm"
[[tier.design]]
kind = "stripes"
count = 18
[[tier.design]]
kind = "chevrons"
top = "70 mm"
count = 24
"""


def test_a_mark_beside_its_place_is_found() -> None:
    """Two mm to the side, a scattered heart is no longer on the lines of its collar."""
    plan = make_plan(one_tier("[[tier.scatter]]\nshape='heart'\nsize='20 mm'\ncount=5\n"))
    there, moved = (plan_laws.off_the_paper(plan, moved=each) for each in (0.0, 2.0))
    assert max(there) < plan_laws.NEAR < min(moved)


def test_nothing_on_a_sloped_tier_lies_below_its_foot() -> None:
    """In space each mark ends at the foot, by hand 50 to 100 mm down; so do both flat pictures."""
    stack = build_stack(one_tier(SLOPED, size="200 mm", depth="100 mm"))
    ribbon, stripes, chevrons = scene(stack).bodies[1].on_side
    assert len(stripes.shapes) == 18
    for mark in (ribbon, stripes, chevrons):
        assert not mark.bands
        contours = [*mark.lines, *(ring for shape in mark.shapes for ring in shape)]
        deepest = [v - (75 - 25 * math.sin(u / 100)) for ring in contours for u, v in ring]
        assert max(deepest) == pytest.approx(0.0, abs=0.01)
    wide = shapely.Polygon(ribbon.shapes[0][0]).area / (200 * math.pi)
    assert wide == pytest.approx(12, abs=0.01)
    foot = stack.feet[0] - 0.01
    on_tier = [fill.path for fill in front_colours(stack)[3:]]
    drawn = [each.path for each in elevation(stack).strokes if each.role is DETAIL]
    assert min(path.bounds.y0 for path in (*on_tier, *drawn)) > foot


def test_half_a_ball_is_a_sphere() -> None:
    """Its middle lies on its foot, as wide as it is."""
    body = scene_of(
        one_tier("shape='ball'\ncover='none'\ncoating='0 mm'\n", size="80 mm", depth="40 mm")
    ).bodies[1]
    assert body.sphere is not None
    assert (body.sphere.radius, body.sphere.middle, body.sphere.foot) == (40.0, 0.0, 40.0)
    assert (body.columns, body.top) == ((), 40.0)


def test_tiers_stand_where_the_stack_has_them() -> None:
    """Each on the one below, moved and turned as asked."""
    text = (
        f"[[tier]]\nsize='300 mm'\ndepth='90 mm'\n{BARE}"
        "[[tier]]\nsize='100 mm'\ndepth='90 mm'\nboard_thickness='4 mm'\n"
        "position={right='20 mm',back='-5 mm',turn=30}"
    )
    drum, lower, upper = scene_of(cake(text)).bodies
    assert (drum.at, lower.at, upper.at) == (
        (0.0, 0.0, -12.0, 0.0),
        (0.0, 0.0, 0.0, 0.0),
        (20.0, -5.0, 94.0, 30),
    )


def test_toppers_stand_on_the_top() -> None:
    """The taller behind the other, a stick under one, the tab of the other in the cake."""
    text = (
        f"[[tier]]\nsize='200 mm'\ndepth='90 mm'\n{BARE}"
        "[[topper]]\nshape='heart'\nheight='60 mm'\n[[topper]]\nshape='star'\nstick='tab'\n"
    )
    star, heart = scene_of(cake(text)).standing
    assert heart.at[2] == star.at[2] == 90.0
    assert heart.at[1] < 0 < star.at[1]
    assert min(y for ring in heart.shapes[0] for _, y in ring) == pytest.approx(14.0, abs=0.1)
    assert min(y for ring in star.shapes[0] for _, y in ring) == pytest.approx(-25.0, abs=0.1)
    assert heart.sticks
    assert not star.sticks


@pytest.mark.parametrize(
    "lines",
    [
        "shape = 'star'\npoints = 6",
        "shape = 'heart'",
        "shape = 'leaf'",
        "shape = 'text'\ntext = '17'\nfont = 'bold'",
        "shape = 'text'\ntext = 'R'\nfont = 'bold'",
        "shape = 'text'\ntext = '40'\nfont = 'bold'",
    ],
)
def test_a_stick_is_seen_where_its_template_has_it(lines: str) -> None:
    """Under the line of the template and as far up, and as long as it says: cake and gap too."""
    plan = make_plan(one_tier(f"{BARE}[[topper]]\nheight = '120 mm'\n{lines}"))
    cut = [piece for piece in plan.pieces if piece.kind == "topper"]
    (seen,) = scene(plan.stack).standing
    for piece, shape, (x, high) in zip(cut, seen.shapes, seen.sticks, strict=True):
        marked = [each.path.bounds for each in piece.drawing.strokes if each.role is Role.CENTRE]
        left, low = (min(place[axis] for ring in shape for place in ring) for axis in (0, 1))
        assert x - left == pytest.approx(marked[0].x0 - piece.outline.bounds.x0, abs=0.3)
        # the line ends sooner where there is no paste
        top = max(each.y1 for each in marked) - piece.outline.bounds.y0
        assert high - low > top - 0.3
        in_cake, whole = (piece.values[f"stick_{key}_mm"] for key in ("in_cake", "length"))
        assert isinstance(whole, float)
        assert isinstance(in_cake, float)
        assert whole - in_cake == pytest.approx(14 + high - low, abs=0.3)


def test_a_rich_tier_is_simplified() -> None:
    """Thousands of pearls are shown as no more points than a tier may have, and it says so."""
    pearls = "[[tier.design]]\nkind='pearls'\nwidth='8 mm'\nbreadth='4 mm'\nrows=9\n"
    found = scene_of(one_tier(pearls, size="20 in", depth="5 in"))
    (mark,) = found.bodies[1].on_side
    assert found.is_coarse
    assert points_of(mark) <= MOST_POINTS


def test_a_coarse_scene_leaves_out_what_is_not_at_hand() -> None:
    """At first bare tiers, and once all is known everything."""
    memo, made = Memo(100), sample("harbour-wedding")
    stack = build_stack(made, memo)
    bare = scene(stack, memo, coarse=True)
    assert [len(body.on_side) for body in bare.bodies[1:]] == [0, 0, 0, 0]
    whole = scene(stack, memo)
    assert scene(stack, memo, coarse=True).bodies == whole.bodies


@pytest.mark.parametrize(
    ("words", "hexed"),
    [
        ("gold", "cda349"),
        ("Duck Egg", "c8e2de"),
        ("#123abc", "123abc"),
        ("pale pink", "fadae0"),
        ("mud of the river", "010203"),
        (None, "010203"),
    ],
)
def test_colours_by_their_words(words: str | None, hexed: str) -> None:
    """A word of the trade, a shade of one, hexadecimal digits; else what is usual."""
    assert colour_of(words, "010203") == from_hex(hexed)


def test_colours_are_those_of_the_cake_file() -> None:
    """Of tier, drips, design, letters to cut, small pieces, panels, topper and drum."""
    made = cake(
        "[drum]\nfondant='3 mm'\ncolour='navy'\n[[topper]]\nshape='heart'\ncolour='gold'\n"
        "[[tier]]\nsize='300 mm'\ndepth='100 mm'\ncolour='ivory'\n[tier.drips]\ncolour='red'\n"
        "[tier.panels]\nheight='20 mm'\ncolour='sage'\n[[tier.design]]\nkind='pearls'\n"
        "colour='silver'\n[[tier.lettering]]\ntext='Ada'\ncut=true\ncolour='plum'\n"
        "[[tier.scatter]]\ncolour='blush'\ncount=2\n"
    )
    found = scene_of(made)
    body = found.bodies[1]
    looks = [found.bodies[0].look, body.look, *(mark.look for mark in body.on_side)]
    assert found.standing[0].look.colour == colour_of("gold", "000000")
    assert sorted(look.colour for look in looks) == sorted(
        colour_of(word, "000000")
        for word in ("navy", "ivory", "red", "sage", "silver", "plum", "blush")
    )


def test_tiers_without_a_colour_differ() -> None:
    """Neighbours are told apart, and one that is to be white is white."""
    tiers = "".join(f"[[tier]]\nsize='{size} cm'\ndepth='9 cm'\n" for size in (30, 20, 10))
    _, *bodies = scene_of(cake(tiers + "colour='white'\n")).bodies
    assert bodies[0].look.colour != bodies[1].look.colour
    assert bodies[2].look.colour == (255, 255, 255)


def test_what_is_dragged_has_keys_of_the_cake_file() -> None:
    """Everything that moves names a key of its table, and where the value is given, that value."""
    made = cake(
        "[[tier]]\nsize='300 mm'\ndepth='100 mm'\ndummy=true\nposition={right='5 mm'}\n"
        "[tier.opening]\nradius='20 mm'\nheight='45 mm'\nturn=30\n"
        "[[tier.lettering]]\ntext='Ada'\nlevel='50 mm'\nsideways='-150 mm'\n"
        "[[tier.lettering]]\ntext='Joe'\non='top'\nlevel='150 mm'\n"
        "[[tier.scatter]]\ntop='20 mm'\nbottom='90 mm'\ncount=3\n"
    )
    body = scene_of(made).bodies[1]
    assert body.hole is not None
    looks = [body.look, body.hole.look, *(m.look for m in (*body.on_side, *body.on_top))]
    found = {(look.part, ".".join(move.key)): move.value for look in looks for move in look.moves}
    for (part, key), value in found.items():
        owner: Any = made
        for name in [*part.split("."), *key.split(".")]:
            owner = owner[int(name)] if name.isdigit() else getattr(owner, name)
        assert value == pytest.approx(getattr(owner, "mm", owner)), (part, key)
    assert len(found) == 10


@pytest.mark.parametrize("on", ["side", "top"])
@pytest.mark.parametrize("how", ["", "line='curve'\ncurve_height='8 mm'"])
def test_letters_in_the_middle_say_where_they_are(on: str, how: str) -> None:
    """Where no level is given the value is that which leaves them where they are."""

    def marks(lines: str) -> Mark:
        made = one_tier(f"[[tier.lettering]]\ntext='Ada'\non='{on}'\n{how}\n{lines}")
        body = scene_of(made).bodies[1]
        return (body.on_side if on == "side" else body.on_top)[0]

    left = marks("")
    level = {move.key: move.value for move in left.look.moves}[("level",)]
    again = marks(f"level='{level} mm'\n")
    for (u, v), (w, z) in zip(left.shapes[0][0], again.shapes[0][0], strict=True):
        assert (u, v) == pytest.approx((w, z))


def test_what_cannot_be_is_refused() -> None:
    """Drips that touch are an error, as on paper."""
    with pytest.raises(CakeError):
        scene_of(one_tier("[tier.drips]\nspacing='4 mm'\nwidth='20 mm'\n"))
