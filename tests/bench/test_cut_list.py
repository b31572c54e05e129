"""The list of what is cut: every paper that it names is in the pack, every length can be cut."""

from __future__ import annotations

import pytest

from templates_gen.bench.cut_list import CIRCLE_GUIDE, NO_TEMPLATE, Cut, cut_list
from templates_gen.bench.rolled import rolled
from templates_gen.pieces.circle_guide import circles
from templates_gen.plan import Plan, make_plan
from tests.cakes import cake, one_tier

TIERS = (
    "[[tier]]\nsize = '8 in'\ndepth = '4 in'\nshape = '{shape}'\nrolling_out_circle = {circle}\n"
    "[[tier]]\nsize = '5 in'\ndepth = '4 in'\nshape = '{upper}'\n"
)


def cuts_of(plan: Plan) -> tuple[Cut, ...]:
    """Return what is cut for a cake."""
    return cut_list(plan, rolled(plan))


@pytest.mark.parametrize("sheet", ["true", "false"])
@pytest.mark.parametrize("circle", ["true", "false"])
@pytest.mark.parametrize(
    ("drum", "shape", "upper"),
    [
        ("square", "square", "square"),
        ("square", "round", "square"),
        ("round", "heart", "round"),
        ("round", "round", "square"),
    ],
)
def test_every_paper_is_in_the_pack(
    sheet: str, circle: str, drum: str, shape: str, upper: str
) -> None:
    """A cut names a piece that is printed, or the circle guide for a circle that is on it."""
    tiers = TIERS.format(shape=shape, circle=circle, upper=upper)
    made = cake(f"[drum]\nshape = '{drum}'\nguide = {sheet}\n{tiers}")
    plan = make_plan(made)
    titles = {piece.title for piece in plan.pieces if piece.printed}
    radii = [circle.radius for circle in circles(plan.stack)]
    for cut in cuts_of(plan):
        if cut.paper == CIRCLE_GUIDE:
            assert cut.round
            assert any(abs(2 * radius - cut.sizes[0]) < 0.2 for radius in radii)
        elif cut.paper != NO_TEMPLATE:
            assert cut.paper in titles


@pytest.mark.parametrize(("shape", "name"), [("round", "circle"), ("square", "sheet")])
def test_what_is_rolled_out_has_the_name_of_its_paper(shape: str, name: str) -> None:
    """A sheet for a square tier is no circle."""
    made = make_plan(one_tier(f"shape = '{shape}'"))
    said = [cut.what for cut in cuts_of(made) if cut.what.startswith("rolling-out")]
    assert [what.partition(":")[0] for what in said] == [f"rolling-out {name}"]
    assert f"rolling-out {name}" in {piece.title.partition(": ")[2] for piece in made.pieces}


def test_a_dowel_through_shallow_tiers_has_a_length() -> None:
    """It goes half-way through a top tier of 10 mm, not 20 mm below its top."""
    tier = "[[tier]]\nsize = '{}'\ndepth = '10 mm'\ncoating = '0 mm'\ncover = 'none'\n"
    made = cake("through_dowel = true\n" + tier.format("8 in") + tier.format("6 in"))
    cuts = cuts_of(make_plan(made))
    (dowel,) = [cut for cut in cuts if cut.what == "dowel through all tiers"]
    # 3 mm of board under each tier, 8 mm into the drum
    assert dowel.sizes[0] == pytest.approx(3 + 10 + 3 + 5 + 8, abs=0.01)


DUMMY = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\ndummy = true\n"
CAKE = "[[tier]]\nsize = '6 in'\ndepth = '4 in'\n"


@pytest.mark.parametrize(
    ("tiers", "under"),
    [
        (DUMMY + CAKE, ["tier 2"]),
        (DUMMY + DUMMY.replace("8", "6"), []),
        (f"{DUMMY}board_thickness = '3 mm'\n", ["tier 1"]),
        (f"{DUMMY}board = '7 in'\n", ["tier 1"]),
        (f"{CAKE}{DUMMY.replace('8', '4')}", ["tier 1", "tier 2"]),
        (f"{CAKE}{DUMMY.replace('8', '4')}raised = '3 in'\n", ["tier 1", "tier 2"]),
    ],
)
def test_a_dummy_stands_on_a_board_only_over_cake(tiers: str, under: list[str]) -> None:
    """It is stuck onto the drum or a dummy: common practice, no source. Elsewhere dowels press."""
    plan = make_plan(cake(tiers))
    boards = [cut.tier for cut in cuts_of(plan) if cut.what.startswith("board")]
    assert boards == under
    on_circles = {each.owner for each in circles(plan.stack) if each.what == "board"}
    assert on_circles == set(under)
    for tier, foot in zip(plan.stack.tiers, plan.stack.feet, strict=True):
        assert (foot == 0) == (tier.index == 0 and tier.name not in under)


@pytest.mark.parametrize(
    ("sides", "says"),
    [
        (6, "hexagon, 200 mm (7⅞ in) across flats, 230.9 mm (9 1/16 in) corner to corner"),
        (8, "octagon, 200 mm (7⅞ in) across flats, 216.5 mm (8½ in) corner to corner"),
        (5, "pentagon, 235.1 mm (9¼ in) at its widest, 223.6 mm (8 13/16 in) side to corner"),
        (7, "7 sides, 216.4 mm (8½ in) at its widest, 211 mm (8 5/16 in) side to corner"),
    ],
)
def test_a_board_with_many_sides_is_named_with_both_its_sizes(sides: int, says: str) -> None:
    """It is bought by either: corner to corner is that across flats / cos(180° / sides).

    No two sides or corners of an odd number are opposite: its sizes are those of the box round it,
    as R (1 + cos(180° / sides)) from a side to its corner. Its own sheet says the same.
    """
    plan = make_plan(
        one_tier(f"shape = 'polygon'\nsides = {sides}\nboard_template = true\n", "200 mm")
    )
    assert [cut.size for cut in cuts_of(plan) if cut.what.startswith("board")] == [says]
    (sheet,) = (piece for piece in plan.pieces if piece.id == "tier-1/board")
    written = " ".join(label.text for label in sheet.drawing.labels).replace("\u00a0", " ")
    assert says.partition(", ")[2] in written


@pytest.mark.parametrize(
    "shape", ["shape = 'polygon'\nsides = 6\ncorner = '20 mm'", "shape = 'heart'"]
)
def test_a_board_that_is_no_regular_polygon_is_listed_as_wide_and_deep(shape: str) -> None:
    """With rounded corners neither size would be what it says."""
    plan = make_plan(one_tier(shape, "200 mm"))
    (board,) = [cut for cut in cuts_of(plan) if cut.what.startswith("board")]
    assert " × " in board.size
