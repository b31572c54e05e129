"""How tiers stand on each other: in the middle, pushed back, moved, turned, reaching over."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.errors import CakeError
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.placement import free_travel
from templates_gen.geometry.outline import Outline
from templates_gen.guides.decorated import build_stack
from templates_gen.tiers.seat import Seat
from tests.cakes import cake, pieces_of
from tests.shapes import CONVEX, EVERY

LOWER = "[[tier]]\nsize = '200 mm'\ndepth = '100 mm'\ncoating = '0 mm'\nfondant = '5 mm'\n"
UPPER = LOWER.replace("200", "100")


def seat(position: str) -> Seat:
    """Return the seat of a tier 110 mm across, covered, on one of 210 mm."""
    return build_stack(cake(f"{LOWER}{UPPER}[tier.position]\n{position}")).seats[1]


def placed(position: str) -> list[float]:
    """Return where the upper tier stands, and what is left beside it."""
    found = seat(position)
    return [found.place.right, found.place.back, found.clearance]


def test_in_the_middle() -> None:
    """Without a word a tier stands in the middle, with half the difference all round."""
    assert placed("") == pytest.approx([0, 0, 50])


def test_pushed_back() -> None:
    """Two circles stand back to back: the middles are apart by the difference of the radii."""
    assert placed('place = "back"') == pytest.approx([0, 50, 0], abs=1e-9)


def test_pushed_back_beside_the_middle() -> None:
    """Moved aside first, a circle goes back until it touches: 30, 40 and 50 mm, by Pythagoras."""
    assert placed('place = "back"\nright = "30 mm"') == pytest.approx([30, 40, 0], abs=1e-9)


def test_moved() -> None:
    """Offsets add up, and what is left is the radius less the distance."""
    assert placed('right = "-9 mm"\nback = "12 mm"') == pytest.approx([-9, 12, 50 - 15])
    assert placed('place = "back"\nback = "-10 mm"') == pytest.approx([0, 40, 10])


def test_reaching_over() -> None:
    """An overhang is told with how much it is, and made where the cake file allows as much."""
    position = 'back = "-60 mm"'
    text = f"{LOWER}{UPPER}[tier.position]\n{position}\n"
    with pytest.raises(CakeError) as error:
        pieces_of(cake(text))
    (problem,) = error.value.problems
    assert problem.key == ("tier", 1, "position")
    assert "10 mm (13/32 in) over" in problem.found
    assert 'overhang = "10 mm"' in problem.advice
    pieces = pieces_of(cake(f'{text}overhang = "10 mm"'))
    score = next(piece for piece in pieces if piece.id == "tier-1/placement-guide")
    assert score.values["clearance_mm"] == pytest.approx(-10)
    assert any("reaches 10 mm" in warning.text for warning in score.warnings)
    with pytest.raises(CakeError):
        pieces_of(cake(f'{text}overhang = "9 mm"'))


def test_places_add_up() -> None:
    """A tier on a tier that stands aside stands aside with it, as much higher as that is deep."""
    third = UPPER.replace("100 mm'\nd", "60 mm'\nd") + '[tier.position]\nright = "-3 mm"\n'
    text = f'{LOWER}{UPPER}[tier.position]\nright = "20 mm"\nturn = 30\n{third}'
    stack = build_stack(cake(text))
    assert [place.right for place in stack.places] == [0, 20, 17]
    assert [place.turn for place in stack.places] == [0, 30, 0]
    # each stands on its own board of 3 mm
    assert stack.feet == (3, 111, 219)
    assert stack.height == 324


@settings(max_examples=40, deadline=None)
@given(EVERY, CONVEX, st.floats(0, math.tau))
def test_room_for_a_move(outside: Outline, shape: Outline, way: float) -> None:
    """However a shape is pushed, it goes till it touches and not farther."""
    outer, inner = outside.path(), shape.scaled(12 / shape.across).path()
    around = region(outer, 1e-3)
    if not around.covers(region(inner, 1e-3)):
        return
    towards = (math.cos(way), math.sin(way))
    far = free_travel(inner, outer, towards, 1000.0)
    moved = region(inner.moved(towards[0] * far, towards[1] * far), 1e-3)
    assert around.covers(moved)
    assert shapely.distance(moved.boundary, around.boundary) < 0.01


def test_the_sheet_shows_where_the_tier_stands() -> None:
    """The outline to prick lies on the placement guide where the tier stands, its middle marked."""
    pieces = pieces_of(cake(f"{LOWER}{UPPER}[tier.position]\nright = '20 mm'\nturn = 30"))
    score = next(piece for piece in pieces if piece.id == "tier-1/placement-guide")
    middle_x, middle_y = 105, 105
    pricked = next(s.path.bounds for s in score.drawing.strokes if s.role.word == "score")
    assert pricked.centre == pytest.approx((middle_x + 20, middle_y), abs=1e-3)
    texts = {label.text for label in score.drawing.labels}
    assert {"its middle", "its front"} <= texts
    assert score.values["right_mm"] == 20
    assert score.values["turn_deg"] == 30


@pytest.mark.parametrize("shape", ["oval", "rectangle"])
@pytest.mark.parametrize("short", ["5 in", "6 in", "7 in"])
@pytest.mark.parametrize("place", ["centre", "back"])
def test_flush_on_the_narrow_side(shape: str, short: str, place: str) -> None:
    """A round tier as wide as the tier below is narrow touches it, and reaches over by nothing."""
    lower = f"[[tier]]\nsize = '8 in'\ndepth = '4 in'\nshape = '{shape}'\nshort = '{short}'\n"
    upper = f"[[tier]]\nsize = '{short}'\ndepth = '4 in'\n[tier.position]\nplace = '{place}'\n"
    assert build_stack(cake(lower + upper)).seats[1].clearance == pytest.approx(0, abs=1e-3)


def test_boards_have_a_thickness() -> None:
    """Boards of card are 3 mm and drums 12 mm thick (common practice, no source), or as written."""
    usual = build_stack(cake(f"{LOWER}{UPPER}"))
    lower = LOWER.replace("[[tier]]", "[drum]\nthickness = '10 mm'\n[[tier]]\nboard_thickness = 0")
    own = build_stack(cake(f"{lower}{UPPER}board_thickness = '5 mm'\n"))
    assert (usual.drum_thickness, own.drum_thickness) == (12, 10)
    deep = usual.tiers[0].covered.depth
    assert usual.feet == (3, deep + 6)
    assert own.feet == (0, deep + 5)


@pytest.mark.parametrize(
    ("drum", "tier", "size"),
    [
        ("hexagon", "shape = 'polygon'\nsides = 6", 200),
        ("hexagon", "shape = 'polygon'\nsides = 6\nposition = { turn = 30 }", 400 / math.sqrt(3)),
        ("hexagon", "shape = 'round'", 200),
        ("round", "shape = 'polygon'\nsides = 6", 400 / math.sqrt(3)),
        ("square", "shape = 'square'", 200),
    ],
)
def test_a_drum_is_no_larger_than_two_inches_all_round_take(
    drum: str, tier: str, size: float
) -> None:
    """The drum is 4 in larger, 2 in all round: common practice, no source.

    A hexagon of 200 mm from side to side is 400 / √3 mm from corner to corner.
    """
    lines = f"drum = {{ shape = '{drum}' }}\n[[tier]]\nsize = '{200 / 25.4} in'\n{tier}\n"
    stack = build_stack(cake(f"{lines}depth = '100 mm'\ncoating = '0 mm'\ncover = 'none'\n"))
    (seat,) = stack.seats
    assert seat.outline.bounds.height == pytest.approx(size + 4 * 25.4)
    assert seat.clearance >= 2 * 25.4 - 1e-3
