"""Pieces that need no sheet: numbers on the cover, the circle guide, one's own mould."""

from __future__ import annotations

from dataclasses import replace

import pytest

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.kinds import KINDS, Templates
from templates_gen.cakefile.papers import PAPERS
from templates_gen.cakefile.printing import printed_whole
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.piece import Piece
from templates_gen.pieces import table
from templates_gen.plan import make_plan
from templates_gen.printing.templates import templates
from templates_gen.terms import inches_first
from templates_gen.units import in_both
from tests.cakes import cake as parsed
from tests.cakes import one_tier


def printed(cake: Cake, name: str) -> Piece:
    """Return what is printed of a piece, by its id."""
    return next(piece for piece in templates(make_plan(cake)) if piece.id == name)


def test_a_round_disc_is_drawn_with_the_circle_guide() -> None:
    """The guide has a hole of its radius; an oval has none and is folded."""
    disc = printed(one_tier("name = 'a'\ncover = 'panelled'"), "a/disc")
    assert (disc.printed, disc.instead) == (False, "circle guide")
    oval = one_tier("name = 'a'\ncover = 'panelled'\nshape = 'oval'\nshort = '6 in'")
    assert printed(oval, "a/disc").printed
    assert printed(oval, "a/disc").unfolding is not None


STACK = "[drum]\nshape = '{shape}'\n[[tier]]\nname = 'a'\nsize = '8 in'\ndepth = '4 in'\n{lines}"


def test_circles_about_one_middle_are_drawn_with_the_circle_guide() -> None:
    """A round tier in the middle of a round drum needs no sheet: both circles have their holes."""
    made = parsed(STACK.format(shape="round", lines=""))
    guide = printed(made, "drum/placement-guide")
    seat = make_plan(made).stack.seats[0]
    assert (guide.printed, guide.instead) == (False, "circle guide")
    for radius in (seat.outline.radius, seat.upper.covered.foot.radius):
        assert inches_first(in_both(2 * (radius or 0.0))) in guide.use
    assert "“a” stands there" in guide.use
    assert "dowel" not in guide.use


@pytest.mark.parametrize(
    ("shape", "lines"),
    [
        ("square", ""),
        ("round", "shape = 'square'"),
        ("round", "[tier.position]\nright = '10 mm'"),
        ("round", "[tier.position]\nturn = 45"),
    ],
)
def test_what_is_not_two_circles_keeps_its_sheet(shape: str, lines: str) -> None:
    """A square, a tier off the middle, and one whose front points elsewhere are printed."""
    made = parsed(STACK.format(shape=shape, lines=lines))
    assert printed(made, "drum/placement-guide").printed


def test_dowels_keep_the_sheet_of_a_placement_guide_but_for_one_in_the_middle() -> None:
    """A dowel through all tiers goes in where the pin was; others need their marks."""
    upper = "[[tier]]\nname = 'b'\nsize = '5 in'\ndepth = '4 in'\n"
    made = parsed("through_dowel = true\n" + STACK.format(shape="round", lines=upper))
    drum = printed(made, "drum/placement-guide")
    assert not drum.printed
    assert drum.use.endswith("A dowel goes in where the pin was.")
    assert printed(made, "a/placement-guide").printed


@pytest.mark.parametrize(
    ("drum", "instead"),
    [
        ("", "placement guide"),
        ("guide = false\n", ""),
        ("[templates]\nplacement_guides = 'none'\n", ""),
        ("[templates]\nboards = 'whole'\n", ""),
    ],
)
def test_a_drum_is_sawn_by_its_placement_guide(drum: str, instead: str) -> None:
    """Both have one edge, so one sheet serves; without that guide, or if wanted, it is printed."""
    text = "[drum]\nshape = 'scalloped'\ntemplate = true\n"
    made = parsed(f"{text}{drum}[[tier]]\nsize = '8 in'\ndepth = '4 in'\n")
    board = printed(made, "drum/board")
    assert (board.printed, board.instead) == (not instead, instead)
    assert board.use.startswith("Use the placement guide of the drum.") == bool(instead)


def test_a_round_board_with_a_hole_in_the_middle_is_drawn_with_the_circle_guide() -> None:
    """The pin marks where to drill; a hole elsewhere keeps the sheet."""
    tier = "[[tier]]\nname = '{}'\nsize = '{} in'\ndepth = '4 in'\nboard_template = true\n"
    stack = "through_dowel = true\n" + tier.format("a", 8) + tier.format("b", 5)
    board = printed(parsed(stack), "b/board")
    assert board.instead == "circle guide"
    assert board.use.endswith("The middle is where the pin was.")
    aside = parsed(f"{stack}[tier.position]\nright = '15 mm'\n")
    assert printed(aside, "b/board").printed or printed(aside, "a/board").printed


