"""Boards to saw and the ring on the drum: their outlines, their holes, their fondant."""

from __future__ import annotations

import math
import re

import pytest
import shapely

from templates_gen.bench.bench_list import bench
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.templates import templates
from tests.cakes import cake
from tests.laws import words_lie_on_their_piece

STACK = """through_dowel = true
drum = { size = '14 in', shape = 'square', template = true, thickness = '15 mm' }
[[tier]]
size = '9 in'
depth = '3 in'
shape = 'square'
board_template = true
[[tier]]
size = '4 in'
depth = '3 in'
shape = 'heart'
board_template = true
position = { right = '20 mm', back = '-10 mm', turn = 30 }
dowels.thickness = '12 mm'
"""
RING = "drum = { covering = 'ring', fondant = '3 mm', size = '12 in' }\n"
ROUND = "[[tier]]\nsize = '8 in'\ndepth = '3 in'\nboard_template = true\n"


def of_kind(plan: Plan, kind: str) -> list[Piece]:
    """Return the pieces of a kind."""
    return [piece for piece in plan.pieces if piece.kind == kind]


def _middle(piece: Piece) -> tuple[float, float]:
    """Return where the axes of a board cross: the middle of its tier."""
    lines = [each.path.bounds for each in piece.drawing.strokes if each.role is Role.CENTRE]
    upright = next(box for box in lines if box.width < 1e-6)
    level = next(box for box in lines if box.height < 1e-6)
    return upright.x0, level.y0


def test_the_holes_of_all_boards_are_in_one_line() -> None:
    """Each hole lies, where its tier stands on the drum, over the mark on the drum."""
    plan = make_plan(cake(STACK))
    drum, lower, upper = of_kind(plan, "board")
    (mark,) = [each.path.bounds for each in drum.drawing.strokes if each.role is Role.SCORE]
    x, y = _middle(drum)
    wanted = mark.centre[0] - x, mark.centre[1] - y
    assert mark.width == pytest.approx(12.0, abs=0.01)
    for board, right, back, turn in ((lower, 0.0, 0.0, 0.0), (upper, 20.0, -10.0, 30.0)):
        (hole,) = (path.bounds for path in board.openings)
        assert hole.width == pytest.approx(13.0, abs=0.01)
        x, y = _middle(board)
        p, q = hole.centre[0] - x, hole.centre[1] - y
        cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
        assert (right + p * cos - q * sin, back + p * sin + q * cos) == pytest.approx(
            wanted, abs=0.01
        )


def test_a_drum_is_drilled_two_thirds_through_and_boards_right_through() -> None:
    """Our choice: 10 mm into a drum of 15 mm for a dowel of 12 mm; boards 1 mm wider than it."""
    drilled = [
        " ".join(label.text for label in board.drawing.labels).partition("drill ")[2]
        for board in of_kind(make_plan(cake(STACK)), "board")
    ]
    mm = [re.findall(r"([\d.]+)\smm", words.partition("left")[0]) for words in drilled]
    assert mm == [["12", "10"], ["13"], ["13"]]
    assert ["deep" in words for words in drilled] == [True, False, False]


@pytest.mark.parametrize("shape", ["round", "square", "hexagon", "scalloped"])
def test_drums_of_each_shape(shape: str) -> None:
    """A hexagon is as wide from flat to flat as its size, twelve scallops from tip to tip."""
    plan = make_plan(
        cake(f"drum = {{ size = '360 mm', shape = '{shape}', template = true }}\n{ROUND}")
    )
    board = of_kind(plan, "board")[0]
    flats = {"hexagon": 360 * 2 / math.sqrt(3)}
    assert max(board.size.size) == pytest.approx(flats.get(shape, 360.0), abs=0.01)
    assert min(board.size.size) == pytest.approx(360.0, abs=0.01)
    areas = {
        "round": math.pi * 180**2,
        "square": 360.0**2,
        "hexagon": 2 * math.sqrt(3) * 180**2,
        "scalloped": _scalloped(180.0),
    }
    assert board.area.area == pytest.approx(areas[shape], rel=1e-3)


@pytest.mark.parametrize("shape", ["round", "square", "rectangle", "hexagon", "scalloped"])
def test_a_drum_has_the_usual_margin_at_its_narrowest(shape: str) -> None:
    """2 in beyond the bare tier, common practice, no source; between scallops too."""
    plan = make_plan(cake(f"drum = {{ shape = '{shape}', template = true }}\n{ROUND}"))
    (board,) = (each for each in of_kind(plan, "board") if each.tier == "drum")
    (centre,) = (shapely.Point(board.outline.bounds.centre),)
    margin = shapely.distance(region(board.outline).boundary, centre) - 101.6
    assert margin == pytest.approx(50.8, abs=0.02)


@pytest.mark.parametrize(
    ("more", "sizes"),
    [
        ("", (22, 16)),
        ("drum.size = '20 in'\n", (20, 14)),
        ("turned", (16, 22)),
        ("drum.shape = 'square'\n", (22, 22)),
    ],
)
def test_the_drum_of_a_slab_is_a_rectangle(more: str, sizes: tuple[float, float]) -> None:
    """Under 18 x 12 in with 2 in all round it is 22 x 16 in; a size keeps one margin all round."""
    turn = "position.turn = 90\n" if more == "turned" else ""
    slab = f"[[tier]]\nshape='rectangle'\nsize='18 in'\nshort='12 in'\ndepth='4 in'\n{turn}"
    plan = make_plan(cake(more.removeprefix("turned") + slab))
    assert plan.stack.drum is not None
    assert plan.stack.drum.bounds.size == pytest.approx([25.4 * each for each in sizes])


