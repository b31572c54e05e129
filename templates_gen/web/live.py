"""The answer to an edit: what is the same as before is not made again.

Tiers, seats and stacks are values, so what was made of one serves as long as it is asked for again.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import lru_cache, partial
from typing import Any

from fontTools.misc.transform import Transform

from templates_gen.bench.figures import figures
from templates_gen.cakefile.model import Cake
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.errors import key_text
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.pieces.table import Build, made
from templates_gen.plan import make_plan
from templates_gen.tiers.pose import Place
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.stack import Stack, build_stack
from templates_gen.views.elevation import DRUM_THICK, elevation
from templates_gen.web.view_data import drawing_data, piece_data, tier_data

KEPT = 120
"""What is kept of each kind, the latest used: of pieces four times as many."""
WHOLE_TURN = 360


def answer(cake: Cake) -> dict[str, Any]:
    """Return what the page shows of a cake: its figures, pieces, doubts and cautions.

    Raises CakeError with every problem of a cake that cannot be made.
    """
    plan = make_plan(cake, remembered)
    return {
        "title": plan.title,
        "doubts": [
            {"key": list(doubt.key), "place": key_text(doubt.key), "text": doubt.text}
            for doubt in plan.warnings()
        ],
        "tiers": [tier_data(tier) for tier in figures(plan)["tiers"]],
        "pieces": [_data(piece) for piece in plan.pieces],
        "cautions": list(plan.cautions),
    }


def remembered(build: Build) -> tuple[Piece, ...]:
    """Return pieces, made only if those of the same subject are not at hand."""
    return _made(build.func, build.args)


@lru_cache(maxsize=KEPT * 4)
def _made(build: Callable[..., Iterable[Piece]], of: tuple[object, ...]) -> tuple[Piece, ...]:
    return made(partial(build, *of))


_DATA: dict[int, tuple[Piece, dict[str, Any]]] = {}


def _data(piece: Piece) -> dict[str, Any]:
    """Return the data of a piece; one that is still the same was not made again."""
    known = _DATA.get(id(piece))
    if known is None or known[0] is not piece:
        while len(_DATA) >= KEPT * 4:
            del _DATA[next(iter(_DATA))]
        known = _DATA[id(piece)] = (piece, piece_data(piece))
    return known[1]


def seen(cake: Cake, turn: int) -> dict[str, Any]:
    """Return the elevation of a cake seen from ``turn`` degrees to the right of its front."""
    return drawing_data(turned_elevation(build_stack(cake), turn % WHOLE_TURN))


def turned_elevation(stack: Stack, turn: int) -> Drawing:
    """Return the elevation of a stack, turned clockwise by whole degrees as seen from above."""
    half = _half_width(stack, turn)
    drawing = Drawing((Stroke(rectangle(Box(-half, -DRUM_THICK, half, 0.0)), Role.GUIDE),))
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    for tier, place, foot in zip(stack.tiers, stack.places, stack.feet, strict=True):
        right = cos * place.right + sin * place.back
        drawing += _front(tier, place.turn - turn).transformed(Transform(1, 0, 0, 1, right, foot))
    return drawing


def _half_width(stack: Stack, turn: int) -> float:
    """Return half the width of the drum as one sees it, mm."""
    box = stack.drum.path().transformed(Place(turn=-turn).transform).bounds
    return box.width / 2


@lru_cache(maxsize=KEPT)
def _front(tier: Solid, turn: float) -> Drawing:
    """Return the elevation of a tier that stands alone with its foot at 0."""
    alone = Stack(tier.covered.foot, (tier,), (), (Place(turn=turn),))
    drawing = elevation(alone)
    return replace(drawing, strokes=drawing.strokes[1:])  # without its drum
