"""Piping sheets: how many copies, how far apart, as they are seen and mirrored."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.cakefile.papers import PAPERS
from templates_gen.cover.pack import make_pack
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box, union_box
from templates_gen.pieces.transfer import MARGIN, PAGE
from templates_gen.plan import make_plan
from tests.cakes import one_tier, pieces_of

BARE = "cover = 'none'\ncoating = '0 mm'\n"
HEARTS = "[[tier.scatter]]\nshape = 'heart'\nsize = '20 mm'\ncount = 4\ntransfer = {"


def sheets(lines: str) -> list[Piece]:
    """Return the piping sheets of an 8 in tier."""
    kinds = ("piping-sheet", "topper-sheet")
    return [piece for piece in pieces_of(one_tier(BARE + lines)) if piece.kind in kinds]


def motifs(piece: Piece) -> list[Box]:
    """Return the boxes of what is piped, each motif a single line."""
    return [each.path.bounds for each in piece.drawing.strokes if each.role is Role.PIPE]


@given(st.integers(1, 60), st.floats(0, 40))
@settings(max_examples=20)
def test_copies_stand_so_far_apart_in_rows(copies: int, apart: float) -> None:
    """All copies are there, none nearer to another than is asked for, all on the sheet."""
    (piece,) = sheets(f"{HEARTS}copies = {copies}, apart = '{apart} mm'}}\n")
    boxes = motifs(piece)
    assert len(boxes) == copies == piece.values["copies_on_sheet"]
    assert all(piece.outline.bounds.contains(box) for box in boxes)
    near = [box.expanded(apart / 2 - 1e-6) for box in boxes]
    for index, one in enumerate(near):
        assert not any(one.intersection(other) for other in near[index + 1 :])


def test_motifs_of_one_line_are_piped_beside_each_other() -> None:
    """A pleat has no width: with nothing between copies each still has a place of its own."""
    (piece,) = sheets(
        "[[tier.design]]\nkind = 'pleats'\ntransfer = { copies = 9, apart = '0 mm' }\n"
    )
    assert len({box.x0 for box in motifs(piece)}) == 9


def test_a_mirrored_sheet_is_the_mirror_image() -> None:
    """Turned over, each line of the mirrored sheet lies where the normal one has it."""
    lines = "[[tier.lettering]]\ntext = 'Fr'\ntransfer = { sheet = 'both', copies = 1 }\n"
    normal, mirrored = sheets(lines)
    wide = normal.size.width
    for one, other in zip(_piped(normal), _piped(mirrored), strict=True):
        for (x, y), (p, q) in zip(one, other, strict=True):
            assert (wide - x, y) == pytest.approx((p, q), abs=1e-6)


def _piped(piece: Piece) -> list[list[tuple[float, float]]]:
    paths = [each.path for each in piece.drawing.strokes if each.role is Role.PIPE]
    return [[point for _, points in path.commands for point in points] for path in paths]


def test_a_repeat_is_as_wide_as_it_is_on_the_tier() -> None:
    """Of 8 swags round a circle of 8 in each is an eighth of its girth wide, as deep as said."""
    lines = "[[tier.design]]\nkind = 'swags'\ncount = 8\ndrop = '22 mm'\ntransfer = {}\n"
    (piece,) = sheets(lines)
    for box in motifs(piece):
        assert box.size == pytest.approx((math.pi * 203.2 / 8, 22.0), abs=0.01)


def test_lettering_and_toppers_keep_their_size() -> None:
    """Copies are as wide as the lettering and as tall as the topper themselves."""
    lines = (
        "[[tier.lettering]]\ntext = 'Ada'\nwidth = '90 mm'\ntransfer.copies = 1\n"
        "[[topper]]\nshape = 'star'\nheight = '60 mm'\ntransfer = { copies = 2 }\n"
    )
    lettering, topper = sheets(lines)
    assert union_box(motifs(lettering)).width == pytest.approx(90.0, abs=0.5)
    assert [box.height for box in motifs(topper)] == pytest.approx([60.0] * 2, abs=1e-6)


def test_a_full_sheet_goes_on_one_page() -> None:
    """Where no number is said a sheet is as full as one page of paper of either size lets it."""
    made = make_plan(one_tier(BARE + HEARTS + "}\n"))
    for paper in ("a4", "letter"):
        pack = make_pack(made, PAPERS[paper])
        shown = [w.piece.id for sheet in pack.sheets for w in sheet.windows]
        assert shown.count("tier-1/piping-sheet-scatter-1") == 1
    (piece,) = sheets(HEARTS + "}\n")
    assert len(motifs(piece)) >= 40


@pytest.mark.parametrize("start", ["front", "between", "join"])
@pytest.mark.parametrize("kind", ["waves", "pearls", "swags"])
def test_a_repeat_that_goes_on_behind_the_join(kind: str, start: str) -> None:
    """Wherever the first repeat begins its lines are found, also where they reach over the join."""
    lines = (
        f"shape = 'square'\n[[tier.design]]\nkind = '{kind}'\nstart = '{start}'\nper = 'face'\n"
        "count = 3\n[tier.design.transfer]\n"
    )
    made = [each for each in pieces_of(one_tier(lines)) if each.kind == "piping-sheet"]
    assert len(made) == 1


@pytest.mark.parametrize("start", ["front", "between", "join"])
def test_what_lies_on_the_join_is_drawn_beside_its_repeat(start: str) -> None:
    """Of staggered pearls 8 mm wide, 8 to a row, the two of a repeat are half of it apart."""
    pearls = f"[[tier.design]]\nkind = 'pearls'\ncount = 8\nbreadth = '8 mm'\nstart = '{start}'\n"
    (piece,) = sheets(f"{pearls}rows = 2\ntransfer.copies = 1\n")
    assert piece.values["motif_width_mm"] == pytest.approx(math.pi * 203.2 / 16 + 8, abs=0.01)


def test_a_sheet_lies_as_it_holds_more_copies() -> None:
    """Of joined swags over 84 mm wide two stand in a row of a sheet that is turned."""
    swags = "[[tier.design]]\nkind = 'swags'\ncount = 7\ndrop = '20 mm'\n"
    (piece,) = sheets(f"{swags}transfer = {{joined = true}}\n")
    pitch = math.pi * 203.2 / 7
    assert PAGE[0] - 2 * MARGIN < 2 * pitch < PAGE[1] - 2 * MARGIN
    assert piece.size.width == pytest.approx(2 * pitch + 2 * MARGIN)
    assert piece.size.width <= PAGE[1]
    assert piece.size.height <= PAGE[0]
