"""Dowels: inside the board above by the inset, apart from each other, clear of what is hollow."""

from __future__ import annotations

import math
import re
from itertools import combinations

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import PUBLISHED_DOWELS, bench_table
from templates_gen.bench.steps import steps
from templates_gen.cakefile.supports import INSET
from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from templates_gen.tiers.dowels import LEAST_SPACING, Bearing, Support, rule, support
from templates_gen.tiers.pose import Pose
from templates_gen.tiers.tunnel import WALL
from tests.cakes import cake, pieces_of
from tests.shapes import EVERY

TWO = build_stack(
    cake("[[tier]]\nsize='300 mm'\ndepth='100 mm'\n[[tier]]\nsize='200 mm'\ndepth='90 mm'")
)
OFFSETS = st.floats(-60, 60)


def in_stack(lines: str = "", upper: str = "", top: str = "") -> Support:
    """Return the dowels in the lower of two tiers, 12 and 8 in wide."""
    text = (
        f"{top}\n[[tier]]\nsize = '12 in'\ndepth = '4 in'\ncoating = '6 mm'\nfondant = '4 mm'\n"
        f"{lines}\n[[tier]]\nsize = '8 in'\ndepth = '3 in'\n{upper}"
    )
    found = build_stack(cake(text)).seats[1].support
    assert found is not None
    return found


def test_rule() -> None:
    """One for each 2 in across the tier above, three at least: from memory, no source."""
    assert [rule(inches * 25.4) for inches in (2, 4, 6, 8, 10, 12, 14)] == [3, 3, 3, 4, 5, 6, 7]


@pytest.mark.parametrize("inches", range(4, 17))
def test_rule_lies_in_the_range_of_published_rules(inches: int) -> None:
    """3 to 8 under tiers up to 16 in, over all four rules, which disagree.

    Orlando Sentinel 6 June 1985; pattycakes.com; ehow 6156392; cakecraftworld.co.uk.
    """
    least, most = zip(*PUBLISHED_DOWELS.values(), strict=True)
    assert (min(least), max(most)) == (3, 8)
    assert 3 <= rule(inches * 25.4) <= 8


def test_the_list_names_its_rule_and_the_published_ones() -> None:
    """Ours, each published one with its source, the bound, and that none is structural advice."""
    text = "[[tier]]\nsize = '12 in'\ndepth = '4 in'\n[[tier]]\nsize = '8 in'\ndepth = '3 in'\n"
    table = bench_table(bench(make_plan(cake(text))))
    ours = "one for each 2 in across the tier above, three at least (from memory, no source)"
    assert ours in table
    for range_and_source in (
        "5 to 7 (Orlando Sentinel, 6 June 1985: up to 8 in, from 10 in)",
        "6 to 8 (pattycakes.com)",
        "3 to 8 (ehow 6156392: by size)",
        "4 to 5 (cakecraftworld.co.uk)",
        "an upper bound, not advice",
        "not structural advice",
    ):
        assert range_and_source in table
    row = next(line for line in table.splitlines() if "4 dowels" in line)
    assert row.split()[:2] == ["tier", "1"]
    none = bench_table(bench(make_plan(cake(text.split("[[tier]]\nsize = '8 in'")[0]))))
    assert ours not in none


def test_as_long_as_the_tier_is_deep() -> None:
    """Dowels are cut to the covered depth, all alike: common practice, no source."""
    assert in_stack().length == pytest.approx(4 * 25.4 + 6 + 4)


def test_an_even_ring() -> None:
    """Four dowels under 8 in stand a finger in from the edge of its board, at right angles."""
    found = in_stack()
    assert found.inset == INSET
    assert found.count == 4
    assert [math.hypot(*place) for place in found.places] == pytest.approx([81.6] * 4, abs=0.02)
    sides = {round(math.dist(a, b), 1) for a, b in combinations(found.places, 2)}
    assert sides == {round(81.6 * math.sqrt(2), 1), 163.2}


@pytest.mark.parametrize("shape", ["shape = 'heart'", "shape = 'petal'\nlobes = 5"])
def test_a_ring_is_alike_left_and_right(shape: str) -> None:
    """Where the tier is: its guide is then half on the fold. It starts at the back of the ring."""
    places = in_stack(upper=shape).places
    assert places[0][0] == pytest.approx(0, abs=1e-6)
    for x, y in places:
        assert min(math.dist((-x, y), other) for other in places) < 1e-6


