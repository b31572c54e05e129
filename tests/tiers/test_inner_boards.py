"""Tiers built of several cakes: boards and dowels between, in weights, lists, steps and papers."""

from __future__ import annotations

import math

import pytest

from templates_gen.bench.bench_list import bench
from templates_gen.errors import CakeError
from templates_gen.plan import make_plan
from tests.cakes import cake, one_tier, pieces_of

DEEP = "[tier.inside]\ninner_boards = {}\n"
TWO = "[[tier]]\nname = 'low'\nsize = '10 in'\ndepth = '203 mm'\n" + DEEP.format(1)
ON_TOP = "[[tier]]\nname = 'high'\nsize = '6 in'\ndepth = '4 in'\n"


def test_two_cakes_a_board_and_dowels() -> None:
    """203 mm are two cakes of 100 mm with a card of 3 mm between, on dowels of 100 mm."""
    (low,) = make_plan(cake(TWO)).stack.inner_boards
    (board,) = low
    assert board.top == pytest.approx(103)
    assert board.support.length == pytest.approx(100)
    assert board.support.count == 5  # one for each 2 in, as under a tier
    assert board.outline.across == pytest.approx(254)
    assert all(math.hypot(*place) <= 127 - 20 + 1e-6 for place in board.support.places)


def test_dowels_above_stand_on_the_inner_board() -> None:
    """They are as long as the upper cake with coating and fondant."""
    seat = make_plan(cake(TWO + ON_TOP)).stack.seats[1]
    assert seat.support is not None
    assert seat.support.length == pytest.approx(100 + 5 + 4)


def test_lists_of_a_tier_built_of_two() -> None:
    """Board and dowels are cut and bought; a filling less where it lies; steps in order."""
    whole, two = (bench(make_plan(cake(text))) for text in (TWO.replace("= 1", "= 0"), TWO))
    cut = {each["what"]: each for each in two["pieces"]}
    assert cut["dowel inside"]["number"] == 5
    assert cut["dowel inside"]["sizes_mm"][0] == pytest.approx(100)
    assert cut["board inside, 3 mm (⅛ in) thick"]["sizes_mm"] == pytest.approx([254])
    assert {"dowel inside", "board inside"} <= {
        each["what"].split(",")[0] for each in two["shopping"]
    }
    (baked,) = two["baking"]
    assert (baked["layers"], baked["inner_boards"], baked["fillings"]) == (6, 1, 4)
    assert baked["filling_g"] < whole["baking"][0]["filling_g"]
    (dowels,) = two["dowels"]
    # half of the tier and its board stand on them
    assert dowels["bears_g"] == pytest.approx(two["carrying"][0]["mass_g"] / 2)
    names = [each["step"] for each in two["times"]]
    assert [name for name in names if name in ("fill", "build", "crumb coat")] == [
        "fill", "build", "crumb coat",
    ]  # fmt: skip
    build = next(each for each in two["times"] if each["step"] == "build")
    assert build["templates"] == ["low/inner-board"]
    assert "5 dowels of 100 mm" in build["what"].replace("\u00a0", " ")


def test_the_board_weighs() -> None:
    """A 10 in card of 3 mm at 0.7 g/cm3 in place of cake and filling of a known density."""
    text = "[estimates]\ncake = 0.5\n" + TWO + "filling_thickness = '0.5 mm'\nlayers = 2\n"
    one, two = (
        bench(make_plan(cake(each)))["carrying"][0]["mass_g"]
        for each in (text.replace("= 1\n", "= 0\n").replace("layers = 2", "layers = 1"), text)
    )
    disc = math.pi / 4 * 25.4**2 * 0.3
    assert two - one == pytest.approx(disc * (0.7 - 0.5))


def test_portions_are_cut_from_each_cake() -> None:
    """A 10 in tier built of two gives twice the 38 portions of one 4 in deep."""
    (found,) = bench(make_plan(cake(TWO)))["servings"]
    assert found["portions"]["wedding"] == 2 * 38


def test_the_warning_offers_the_key_and_then_is_silent() -> None:
    """A tier over 6 in: the advice says what to write, and that does."""
    for size, depth, boards in (("10 in", "8 in", 1), ("14 in", "13 in", 2)):
        plain = "cover = 'panelled'\n"
        (said,) = bench(make_plan(one_tier(plain, size, depth)))["advice"]
        assert f"inner_boards = {boards}" in said
        done = make_plan(one_tier(plain + DEEP.format(boards), size, depth))
        assert not bench(done)["advice"]


def test_each_inner_board_has_its_guide() -> None:
    """Two boards have a guide each, with the dowels below; a dummy has none."""
    made = [
        each
        for each in pieces_of(one_tier(DEEP.format(2), "10 in", "12 in"))
        if each.kind == "inner-board"
    ]
    assert [piece.values["dowel_count"] for piece in made] == [5, 5]
    assert len({piece.id for piece in made}) == 2
    dummy = pieces_of(one_tier("dummy = true\n" + DEEP.format(1), "10 in", "8 in"))
    assert not [piece for piece in dummy if piece.kind == "inner-board"]


@pytest.mark.parametrize(
    ("lines", "says"),
    [
        ("shape = 'ball'\n" + DEEP.format(1), "a ball"),
        (DEEP.format(4), "“4 in” deep"),
        ("top_size = '3 in'\n[tier.carving]\n" + DEEP.format(1), "carved"),
        ("shallowest_depth = '50 mm'\n" + DEEP.format(1), "sloped top"),
        (DEEP.format(1) + "layers = 1\n", "1 layer"),
    ],
    ids=["ball", "shallow", "carved", "slope", "layers"],
)
def test_where_no_inner_board_can_be(lines: str, says: str) -> None:
    """It is refused at its key."""
    with pytest.raises(CakeError) as error:
        one_tier(lines, "4 in", "4 in")
    (problem,) = error.value.problems
    assert problem.key == ("tier", 0, "inside", "inner_boards")
    assert says in problem.found
