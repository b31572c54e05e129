"""What marks a side in place of the collar: one repeat of a design, sections with their marks."""

from __future__ import annotations

import pytest
import shapely
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from templates_gen.drawing.drawing import Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.plan import Plan, make_plan
from templates_gen.printing.marking import WORTH, marked_by_parts
from templates_gen.printing.places import MOST, spans_of
from templates_gen.printing.templates import templates
from templates_gen.units import in_both
from tests.cakes import one_tier, sample_plan
from tests.printing.test_tape import is_tape

NEAR = 0.05
"""Lines that are sampled where they are cut lie so near to the curve, mm."""


MARKED = (Role.PIPE, Role.GUIDE)


def lines_of(piece: Piece, *roles: Role) -> BaseGeometry:
    """Return the lines of some roles, else of those that are marked on the cake."""
    paths = [each.path for each in piece.drawing.strokes if each.role in (roles or MARKED)]
    return shapely.union_all(
        [shapely.linestrings(points) for path in paths for points, _ in sampled(path)]
    )


def parts_of(plan: Plan, kind: str = "collar") -> tuple[Piece, tuple[Piece, ...]]:
    """Return the collar of a plan and what is printed in its place."""
    collar = next(piece for piece in plan.pieces if piece.kind == kind)
    return collar, marked_by_parts(collar, plan) or ()


def covers(found: BaseGeometry, wanted: BaseGeometry) -> bool:
    """Tell whether one has all lines of another."""
    return bool(shapely.buffer(found, NEAR).covers(wanted))


DESIGNS = [
    "kind = 'diamonds'\nwidth = '34 mm'\nbottom = '70 mm'",
    "kind = 'swags'\nform = 'overlapped'\nwidth = '60 mm'\nbottom = '50 mm'",
    "kind = 'swags'\nwidth = '80 mm'\nstart = 'between'\ndrop = '40 mm'",
    "kind = 'chevrons'\ncount = 12\nbottom = '40 mm'",
    "kind = 'scallops'\nwidth = '30 mm'\ntop = '60 mm'\ndrop = '10 mm'",
    "kind = 'stripes'\nwidth = '40 mm'",
]


@pytest.mark.parametrize("design", DESIGNS)
@pytest.mark.parametrize("more", ["", "shape = 'square'\n"])
def test_one_repeat_set_at_every_tick_draws_the_collar(design: str, more: str) -> None:
    """Moved from tick to tick, the template of a repeat marks every line of the collar, no other.

    Its left edge is at the tick; a template of several repeats begins at a tick too.
    """
    plan = make_plan(one_tier(f"{more}[[tier.design]]\n{design}"))
    collar, (strip, repeat) = parts_of(plan)
    guide = plan.stack.tiers[0].guides[0]
    assert guide.repeats is not None
    assert is_tape(strip)
    girth = plan.stack.tiers[0].covered.side.girth
    # both hang from the rim or both stand on the board
    hangs = repeat.size.height == pytest.approx(collar.size.height)
    assert hangs
    moved = shapely.union_all(
        [
            translate(lines_of(repeat), place + turn)
            for place in guide.repeats.places
            for turn in (-girth, 0.0)
        ]
    )
    room = shapely.box(1, -1, girth - 1, collar.size.height + 1)
    quarters = [step * girth / 4 for step in range(5)]
    design_lines = [
        stroke.path
        for stroke in collar.drawing.strokes
        if stroke.role in MARKED
        and not any(
            abs(stroke.path.bounds.x0 - u) < 1e-6 and stroke.path.bounds.width < 1e-6
            for u in quarters
        )
    ]
    drawn = shapely.union_all(
        [shapely.linestrings(points) for path in design_lines for points, _ in sampled(path)]
    )
    assert covers(moved, shapely.intersection(drawn, room))
    # where two lines of the collar lie on each other only one is drawn
    assert covers(lines_of(collar, *Role), shapely.intersection(moved, room))


def test_designs_that_repeat_at_the_same_places_share_a_template() -> None:
    """Quilting, its pearls and the scallops below it are marked in one go."""
    plan = sample_plan("paper-garden")
    _, parts = parts_of(plan)
    assert [part.id for part in parts] == ["quilted/collar", "quilted/collar-repeat-1"]


def test_level_lines_need_no_ticks() -> None:
    """Bands are a short template to slide round."""
    plan = make_plan(one_tier("[[tier.design]]\nkind = 'bands'\nheight = '20 mm'"))
    _, (gauge,) = parts_of(plan)
    assert gauge.size.width == pytest.approx(100.0)
    levels = [s.path.bounds for s in gauge.drawing.strokes if s.role in MARKED]
    assert all(box.width == pytest.approx(100.0) for box in levels)


def test_level_lines_of_a_strip_say_of_which_design() -> None:
    """By the name that it has on lists, with its number there."""
    lines = "[[tier.design]]\nkind = 'swags'\n[[tier.design]]\nkind = 'lace'\npaper = 'strip'"
    _, (gauge,) = parts_of(make_plan(one_tier(lines)), "design-strip")
    assert gauge.title == "tier 1: level lines for lace (design 2)"