def test_one_in_the_middle_of_larger_rings() -> None:
    """From five on one stands in the middle, unless a dowel through all tiers stands there."""
    spec = "[tier.dowels]\ncount = 5\ninset = '25 mm'"
    assert math.hypot(*in_stack(spec).places[0]) < 0.1
    through = in_stack(spec, top="through_dowel = true")
    assert through.through == (0.0, 0.0)
    assert through.count == 5
    assert all(math.hypot(*place) > LEAST_SPACING for place in through.places)


def test_too_many() -> None:
    """More dowels than have room are told at their key, with how many have."""
    with pytest.raises(CakeError) as error:
        pieces_of(
            cake(
                "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n[tier.dowels]\ncount = 20\n"
                "[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"
            )
        )
    (problem,) = error.value.problems
    assert problem.key == ("tier", 0, "dowels", "count")
    # 2 x 56.2 mm x sin(180 / 14) = 25.01 mm: fourteen in the ring, and one in the middle
    assert "up to 15 have room" in problem.allowed


@pytest.mark.parametrize("move", [(0.0, 0.0), (0.0, 45.0), (-20.0, 10.0)])
def test_they_go_with_the_tier(move: Point) -> None:
    """Dowels stand round the middle of the tier above, wherever that is."""
    lines = f"[tier.position]\nright = '{move[0]} mm'\nback = '{move[1]} mm'"
    places = in_stack(upper=lines).places
    for axis in (0, 1):
        assert sum(place[axis] for place in places) / 4 == pytest.approx(move[axis], abs=0.02)


def bearing(board: Outline, lower: Outline, place: Pose, *hollow: Box) -> Bearing:
    """Return what dowels have to bear, with upright hollows to keep clear of."""
    clear = tuple(rectangle(box) for box in hollow)
    return Bearing(place.of(board), lower.path(), lower.path(), clear)


@settings(max_examples=60, deadline=None)
@given(EVERY, EVERY, OFFSETS, OFFSETS, st.floats(0, 360), st.booleans())
def test_in_their_place(
    board: Outline, lower: Outline, right: float, back: float, turn: float, tunnel: bool
) -> None:
    """Whatever the shapes and the offset, dowels are inside by the inset, and 25 mm apart.

    They leave 20 mm of wall beside a tunnel.
    """
    place = Pose(right, back, turn)
    hollow = Box(-25, -700, 25, 700)
    borne = bearing(board, lower, place, *([hollow] if tunnel else []))
    found = support(TWO.tiers[0], TWO.tiers[1], borne)
    assert found.count <= found.wanted == 4
    for path in (borne.board, borne.rim):
        edge = region(path, 1e-3)
        for x, y in found.places:
            assert edge.covers(shapely.Point(x, y))
            assert shapely.distance(shapely.Point(x, y), edge.boundary) > found.inset - 0.05
    for a, b in combinations(found.places, 2):
        assert math.dist(a, b) >= LEAST_SPACING - 1e-6
    if tunnel:
        assert all(abs(x) > 25 + WALL + found.thickness / 2 - 0.05 for x, _ in found.places)


@pytest.mark.parametrize("turn", [0, 60])
@pytest.mark.parametrize("through", [False, True])
def test_no_dowel_stands_in_the_hole_of_a_tier(turn: int, through: bool) -> None:
    """Under a tier that stands on a dummy with a hole, all stand beside it, however it is turned.

    A dowel is whole when its middle is half its thickness from the wall.
    """
    hole = f"dummy = true\n[tier.opening]\nradius = '35 mm'\n[tier.position]\nturn = {turn}\n"
    top = f"through_dowel = {str(through).lower()}"
    text = (
        f"{top}\n[[tier]]\nsize = '12 in'\ndepth = '5 in'\n{hole}"
        "[[tier]]\nsize = '8 in'\ndepth = '3 in'\n[tier.position]\nright = '5 mm'"
    )
    dowels = build_stack(cake(text)).seats[1].support
    assert dowels is not None
    assert dowels.count == dowels.wanted
    # a place of a seat is seen as the whole cake is, and the hole turns with its tier
    across = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    for x, y in (*dowels.places, *([dowels.through] if dowels.through else [])):
        assert abs(x * across[0] + y * across[1]) >= 35 + dowels.thickness / 2 - 0.05


@settings(max_examples=30, deadline=None)
@given(EVERY)
def test_all_that_are_wanted(board: Outline) -> None:
    """Under a whole board of 150 mm and more there is room for as many as the rule has."""
    large = board.scaled(max(1.0, 150 / board.across))
    found = support(TWO.tiers[0], TWO.tiers[1], bearing(large, offset(large, 40), Pose()))
    assert found.count == found.wanted


