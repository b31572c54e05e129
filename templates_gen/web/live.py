"""The answer to an edit: what is the same as before is not made again.

Tiers and seats are values, so what was made of one serves as long as an equal one comes again.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import partial
from typing import Any

from fontTools.misc.transform import Transform

from templates_gen.bench.figures import figures
from templates_gen.cakefile.model import Cake
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import key_text
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier, build_stack
from templates_gen.memo import Memo
from templates_gen.pieces.table import Group
from templates_gen.plan import make_plan
from templates_gen.tiers.pose import Place
from templates_gen.tiers.stack import Stack
from templates_gen.views.elevation import DRUM_THICK, elevation
from templates_gen.web.view_data import drawing_data, piece_data, tier_data

KEPT = 1000
"""What is kept of tiers, their pieces, and how these are shown: the latest used."""
WHOLE_TURN = 360
MEMO = Memo(KEPT)
"""What was made for earlier edits, by value."""


def answer(cake: Cake) -> dict[str, Any]:
    """Return what the page shows of a cake: its figures, pieces, doubts and cautions.

    Raises CakeError with every problem of a cake that cannot be made.
    """
    plan = make_plan(cake, MEMO)
    shown = {
        piece_id: data
        for group in plan.groups
        for piece_id, data in MEMO.get(("shown", group.made_from), partial(_data, group)).items()
    }
    return {
        "title": plan.title,
        "doubts": [
            {"key": list(warning.key), "place": key_text(warning.key), "text": warning.text}
            for warning in plan.warnings()
        ],
        "tiers": [tier_data(tier) for tier in figures(plan)["tiers"]],
        "pieces": [shown[piece.id] for piece in plan.pieces],
        "cautions": list(plan.cautions),
    }


def _data(group: Group) -> dict[str, dict[str, Any]]:
    """Return the data of pieces by their ids."""
    return {piece.id: piece_data(piece) for piece in group.pieces}


def seen(cake: Cake, turn: int) -> dict[str, Any]:
    """Return the elevation of a cake seen from ``turn`` degrees to the right of its front."""
    return drawing_data(turned_elevation(build_stack(cake, MEMO), turn % WHOLE_TURN))


def turned_elevation(stack: DecoratedStack, turn: int) -> Drawing:
    """Return the elevation of a stack, turned clockwise by whole degrees as seen from above."""
    half = _half_width(stack, turn)
    drawing = Drawing((Stroke(rectangle(Box(-half, -DRUM_THICK, half, 0.0)), Role.GUIDE),))
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    for tier, place, foot in zip(stack.tiers, stack.places, stack.feet, strict=True):
        right = cos * place.right + sin * place.back
        turned = place.turn - turn
        front = MEMO.get(("front", tier, turned), partial(_front, tier, turned))
        drawing += front.transformed(Transform(1, 0, 0, 1, right, foot))
    return drawing


def _half_width(stack: DecoratedStack, turn: int) -> float:
    """Return half the width of the drum as one sees it, mm."""
    box = stack.drum.path().transformed(Place(turn=-turn).transform).bounds
    return box.width / 2


def _front(tier: DecoratedTier, turn: float) -> Drawing:
    """Return the elevation of a tier that stands alone with its foot at 0."""
    alone = Stack(tier.covered.foot, (tier,), (), (Place(turn=turn),))
    drawing = elevation(alone)
    return replace(drawing, strokes=drawing.strokes[1:])  # without its drum
