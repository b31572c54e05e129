"""Raised tiers: pillars over the dowels or a hidden spacer, in heights, lists, papers, pictures."""

from __future__ import annotations

import math

import pytest

from templates_gen.bench.bench_list import bench
from templates_gen.bench.steps import steps
from templates_gen.cakefile.work import Work
from templates_gen.drawing.piece import Value
from templates_gen.errors import CakeError
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from tests.cakes import cake, pieces_of

LOWER = "[[tier]]\nname = 'low'\nsize = '10 in'\ndepth = '100 mm'\n"
PILLARS = f"{LOWER}[[tier]]\nname = 'high'\nsize = '6 in'\ndepth = '90 mm'\nraised = '3 in'\n"
SPACER = f"{PILLARS}[tier.separator]\nkind = 'spacer'\n"
COVERED = 100 + 5 + 4
"""Depth of the lower tier with the usual coating and draped fondant, mm."""


def test_pillars_lift_the_tier_and_lengthen_the_dowels() -> None:
    """The sums: drum, card, tier, pillars, a 12 mm board, tier; dowels reach up the pillars."""
    stack = build_stack(cake(PILLARS))
    seat = stack.seats[1]
    assert stack.feet == pytest.approx([3, 3 + COVERED + 76.2 + 12])
    assert stack.height == pytest.approx(3 + COVERED + 76.2 + 12 + 90 + 9)
    assert seat.support is not None
    assert seat.support.length == pytest.approx(COVERED + 76.2)
    assert seat.support.count == 3


def test_a_spacer_stands_on_dowels_as_long_as_the_tier() -> None:
    """It carries the tier; the dowels end below it, inside its outline."""
    seat = build_stack(cake(SPACER)).seats[1]
    assert seat.support is not None
    assert seat.separator is not None
    assert seat.separator.spacer is not None
    # 2 in less than the board of 6 in
    assert seat.separator.spacer.across == pytest.approx(4 * 25.4)
    assert seat.support.length == pytest.approx(COVERED)
    assert all(math.hypot(*place) < 2 * 25.4 for place in seat.support.places)


def test_pillars_stand_apart_and_wholly_under_the_board() -> None:
    """5 mm between two, and to the edge of the board; none in the middle, where it would show."""
    text = PILLARS.replace("'6 in'", "'9 in'").replace("10 in", "14 in")
    seat = build_stack(cake(f"{text}[tier.separator]\npillar = '35 mm'\n")).seats[1]
    assert seat.support is not None
    places = seat.support.places
    assert len(places) == 5
    radius = 9 * 25.4 / 2
    assert all(math.hypot(*place) + 35 / 2 + 5 <= radius + 1e-6 for place in places)
    assert all(math.hypot(*place) > 50 for place in places)


def test_papers_of_a_raised_tier() -> None:
    """Its board has a guide with the pillars as the placement guide has the dowels, turned back."""
    text = f"{PILLARS}[tier.position]\nturn = 30\nright = '12 mm'\n"
    made = {piece.id: piece for piece in pieces_of(cake(text))}
    board, placed = made["high/board-guide"].values, made["low/placement-guide"].values
    assert board["pillar_height_mm"] == pytest.approx(76.2)
    turn = math.radians(30)
    names = ("pillars_right_mm", "pillars_back_mm")
    pillars = zip(*(_lengths(board[name]) for name in names), strict=True)
    names = ("dowels_right_mm", "dowels_back_mm")
    dowels = zip(*(_lengths(placed[name]) for name in names), strict=True)
    for (x, y), (right, back) in zip(pillars, dowels, strict=True):
        assert right == pytest.approx(12 + x * math.cos(turn) - y * math.sin(turn))
        assert back == pytest.approx(x * math.sin(turn) + y * math.cos(turn))
    assert "pillar" in made["low/placement-guide"].use
    wide = pieces_of(cake(PILLARS.replace("'6 in'", "'9 in'").replace("10 in", "14 in")))
    guide = next(piece for piece in wide if piece.id == "low/placement-guide")
    words = " ".join(label.text for label in guide.drawing.labels).replace("\u00a0", " ")
    assert "185.2 mm" in words
    assert "raised 3 in (76.2 mm)" in words
    assert "high/board-guide" not in {piece.id for piece in pieces_of(cake(SPACER))}


def _lengths(value: Value) -> tuple[float, ...]:
    assert isinstance(value, tuple)
    return tuple(map(float, value))


def test_lists_of_a_raised_tier() -> None:
    """What to cut, the weight on the tier below, the box, and the steps in the order of work."""
    low, high = (
        bench(make_plan(cake(text))) for text in (PILLARS.replace("'3 in'", "'10 mm'"), PILLARS)
    )
    cut = {each["what"]: each for each in high["pieces"]}
    assert cut["pillar, hollow"]["number"] == 3
    assert cut["pillar, hollow"]["sizes_mm"] == pytest.approx([76.2, 25])
    assert cut["dowel"]["sizes_mm"][0] == pytest.approx(COVERED + 76.2)
    boxes = [found["carrying"][-1]["box_mm"][2] for found in (low, high)]
    assert boxes[1] - boxes[0] == pytest.approx(66.2)
    more = high["dowels"][0]["bears_g"] - low["dowels"][0]["bears_g"]
    assert more == pytest.approx(3 * math.pi / 4 * 25**2 * 66.2 / 1000 * 0.7)
    assert any(each["what"].startswith("pillar") for each in high["shopping"])
    names = [each["step"] for each in high["times"]]
    assert names.index("separators") < names.index("fill")
    stack = next(each for each in high["times"] if each["step"] == "stack")
    assert "Slip the pillars over their dowels" in stack["what"]
    assert "level" in stack["caution"]


def test_nothing_travels_on_pillars() -> None:
    """Even with a dowel through all tiers they travel apart; on a spacer they go as one."""
    for text, together in ((PILLARS, False), (SPACER, True)):
        plan = make_plan(
            cake(f"through_dowel = true\n{text}").model_copy(update={"work": Work(travel=60)})
        )
        names = [step.name for step in steps(plan)]
        assert (names.index("stack") < names.index("travel")) is together


@pytest.mark.parametrize(
    ("text", "key", "says"),
    [
        (LOWER + "raised = '3 in'", ("tier", 0, "raised"), "bottom tier"),
        (PILLARS + "[tier.separator]\npillar = '8 mm'", ("tier", 1, "separator", "pillar"), "8 mm"),
        (PILLARS + "[tier.separator]\npillar = '90 mm'", ("tier", 1, "raised"), "room for"),
        (
            SPACER + "spacer = '8 in'",
            ("tier", 1, "separator", "spacer"),
            "a spacer 8 in (203.2 mm)",
        ),
        (
            PILLARS.replace("100 mm'\n", "100 mm'\ndowels.inset = '6 mm'\n", 1),
            ("tier", 0, "dowels", "inset"),
            "under pillars 1 in (25 mm)",
        ),
    ],
    ids=["bottom", "thin pillars", "no room", "wide spacer", "inset"],
)
def test_what_cannot_be_raised(text: str, key: tuple[str | int, ...], says: str) -> None:
    """It is refused at its key, with what is accepted."""
    with pytest.raises(CakeError) as error:
        make_plan(cake(text))
    found = [problem for problem in error.value.problems if problem.key == key]
    assert found
    assert says in found[0].found