def test_marks() -> None:
    """The placement guide has a numbered cross to prick for each dowel, at its place."""
    text = "[[tier]]\nsize = '12 in'\ndepth = '4 in'\n[[tier]]\nsize = '8 in'\ndepth = '3 in'\n"
    pieces = pieces_of(cake(text))
    score = next(piece for piece in pieces if piece.id == "tier-1/placement-guide")
    middle = score.size.centre
    crosses = [
        s.path.bounds
        for s in score.drawing.strokes
        if s.role.word == "score" and s.path.bounds.width < 20
    ]
    found = {(round(box.centre[0], 2), round(box.centre[1], 2)) for box in crosses}
    right, back = score.values["dowels_right_mm"], score.values["dowels_back_mm"]
    assert isinstance(right, tuple)
    assert isinstance(back, tuple)
    assert found == {
        (round(middle[0] + x, 2), round(middle[1] + y, 2)) for x, y in zip(right, back, strict=True)
    }
    texts = {label.text for label in score.drawing.labels}
    assert {"1", "2", "3", "4"} <= texts


HOLED = (
    "[[tier]]\nname = 'low'\nsize = '10 in'\ndepth = '7 in'\ndummy = true\n{}[tier.opening]\n"
    "radius = '{} mm'\n[[tier]]\nname = 'high'\nsize = '7 in'\ndepth = '4 in'\n{}"
)


@pytest.mark.parametrize(("radius", "ways"), [(57, ["board"]), (50, ["dowels", "board"])])
def test_what_makes_room_beside_a_hole_does(radius: int, ways: list[str]) -> None:
    """Each choice that is offered where no ring has room holds enough dowels when it is taken."""
    made = cake(HOLED.format("", radius, ""))
    found = build_stack(made).seats[1].support
    assert found is not None
    assert found.count < 3
    taken = []
    for choice in found.choices:
        inset = re.search(r"inset of the dowels (\S+ mm) .* number (\d+)", choice)
        boards = re.findall(r"board of “high” (\S+ mm) \((.+? in)\)", choice)
        taken += ["dowels"] * bool(inset) + ["board"] * bool(boards)
        lower = f"dowels = {{ inset = '{inset[1]}', count = {inset[2]} }}\n" if inset else ""
        for board in boards[0] if boards else [""]:
            upper = f"board = '{board}'\n" if board else ""
            held = build_stack(cake(HOLED.format(lower, radius, upper))).seats[1].support
            assert held is not None
            assert held.count >= 3
    assert taken == ways
    plan = make_plan(made)
    choice = plan.terms.text(found.choices[-1])
    assert any(choice in warning.text for warning in plan.warnings())


@pytest.mark.parametrize("right", [0, 85, 110])
def test_a_larger_board_is_tried_where_its_tier_stands(right: int) -> None:
    """The same board has room beside the middle: it was tried as if it moved out as it grew."""
    made = cake(
        "[[tier]]\nsize = '300 mm'\ndepth = '100 mm'\n[[tier]]\nname = 'high'\nsize = '140 mm'\n"
        "depth = '100 mm'\nboard = '40 mm'\n"
        f"position = {{ right = '{right} mm', overhang = '60 mm' }}\n"
    )
    found = build_stack(made).seats[1].support
    assert found is not None
    assert found.choices[-1].startswith("make the board of “high” 70 mm")


def test_the_placement_guide_says_what_makes_room_and_no_step_sets_what_is_not_there() -> None:
    """Each choice with its consequence is on the guide; no dowel, no step that dowels."""
    plan = make_plan(cake(HOLED.format("", 57, "")))
    support = plan.stack.seats[1].support
    assert support is not None
    assert support.count == 0
    (guide,) = [piece for piece in plan.pieces if piece.id == "low/placement-guide"]
    assert "No dowel has room" in guide.use
    assert all(plan.terms.text(choice) in guide.use for choice in support.choices)
    assert "shows" in guide.use
    assert "Prick the numbered crosses" not in guide.use
    assert not [step for step in steps(plan) if step.stage == "dowel"]
    held = make_plan(cake(HOLED.format("", 20, "")))
    (guide,) = [piece for piece in held.pieces if piece.id == "low/placement-guide"]
    assert "room below" not in guide.use


def test_the_drum_is_marked_for_the_dowel_through_all() -> None:
    """Its guide shows where the dowel enters it, and no other dowels."""
    tiers = "".join(f"[[tier]]\nsize='{size} in'\ndepth='4 in'\n" for size in (8, 6))
    drum = build_stack(cake(f"through_dowel = true\n{tiers}")).seats[0].support
    assert drum is not None
    assert drum.through == (0.0, 0.0)
    assert drum.count == 0
