"""Letter cakes as they are shown: true in plan, upright on their boards, alone or not."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import pytest
import shapely
import shapely.affinity
from shapely.geometry.base import BaseGeometry

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.bench.steps import steps
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.box import Point
from templates_gen.guides.decorated import build_stack
from templates_gen.plan import make_plan
from templates_gen.views.elevation import FORM, elevation, from_above
from templates_gen.views.letter_boards import from_front, letter_boards
from templates_gen.views.picture import picture
from templates_gen.views.scene import scene
from templates_gen.views.scene.parts import Lying
from tests.cakes import cake

LETTERS = (
    "[[letter_cake]]\ntext = '60'\ncap_height = '240 mm'\ndepth = '60 mm'\ncoating = '4 mm'\n"
    "fondant = '3 mm'\ncolour = 'navy'\n"
)
TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
ALONE, BESIDE = cake(LETTERS), cake(f"{TIER}{LETTERS}[[letter_cake]]\ntext = 'I'\n")


def area_of(rings: Iterable[Sequence[Point]], by: float = 0.0) -> BaseGeometry:
    """Return an area of rings, the largest outside, covered so many mm thick; its holes open."""
    outer, *holes = sorted((shapely.Polygon(ring) for ring in rings), key=lambda r: -r.area)
    open_ = shapely.union_all([hole.buffer(-by) for hole in holes])
    return outer.buffer(by).difference(open_)


def on_table(each: Lying) -> BaseGeometry:
    """Return where something lies, in plan."""
    return shapely.affinity.translate(area_of(each.shapes[0]), *each.at[:2])


def test_letters_stand_on_their_board_as_large_as_they_are_made() -> None:
    """Areas by shapely from the bare outlines, covered, holes open; 67 mm up from a 12 mm board."""
    stack = build_stack(ALONE)
    board, *letters = scene(stack).lying
    assert board.tall == 12.0
    assert [each.tall for each in letters] == [67.0, 67.0]
    assert {each.at[2] - board.at[2] for each in letters} == {12.0}
    assert [len(each.shapes[0]) for each in letters] == [2, 2]
    for each, part in zip(letters, stack.letter_cakes[0].made.parts, strict=True):
        bare = [points for points, _ in sampled(part.outline, 0.02)]
        made = area_of(bare, 7.0)
        left, low, *_ = made.bounds
        mine = on_table(each)
        moved = shapely.affinity.translate(made, mine.bounds[0] - left, mine.bounds[1] - low)
        assert mine.symmetric_difference(moved).area < 0.003 * made.area
    one, other = map(on_table, letters)
    assert other.bounds[0] - one.bounds[2] == pytest.approx(20.0, abs=0.5)
    assert on_table(board).contains(one.union(other))
    edges = on_table(board).exterior  # type: ignore[attr-defined]
    assert one.union(other).distance(edges) == pytest.approx(40.0, abs=0.1)


def test_they_lie_before_the_drum_and_hide_nothing() -> None:
    """Each on a board of its own, apart from drum and each other; the reach holds them all."""
    stack = build_stack(BESIDE)
    found = scene(stack)
    boards = [on_table(each) for each in found.lying if each.tall == 12.0]
    assert len(boards) == 2
    drum = shapely.Point(0, 0).buffer(stack.seats[0].outline.across / 2)
    assert all(each.distance(drum) > 39 for each in boards)
    assert boards[0].distance(boards[1]) == pytest.approx(40.0)
    middle = shapely.Point(0, found.middle)
    for area in (drum, *boards):
        assert middle.hausdorff_distance(area.boundary) <= found.reach + 1e-6
    # nobody moves what has no letters
    plain = scene(build_stack(cake(TIER)))
    assert (plain.lying, plain.middle) == ((), 0.0)


def test_from_the_front_each_wall_hides_what_is_behind_it() -> None:
    """A board and a box for each part as wide as it is covered; of an i the stem is nearer."""
    for text, count in (("60", 2), ("i", 2)):
        lines = LETTERS.replace("'60'", f"'{text}'") + "tin_length = '400 mm'\n"
        (found,) = letter_boards(build_stack(cake(lines)))
        drawing = from_front(found)
        assert len(drawing.fills) == 1 + count
        whole = [fill.path.bounds for fill in drawing.fills]
        assert whole[0].width == pytest.approx(found.board.width)
        assert {box.height for box in whole[1:]} == {67.0}
        drawn = [stroke.path.bounds for stroke in drawing.strokes if stroke.role is FORM]
        widths = sorted(box.width for box in drawn)
        parts = sorted(path.bounds.width for path in found.outlines)
        # a dot as wide as its stem is hidden, or shows at its sides
        assert widths[-2] == pytest.approx(parts[-1])


def test_a_cake_of_letters_alone_is_drawn_weighed_and_carried() -> None:
    """No drum, no tier, no stack: its board, its portions, batter, box and steps."""
    plan = make_plan(ALONE)
    assert plan.stack.drum is None
    assert not elevation(plan.stack).strokes
    assert len(from_above(plan.stack).strokes) == 3
    words = [label.text for label in picture(plan, 190.0, 250.0).drawing.labels]
    assert any("letter cake 1: 60" in each for each in words)
    assert not any("drum" in each for each in words)
    found = bench(plan)
    (served,) = found["servings"]
    assert served["portions"] == found["letter_cakes"][0]["portions"]
    (load,) = found["carrying"]
    assert load["what"] == "letter cake 1"
    made = plan.stack.letter_cakes[0].made
    assert load["box_mm"][2] == pytest.approx(12 + 67 + 25)
    (baked,) = found["baking"]
    assert baked["tins"] == found["letter_cakes"][0]["sheet_cakes"]
    filled = made.area * 6 / 1000 * 1.0 * 1.15
    assert baked["filling_g"] == pytest.approx(filled)
    bought = {each["what"].split(",")[0]: each for each in found["shopping"]}
    assert {"board", "batter", "filling", "fondant"} <= set(bought)
    assert {each["stage"] for each in found["times"]} >= {"bake", "fill", "coat", "cover"}
    assert not any("drum" in each["what"] for each in found["times"])


def test_each_sheet_cake_is_levelled_once() -> None:
    """The first in the half hour of a fill, each other in 15 min more: our estimate, no source."""
    plan = make_plan(cake(f"{LETTERS}[estimates]\ngrows = 0\n"))
    (sheets,) = (each["sheet_cakes"] for each in bench(plan)["letter_cakes"])
    (fill,) = (each.minutes for each in steps(plan) if each.stage == "fill")
    outlines = 2 * 2  # of 6 and 0, in two layers, 5 min each
    assert fill == 30 + 15 * (sheets - 1) + 5 * outlines


def test_beside_tiers_they_are_counted_too() -> None:
    """Portions of tiers and letters together; the top tier is the one that may be kept back."""
    plan = make_plan(BESIDE)
    found = bench(plan)
    assert [each["beside"] for each in found["servings"]] == [False, True, True]
    rows = next(s for s in sections(found, plan.terms) if s.title == "Portions").rows
    tier, *letters, whole, kept = (int(row[1]) for row in rows)
    assert whole == tier + sum(letters)
    assert kept == sum(letters)


@pytest.mark.parametrize("key", ["drum.ribbon = '15 mm'", "through_dowel = true"])
def test_keys_of_tiers_have_no_effect_on_letters_alone(key: str) -> None:
    """What only tiers use is said to be idle."""
    plan = make_plan(cake(f"{key}\n{LETTERS}"))
    (said,) = [each for each in plan.warnings() if each.key[0] != "letter_cake"]
    assert "without tiers" in said.text
    assert said.key[0] == key.split(".")[0].split(" ")[0]