@pytest.mark.parametrize("shape", ["round", "square", "hexagon", "scalloped"])
def test_the_ribbon_goes_once_round_each_drum(shape: str) -> None:
    """As long as the edge of the board is, and 15 mm of overlap; drum and cover are in the list."""
    drum = f"drum = {{ size = '360 mm', shape = '{shape}', template = true, ribbon = '12 mm',"
    plan = make_plan(cake(f"{drum} fondant = '3 mm' }}\n{ROUND}"))
    board = of_kind(plan, "board")[0]
    ((points, _),) = sampled(board.outline, 0.002)
    found = bench(plan)
    (ribbon,) = found["ribbons"]
    long = shapely.LineString(points).length + 15
    assert ribbon["sizes_mm"] == pytest.approx([long, 12], abs=0.1)
    assert {"drum, 12 mm (½ in) thick", "drum cover: 3 mm (⅛ in) fondant"} <= {
        each["what"] for each in found["pieces"]
    }


def _scalloped(reach: float) -> float:
    """Return the area of twelve discs round a dodecagon of their centres, by shapely."""
    radius = 1.2 * math.sin(math.pi / 12)
    scale = reach / (1 + radius)
    at = [
        (math.cos(math.tau * n / 12) * scale, math.sin(math.tau * n / 12) * scale)
        for n in range(12)
    ]
    discs = [shapely.Point(place).buffer(radius * scale, quad_segs=64) for place in at]
    return float(shapely.union_all([shapely.Polygon(at), *discs]).area)


def test_a_ring_leaves_the_tier_on_the_bare_board() -> None:
    """Its opening is 2 mm off the finished tier; its fondant is that of an annulus."""
    plan = make_plan(cake(RING + ROUND))
    (ring,) = of_kind(plan, "drum-ring")
    foot = 101.6 + 5 + 4
    annulus = math.pi * (152.4**2 - (foot + 2) ** 2)
    assert ring.values["ring_area_mm2"] == pytest.approx(annulus, rel=1e-4)
    assert ring.paper.area == pytest.approx(annulus, rel=1e-3)
    (paste,) = [each for each in bench(plan)["paste"] if each["tier"] == "drum"]
    assert paste["on_cake_g"] == pytest.approx(annulus * 3 / 1000 * 1.35, rel=1e-3)
    assert [c["what"] for c in bench(plan)["pieces"] if c["what"].startswith("drum ring")]


def test_a_ring_follows_the_tier_where_it_stands() -> None:
    """Off the middle too: the opening is everywhere as far from the foot of the tier."""
    off = "[[tier]]\nsize = '6 in'\ndepth = '3 in'\nshape = 'square'\nposition.right = '25 mm'\n"
    plan = make_plan(cake(RING + off))
    (ring,) = of_kind(plan, "drum-ring")
    hole = region(ring.openings[0])
    centre = ring.outline.bounds.centre
    foot = shapely.box(-76.2, -76.2, 76.2, 76.2).buffer(5 + 4, quad_segs=64)
    foot = shapely.affinity.translate(foot, centre[0] + 25, centre[1])
    assert hole.covers(foot)
    assert shapely.distance(hole.boundary, foot) == pytest.approx(2.0, abs=0.02)


def test_circles_are_left_to_the_circle_guide() -> None:
    """A round board without a hole, and a ring of two circles, take no sheets."""
    plan = make_plan(cake(RING.replace("size", "template = true, size") + ROUND))
    printed = [each for each in templates(plan) if each.kind in ("board", "drum-ring")]
    assert len(printed) == 3
    assert all(not each.printed and each.instead == "circle guide" for each in printed)


def test_no_word_of_a_folded_ring_stands_in_its_hole() -> None:
    """How a ring for the drum is folded is said on the ring itself, or not at all."""
    drum = RING.replace("'12 in'", "'16 in', shape = 'scalloped'")
    plan = make_plan(cake(drum + ROUND.replace("'8 in'", "'11 in'\nshape = 'petal'\nlobes = 8")))
    printed = [each for each in templates(plan) if each.kind == "drum-ring"]
    assert [each for each in printed if each.unfolding]
    words_lie_on_their_piece(printed)


@pytest.mark.parametrize("shape", ["shape = 'polygon'\nsides = 6", "shape = 'petal'\nlobes = 7"])
def test_a_board_is_measured_as_its_tier_is(shape: str) -> None:
    """A board of the size of its tier is its foot, and one of half that half as wide all over."""
    tier = f"[[tier]]\n{shape}\nsize = '9 in'\ndepth = '4 in'\nboard_template = true\n"

    def area(board: str) -> float:
        (made,) = of_kind(make_plan(cake(tier + board)), "board")
        return made.area.area

    whole = area("")
    assert area("board = '9 in'\n") == pytest.approx(whole)
    assert area("board = '4.5 in'\n") == pytest.approx(whole / 4, rel=1e-3)


def test_a_spacer_is_measured_as_its_tier_is() -> None:
    """A spacer as large as the hexagon it stands under is as wide from side to side."""
    tier = "[[tier]]\nshape = 'polygon'\nsides = 6\nsize = '{}'\ndepth = '4 in'\n"
    raised = "raised = '2 in'\nseparator = { kind = 'spacer', spacer = '6 in' }\n"
    plan = make_plan(cake(tier.format("12 in") + tier.format("6 in") + raised))
    found = plan.stack.seats[1].separator
    assert found is not None
    assert found.spacer is not None
    assert found.spacer.across_flats == pytest.approx(152.4)