@pytest.mark.parametrize("aside", [0, 60, -250])
def test_letters_are_a_section_with_a_mark(aside: int) -> None:
    """The section has the letters of the collar, as far from its mark as they are there."""
    lines = f"[[tier.lettering]]\ntext = 'Ada'\nsideways = '{aside} mm'\n"
    plan = make_plan(one_tier(lines))
    collar, (part,) = parts_of(plan)
    girth = plan.stack.tiers[0].covered.side.girth
    (mark,) = [s.path.bounds for s in part.drawing.strokes if s.role is Role.CENTRE]
    assert 0 < mark.x0 < part.size.width < MOST * girth
    name = next(
        each for each in ("front", "left", "right", "back join") if f"the {each};" in part.use
    )
    u = {"left": 0.25, "front": 0.5, "right": 0.75, "back join": 0.0}[name] * girth
    letters = lines_of(part)
    there = shapely.union_all(
        [translate(letters, u - mark.x0 + turn) for turn in (-girth, 0, girth)]
    )
    wanted = [s.path for s in collar.drawing.strokes if s.role in MARKED]
    quarters = [path for path in wanted if path.bounds.width < 1e-6]
    drawn = shapely.union_all(
        [
            shapely.linestrings(points)
            for path in wanted
            if path not in quarters
            for points, _ in sampled(path)
        ]
    )
    assert covers(there, drawn)
    assert part.size.height == pytest.approx(collar.size.height)


def test_pieces_in_two_places_are_two_sections() -> None:
    """What stands far apart needs no paper between; all round the side it needs the collar."""
    girth = 600.0
    two = spans_of([(280.0, 320.0), (-20.0, 20.0)], girth)
    assert two is not None
    assert [name for _, _, name in two] == ["front", "back join"]
    assert all(start <= 300.0 <= end or start <= girth <= end for start, end, _ in two)
    assert spans_of([(u, u + 10.0) for u in range(0, 600, 30)], girth) is None


def edges_to_check(part: Piece) -> list[Stroke]:
    """Return the edges of a hole that a piece shows and is not cut to."""
    return [stroke for stroke in part.drawing.strokes if stroke.role is Role.CHECK]


def test_an_opening_that_no_wrap_shows_is_a_section() -> None:
    """Of a draped tier the hole is marked by paper; a panelled one has it on the wrap."""
    hole = "dummy = true\n[tier.opening]\nradius = '30 mm'"
    _, parts = parts_of(make_plan(one_tier(hole)))
    assert [len(edges_to_check(part)) for part in parts] == [1, 1]
    panelled = make_plan(one_tier(f"cover = 'panelled'\n{hole}"))
    (collar,) = [each for each in templates(panelled) if each.kind == "collar"]
    assert not collar.printed


def test_beside_an_opening_a_repeat_is_whole() -> None:
    """The repeat is taken where the hole cuts none of its lines."""
    waves = "[[tier.design]]\nkind = 'waves'\nwidth = '40 mm'\nrows = 4"
    tier = "dummy = true\ncover = 'panelled'\n"
    hole = "[tier.opening]\nradius = '30 mm'\n"
    _, (_, repeat) = parts_of(make_plan(one_tier(tier + hole + waves)))
    _, (_, whole) = parts_of(make_plan(one_tier(tier + waves)))
    assert lines_of(repeat).length == pytest.approx(lines_of(whole).length)


@pytest.mark.parametrize(
    "lines",
    [
        "[[tier.scatter]]\ncount = 30",
        "top_size = '6 in'\nshape = 'square'\n[[tier.design]]\nkind = 'waves'",
        "shallowest_depth = '3 in'\n[[tier.design]]\nkind = 'waves'",
        "shape = 'rectangle'\nshort = '5 in'\n[[tier.design]]\nkind = 'waves'\nper = 'face'",
    ],
)
def test_what_differs_all_round_stays_a_collar(lines: str) -> None:
    """Small pieces everywhere, and designs on sides that are not alike all round."""
    collar, parts = parts_of(make_plan(one_tier(lines)))
    assert not parts
    assert collar.printed


def test_parts_take_less_paper() -> None:
    """Nothing is printed in parts that would take as much paper as the collar."""
    for name in ("paper-garden", "midsummer-tower", "harbour-wedding"):
        plan = sample_plan(name)
        for collar in plan.pieces:
            parts = marked_by_parts(collar, plan)
            if parts:
                assert sum(part.area.area for part in parts) <= WORTH * collar.area.area


def test_a_repeat_says_how_large_what_is_repeated_is() -> None:
    """The string of a swag and its sag, in both units, as the figures of the collar have them."""
    plan = make_plan(one_tier("[[tier.design]]\nkind = 'swags'\nwidth = '60 mm'"))
    collar, parts = parts_of(plan)
    (repeat,) = [each for each in parts if not is_tape(each)]
    long, sag = collar.values["string_length_mm"], collar.values["sag_mm"]
    assert isinstance(long, float)
    assert isinstance(sag, float)
    assert f"Sizes: string length {in_both(long)}, sag {in_both(sag)}." in repeat.use


def test_a_repeat_says_how_many_go_round() -> None:
    """Its template is set at each of the ticks, by their letter where a tape has others too."""
    scallops = "[[tier.design]]\nkind = 'scallops'\ncount = 14\n"
    for more, ticks in (
        ("", "14 ticks of"),
        ("[tier.drips]\nlongest = '40 mm'\n", "14 ticks A of"),
    ):
        _, parts = parts_of(make_plan(one_tier(more + scallops)))
        (repeat,) = [each for each in parts if not is_tape(each)]
        assert f"Set its left edge at each of the {ticks} the tape" in repeat.use


def test_a_repeat_of_strips_leaves_their_sizes_to_the_list_of_what_is_cut() -> None:
    """Pleats are cut as long strips, which nobody measures on their repeat."""
    plan = make_plan(one_tier("[[tier.design]]\nkind = 'pleats'\nbottom = '40 mm'"))
    _, parts = parts_of(plan)
    assert parts
    assert not any("Sizes" in each.use for each in parts)
