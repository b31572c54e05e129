"""Garlands and cascades: how long they lie in space, clear of all else, as many as are marked."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Hashable
from itertools import combinations
from typing import TypeVar

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from templates_gen.bench.bench_list import bench
from templates_gen.bench.cascades import section
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import Area, filled, region
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier, build_stack
from templates_gen.memo import Memo
from templates_gen.plan import make_plan
from tests.cakes import cake

T = TypeVar("T")
BARE = "cover = 'none'\ncoating = 0\n"
"""A tier that is its tin, so that every length in a test is one of the file."""
BOARD = 3.0
"""Thickness of the board under each tier, mm, as the file has it."""


def stack_of(tiers: str, cascade: str, drum: str = "500 mm") -> DecoratedStack:
    """Return the stack of some tiers with one cascade."""
    return build_stack(cake(f"drum.size = '{drum}'\n{tiers}[[cascade]]\n{cascade}"))


def tier(size: float, depth: float, more: str = "") -> str:
    """Return a bare tier with a board of its own thickness."""
    board = f"board_thickness = '{BOARD} mm'\n"
    return f"[[tier]]\nsize = '{size} mm'\ndepth = '{depth} mm'\n{board}{BARE}{more}"


def helix(radius: float, deep: float, turned: float) -> float:
    """Return the length of a line that falls evenly while it turns, by integration."""
    return float(quad(lambda t: math.hypot(deep, radius * turned), 0, 1)[0])


def cone(rim: float, foot: float, tall: float, turned: float) -> float:
    """Return the length of a line down a cone that turns evenly with its height."""

    def speed(t: float) -> float:
        radius = rim + (foot - rim) * t
        return math.sqrt((foot - rim) ** 2 + (radius * turned) ** 2 + tall**2)

    return float(quad(speed, 0, 1)[0])


def test_a_straight_line_is_as_long_as_depths_boards_and_ledges() -> None:
    """Down upright tiers 300, 220 and 120 mm wide on a drum of 500 mm: by hand."""
    tiers = tier(300, 100) + tier(220, 110) + tier(120, 90)
    (line,) = stack_of(tiers, "on_drum = '60 mm'").cascades
    assert line.length == pytest.approx(100 + 110 + 90 + 3 * BOARD + 40 + 50 + 60, abs=0.05)


def test_without_an_end_on_the_drum_it_runs_half_way_to_the_edge() -> None:
    """From the foot at 150 mm to half-way to 250 mm from the middle."""
    (line,) = stack_of(tier(300, 100), "").cascades
    assert line.length == pytest.approx(100 + BOARD + 50, abs=0.05)


@pytest.mark.parametrize(("start", "end"), [(0, 90), (-45, 45), (30, 390), (0, -200)])
def test_a_spiral_is_as_long_as_its_curve_in_space(start: int, end: int) -> None:
    """Round upright tiers and a round taper: the space curve is integrated by scipy."""
    tiers = tier(300, 100) + tier(200, 120, "top_size = '150 mm'\n")
    turns = f"start_turn = {start}\nend_turn = {end}\non_drum = '20 mm'\nsizes = ['10 mm']\n"
    (line,) = stack_of(tiers, turns).cascades
    slant = math.hypot(120, 25)
    turned = math.radians(end - start)
    upper = turned * slant / (slant + 100)
    wanted = cone(75, 100, 120, upper) + BOARD + 50 + helix(150, 100, turned - upper) + BOARD + 20
    assert line.length == pytest.approx(wanted, rel=1e-4)


def test_a_line_ends_where_it_is_told_to() -> None:
    """From the front 60 degrees to the left to 120 to the right, of tiers that stand aside too."""
    aside = "[tier.position]\nright = '15 mm'\nturn = 20\n"
    tiers = tier(300, 100) + tier(200, 100, f"shape = 'square'\n{aside}")
    stack = stack_of(tiers, "start_turn = -60\nend_turn = 120")
    runs = [run for run in stack.cascades[0].runs if not run.on_ledge]
    for run, point, turn in ((runs[0], 0, -60), (runs[-1], -1, 120)):
        side, place = stack.tiers[run.tier].covered.side, stack.places[run.tier]
        x, y = place.at(side.in_space(*run.points[point])[:2])
        assert math.degrees(math.atan2(x, -y)) == pytest.approx(turn, abs=1e-6)


def on_paper(solid: DecoratedTier, paths: list[Path], turn: float = 0.0) -> list[Area]:
    """Return areas drawn on a side as they lie on its paper."""
    strokes = tuple(Stroke(path.moved(turn, 0), Role.GUIDE) for path in paths)
    return [filled(stroke.path) for stroke in solid.covered.side.unroll(Drawing(strokes)).strokes]


LETTERED = "[[tier.lettering]]\ntext = 'Ada & Joe'\nfont = 'bold'\ncap_height = '30 mm'\n"
HOLED = "dummy = true\n[tier.opening]\nradius = '25 mm'\n"
SIDES = ("", LETTERED, HOLED, "top_size = '150 mm'\n", "shape = 'square'\n", "shape = 'heart'\n")


@given(st.data())
@settings(max_examples=25, deadline=None)
def test_pieces_are_clear_of_each_other_of_letters_and_of_holes(data: st.DataObject) -> None:
    """Their true outlines by shapely on the paper, over the join too; none leaves the side."""
    above = tier(180, 110, data.draw(st.sampled_from(SIDES)))
    turns = f"start_turn = {data.draw(st.integers(-180, 180))}\n"
    turns += f"end_turn = {data.draw(st.integers(-400, 400))}\n"
    stack = stack_of(
        tier(280, 100, data.draw(st.sampled_from(SIDES))) + above,
        f"{turns}sizes = ['30 mm', '16 mm', '9 mm']\ndensity = 45\napart = '2 mm'\n"
        f"shuffle = {data.draw(st.integers(0, 99))}\n",
    )
    for solid in stack.tiers:
        girth = solid.covered.side.girth
        pieces = [each.outline for laid in solid.cascades.values() for each in laid]
        areas = on_paper(solid, pieces)
        closed = [*solid.openings.on(solid.covered)]
        closed += [path for each in solid.letterings_on_side.values() for path in each.on_side]
        others = [*areas, *on_paper(solid, pieces, girth), *on_paper(solid, closed)]
        near = shapely.STRtree(others).query(areas, "dwithin", distance=2 - 0.03)
        assert all(one == other for one, other in near.T)
        for path in pieces:
            box = path.bounds
            assert box.y0 >= -0.03
            assert box.y1 <= solid.covered.side.depth + 0.03


def test_pieces_of_ledges_lie_between_a_tier_and_the_edge() -> None:
    """By shapely: none on the tier, none over the edge, none on another, and some on each ledge."""
    tiers = tier(300, 60) + tier(200, 60, "shape = 'square'\n") + tier(90, 60)
    stack = stack_of(tiers, "sizes = ['20 mm', '9 mm']\nwidth = '120 mm'\nend_turn = 50\n")
    for ledge in stack.ledges:
        (laid,) = ledge.cascades.values()
        areas = [region(each.outline) for each in laid]
        assert areas
        edge, foot = region(ledge.seat.edge), region(ledge.seat.covered)
        assert all(edge.covers(area) and not foot.intersects(area) for area in areas)
        assert not any(one.intersects(other) for one, other in combinations(areas, 2))


def test_no_piece_lies_beside_the_line() -> None:
    """On a side laid flat every piece is within half the width of the line."""
    stack = stack_of(tier(300, 150), "width = '80 mm'\nend_turn = 120\non_drum = 0\n")
    (run, *_), side = stack.cascades[0].runs, stack.tiers[0].covered.side
    line = shapely.LineString([side.flat(*point) for point in run.points])
    band = line.buffer(40 + 0.02)
    pieces = [each.outline for each in stack.tiers[0].cascades[0]]
    # those over the join lie a turn further on
    turned = [on_paper(stack.tiers[0], pieces, turn) for turn in (-side.girth, 0, side.girth)]
    assert all(any(band.covers(each) for each in some) for some in zip(*turned, strict=True))


COUNTED = (
    "[[tier]]\nsize = '10 in'\ndepth = '4 in'\n[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"
    "[[cascade]]\nsizes = ['30 mm', '12 mm']\nend_turn = 90\nwidth = '70 mm'\n"
)


def test_as_many_are_cut_as_are_marked() -> None:
    """Letters on collars and placement guides, the sheet of pieces and the bench list agree."""
    plan = make_plan(cake(COUNTED))
    marked = [
        label.text
        for piece in plan.pieces
        if piece.kind in ("collar", "placement-guide")
        for label in piece.drawing.labels
        if label.text in ("A", "B")
    ]
    (sheet,) = (piece for piece in plan.pieces if piece.kind == "cascade")
    (listed,) = bench(plan)["cascades"]
    counts = (marked.count("A"), marked.count("B"))
    assert counts == sheet.values["pieces_by_size"] == tuple(listed["pieces"])
    assert min(counts) > 2
    each = [sum(place["pieces"][size] for place in listed["places"]) for size in (0, 1)]
    assert tuple(each) == counts
    said = [label.text for label in sheet.drawing.labels]
    assert {f"A: cut {counts[0]}", f"B: cut {counts[1]}"} <= {*said}


def test_each_size_covers_as_much_of_the_line() -> None:
    """Of a wide line two sizes of circles cover a third of it between them, half of that each."""
    stack = stack_of(
        tier(400, 200), "shape = 'circle'\nsizes = ['20 mm', '10 mm']\nwidth = '120 mm'\n"
    )
    (line,) = stack.cascades
    area = line.length * 120
    large, small = line.runs[0].wanted
    for count, size in ((large, 20), (small, 10)):
        assert count * math.pi / 4 * size**2 / area == pytest.approx(0.35 / 2, rel=0.02)


def test_the_same_number_gives_the_same_and_another_another() -> None:
    """Places depend on the shuffle number."""
    found = []
    for shuffle in (3, 3, 4):
        solid = stack_of(tier(300, 100), f"shuffle = {shuffle}\n").tiers[0]
        found.append([each.at for each in solid.cascades[0]])
    assert found[0] == found[1] != found[2]


def test_small_pieces_keep_clear_of_a_cascade() -> None:
    """What is scattered over a side goes round it."""
    scatter = "[[tier.scatter]]\ncount = 60\nsize = '14 mm'\n"
    solid = stack_of(tier(300, 120, scatter), "width = '100 mm'\n").tiers[0]
    pieces = [filled(each.outline) for each in solid.cascades[0]]
    small = [filled(path) for path in solid.scatters[0].placed]
    assert not any(one.intersects(other) for one in pieces for other in small)


def test_pieces_that_have_no_room_are_said() -> None:
    """A line over a hole and letters is much barer than the file says, and the list says so."""
    wide = LETTERED.replace("30 mm", "60 mm")
    plan = make_plan(
        cake(f"[[tier]]\nsize = '6 in'\ndepth = '4 in'\n{wide}[[cascade]]\ndensity = 50\n")
    )
    texts = [each.text for each in plan.warnings() if each.key[:1] == ("cascade",)]
    assert any("have room" in text for text in texts)


@pytest.mark.parametrize(
    ("tiers", "lines", "key", "found"),
    [
        ("[[tier]]\nsize = '6 in'\ndepth = '6 in'\nshape = 'ball'\n", "", "start", "a ball"),
        (tier(300, 100) + tier(200, 100, "raised = '3 in'\n"), "", "end", "raised"),
        (tier(300, 100), "on_drum = '9 in'\n", "on_drum", "9 in"),
        (
            tier(300, 100) + tier(90, 80, "[tier.position]\nright = '80 mm'\n"),
            "",
            "start",
            "beside the middle",
        ),
        (tier(300, 100), "sizes = ['6 mm']\nwidth = '300 mm'\n", "density", "pieces"),
    ],
)
def test_a_line_that_cannot_be_is_refused(tiers: str, lines: str, key: str, found: str) -> None:
    """Over a ball, from a raised tier, off the drum, beside the middle, of too many pieces."""
    with pytest.raises(CakeError) as caught:
        stack_of(tiers, lines)
    (problem,) = caught.value.problems
    assert problem.key == ("cascade", 0, key)
    assert found in problem.found


class Counted(Memo):
    """Counts what is made, by the function that makes it."""

    def __init__(self) -> None:
        super().__init__(1000)
        self.made: Counter[str] = Counter()

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """Count a value that is not at hand."""
        if key not in self and isinstance(key, tuple):
            self.made[getattr(key[0], "__name__", str(key[0]))] += 1
        return super().get(key, make)


def test_another_size_makes_the_line_down_one_side_anew() -> None:
    """Of two garlands that turn alike the line down each of three tiers is made once."""
    memo = Counted()
    garland = "[[cascade]]\nstart_turn = -60\nend_turn = 345\ndensity = 5\n"
    upper = tier(220, 110) + tier(120, 90) + garland + garland
    for size, made in ((300, 3), (310, 4), (300, 4)):
        build_stack(cake(f"drum.size = '500 mm'\n{tier(size, 100)}{upper}"), memo)
        assert memo.made["_down_side"] == made


def test_a_place_without_any_is_not_listed() -> None:
    """Pieces of 60 mm have no room on a ledge of 20 mm, of which nothing is said."""
    tiers = f"{tier(160, 120)}{tier(120, 120)}"
    lines = "shape = 'circle'\nsizes = ['60 mm']\nstart = 'tier 2'\nend = 'tier 1'\nwidth = '70 mm'"
    plan = make_plan(cake(f"drum.size = '500 mm'\n{tiers}[[cascade]]\n{lines}"))
    whole, *places = section(bench(plan)).rows
    assert not whole[2].startswith("0 ")
    assert places
    assert all(int(pieces) for _, _, pieces in places)
    assert "on tier 1" not in [where for _, where, _ in places]