def test_a_collar_without_marks_is_its_girth() -> None:
    """Where only quarters would be marked the cover says how far apart they are."""
    plain = one_tier("name = 'a'\ncoating = '0 mm'\nfondant = '1 mm'")
    collar = printed(plain, "a/collar")
    girth = make_plan(plain).stack.tiers[0].covered.side.girth
    assert not collar.printed
    assert inches_first(in_both(girth / 4)) in collar.use
    assert printed(one_tier("name = 'a'\n[tier.drips]"), "a/collar").printed


def test_what_is_to_mark_on_plain_sides_is_said_once() -> None:
    """A cover names each plain tier with a quarter of its rim, in one sentence for all of them."""
    tier = "[[tier]]\nname = '{}'\nsize = '{} in'\ndepth = '4 in'\n"
    plan = make_plan(parsed(tier.format("low", 10) + tier.format("high", 6)))
    labels = (
        label for sheet in make_pack(plan, PAPERS["a4"]).sheets for label in sheet.drawing.labels
    )
    said = " ".join(label.text for label in labels)
    assert said.count("no sheet needed") == 1
    for each in plan.stack.tiers:
        assert f"{each.name} {inches_first(in_both(each.covered.side.girth / 4))} apart" in said


def test_a_panel_from_a_mould_is_the_moulds() -> None:
    """Nobody cuts a panel that comes out of a mould; one of a chosen width is cut."""
    mould = one_tier("name = 'a'\n[tier.panels]\nmould = '80 mm'\nheight = '30 mm'")
    assert printed(mould, "a/panel").instead == "your mould"
    assert printed(one_tier("name = 'a'\n[tier.panels]\ncount = 8"), "a/panel").printed


@pytest.mark.parametrize(
    ("top", "tier", "disc"),
    [
        ("few", "", "none"),
        ("whole", "", "whole"),
        ("few", "whole", "whole"),
        ("whole", "few", "none"),
        ("whole", "none", "none"),
    ],
)
def test_print_says_how_much_paper_is_used(top: str, tier: str, disc: str) -> None:
    """The key of a tier goes before that of the cake; a tier may have no sheets at all."""
    line = f"print = '{tier}'\n" if tier else ""
    text = f"print = '{top}'\n[[tier]]\nname = 'a'\nsize = '8 in'\ndepth = '4 in'\n"
    made = templates(make_plan(parsed(f"{text}cover = 'panelled'\n{line}")))
    found = next(piece for piece in made if piece.id == "a/disc")
    assert ("whole" if found.printed and found.unfolding is None else "none") == disc
    collars = [piece for piece in made if piece.kind == "wrap"]
    assert [piece.printed for piece in collars] == [tier != "none"]


def test_what_is_said_of_a_kind_goes_before_the_tier_and_the_cake() -> None:
    """Only a tier without sheets stays without; --whole leaves what has none without."""
    tier = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\ncover = 'panelled'\n"
    text = (
        "print = 'whole'\n[templates]\nwraps = 'few'\nplacement_guides = 'none'\n"
        f"{tier}name = 'a'\n{tier}name = 'b'\nprint = 'none'\n{tier}name = 'c'\nprint = 'few'\n"
    )
    cake = parsed(text)
    made = {piece.id: piece for piece in templates(make_plan(cake))}
    assert made["a/wrap"].unfolding is not None
    assert made["a/disc"].unfolding is None
    assert made["a/disc"].printed
    assert not made["b/wrap"].printed
    assert not made["c/disc"].printed
    assert not made["a/placement-guide"].printed
    whole = {piece.id: piece for piece in templates(make_plan(printed_whole(cake)))}
    assert whole["a/wrap"].unfolding is None
    assert [whole[name].printed for name in ("a/placement-guide", "b/wrap", "c/disc")] == [
        False,
        False,
        True,
    ]


def test_every_kind_of_piece_has_a_key_of_templates() -> None:
    """No key is without effect, and none of the table of pieces is without a key."""
    assert set(KINDS.values()) == set(Templates.model_fields)
    assert {*KINDS} >= {*table.KINDS}


@pytest.mark.parametrize("kind", [*KINDS])
def test_every_kind_of_piece_can_be_chosen(kind: str) -> None:
    """Its key alone decides whether it is printed, and how."""
    plan = make_plan(one_tier())
    piece = replace(next(each for each in plan.pieces if each.printed), kind=kind)
    for amount, printed in (("none", False), ("whole", True)):
        chosen = Templates.model_validate({KINDS[kind]: amount})
        (made,) = templates(replace(plan, pieces=(piece,), templates=chosen))
        assert made.printed == printed
        assert made.printed or made.instead == "not printed"


def test_without_a_circle_guide_no_circle_is_left_to_it() -> None:
    """A disc that the guide would draw is printed where the guide is not."""
    tier = "cover = 'panelled'"
    left = [p.kind for p in templates(make_plan(one_tier(tier))) if p.instead == "circle guide"]
    assert "disc" in left
    alone = one_tier(f"{tier}\n[templates]\ncircle_guides = 'none'")
    assert not [p for p in templates(make_plan(alone)) if p.instead == "circle guide"]
