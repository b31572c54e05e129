"""Collars: measured on the surface they go round, with every guide at its true place."""

from __future__ import annotations

import math

import pytest
from hypothesis import given

from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.guides.decorated import build_stack
from templates_gen.guides.guide import Guide
from templates_gen.pieces.collar_paper import WORD_STRIP, band_of
from templates_gen.plan import make_plan
from tests.cakes import one_tier, pieces_of
from tests.strategies import cakes


def pieces(text: str) -> dict[str, Piece]:
    """Return the pieces of a cake of one tier by kind."""
    return {piece.kind: piece for piece in pieces_of(one_tier(text))}


def test_joins_of_covering_panels_are_marked_on_the_coating() -> None:
    """8 in with 5 mm of coating: 669.8 mm round, a sixth of it from join to join (arithmetic)."""
    made = pieces("cover = 'panelled'\n[tier.panels]\nreplace_wrap = true\ncount = 6")
    inner, outer = made["marking-band"], made["collar"]
    girth = math.pi * (203.2 + 10)
    assert inner.surface == "coated"
    assert inner.values["length_mm"] == pytest.approx(girth)
    joins = sorted(
        stroke.path.bounds.x0
        for stroke in inner.drawing.strokes
        if stroke.role.word == "guide"
        and stroke.path.bounds.width < 1e-6
        and stroke.path.bounds.height > 50
    )
    assert joins[1] - joins[0] == pytest.approx(girth / 6)
    assert outer.values["length_mm"] == pytest.approx(math.pi * (203.2 + 20))


def test_a_tier_without_covering_panels_has_one_collar() -> None:
    """Nothing is marked on the coating of a draped tier."""
    assert "marking-band" not in pieces("[tier.panels]\ncount = 6\n[tier.drips]")


def test_drips_for_the_top_edge_alone_are_on_no_collar() -> None:
    """They are marked on the guide of the top edge; for both they are on both papers."""
    roles = {
        word: {
            stroke.role
            for stroke in pieces(f"[tier.drips]\nguide = '{word}'")["collar"].drawing.strokes
        }
        for word in ("both", "top edge")
    }
    assert Role.PIPE in roles["both"]
    assert Role.PIPE not in roles["top edge"]


def test_a_standing_collar_has_its_words_above_the_whole_foot() -> None:
    """Of a sloped top the foot is higher on the low side: no mark reaches beyond the paper."""
    tier = build_stack(one_tier("shallowest_depth = '90 mm'\nslopes_down_to = 'front'")).tiers[0]
    side = tier.covered.side
    band = band_of([Guide(tier.covered, Drawing(), side.depth, side.depth)], side, 0.0)
    assert band.stands
    assert band.strip + WORD_STRIP <= side.least_depth < side.depth - 5


@pytest.mark.parametrize("top", [-3.0, 0.0, 0.5, 5.0, 9.0])
def test_the_words_of_a_standing_collar_do_not_cross_the_rim(top: float) -> None:
    """Of a guide that reaches the foot: they stand above it, the rim not among them."""
    tier = build_stack(one_tier()).tiers[0]
    side = tier.covered.side
    guide = Guide(tier.covered, Drawing(), top, side.depth)
    band = band_of([guide], side, 0.0)
    assert band.stands
    assert band.strip + WORD_STRIP <= max(top, 0.0) + 1e-9
    assert not band.strip < 0.0 < band.strip + WORD_STRIP - 1e-9 or top < 0.0


@given(cakes())
def test_a_collar_is_no_taller_than_its_guides_need(cake: Cake) -> None:
    """It is as long as its girth and tab, and as tall as its guides and a lane of words.

    What a guide draws lies between the v it claims, and on the side.
    """
    plan = make_plan(cake)
    tiers = {tier.name: tier for tier in plan.stack.tiers}
    for collar in plan.pieces:
        if collar.kind not in ("collar", "marking-band"):
            continue
        tier = tiers[collar.tier]
        layer = tier.covered if collar.kind == "collar" else tier.coated
        found = [g for g in tier.guides if g.on_collar and g.layer.surface == layer.surface]
        girth, depth = layer.side.girth, layer.side.depth
        assert collar.size.width == pytest.approx(girth + 15)
        tops = [guide.top for guide in found]
        least = max((guide.foot for guide in found), default=0.0) - min(tops, default=0.0)
        most = max([*(guide.foot for guide in found), min(20.0, depth)])
        assert least <= collar.size.height <= most + 7
        assert collar.size.height <= depth + 7
    for guide in (guide for tier in plan.stack.tiers for guide in tier.guides):
        for stroke in guide.drawing.strokes:
            box = stroke.path.bounds
            assert guide.top - 1e-6 <= box.y0
            assert box.y1 <= guide.foot + 1e-3
        assert guide.foot <= guide.layer.side.depth + 1e-6
