"""The answer to an edit: what is the same as before is not made again.

Tiers and seats are values, so what was made of one serves as long as an equal one comes again.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from functools import partial
from hashlib import blake2b
from typing import Any

from pydantic_core import to_json

from templates_gen.bench.doubts import warnings
from templates_gen.bench.figures import figures
from templates_gen.cakefile.cake import Cake
from templates_gen.drawing.drawing import Drawing
from templates_gen.geometry.box import Box, Point
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier, build_stack
from templates_gen.memo import Memo
from templates_gen.pieces.table import Group
from templates_gen.plan import Plan, make_plan
from templates_gen.terms import Terms
from templates_gen.tiers.pose import Pose
from templates_gen.views.elevation import drum_seen, separator_seen, tier_seen, views
from templates_gen.views.letter_boards import from_front, letter_boards
from templates_gen.views.scene import Body as SceneBody
from templates_gen.views.scene import scene
from templates_gen.views.view import FINE, View
from templates_gen.web.labels import place as page_place
from templates_gen.web.labels import worded
from templates_gen.web.request import Body, cake_of
from templates_gen.web.scene_data import body_text, placed, scene_text
from templates_gen.web.view_data import Lines, assembled_data, lines, piece_data, tier_data

KEPT = 5000
"""What is kept of tiers, their pieces, and how these are shown: the latest used. A cake of four
tiers has some 200 of it; ``workers.py`` keeps less where they need much memory."""
WHOLE_TURN = 360
ROW = 200.0
"""From one letter cake to the next below it, mm: they are no taller."""
MEMO = Memo(KEPT)
"""What was made for earlier edits, by value."""


def plan_of(body: Body) -> Plan:
    """Return the plan of the cake of a body. Raises CakeError, and RequestError for bad files."""
    return make_plan(cake_of(body), MEMO)


def answer(cake: Cake, known: Collection[str] = ()) -> dict[str, Any]:
    """Return what the page shows of a cake: its figures, pieces, warnings and cautions.

    Of pieces that are ``known`` by their digest only that and the id come again. Raises CakeError
    with every problem of a cake that cannot be made.
    """
    plan = make_plan(cake, MEMO)
    data = {
        piece_id: each
        for group in plan.groups
        for piece_id, each in MEMO.get(
            ("data", group.made_from), partial(_data, group, plan.terms)
        ).items()
    }
    tiers = figures(plan)["tiers"]
    named = {"words": cake.words, "tier": [{"name": tier.name} for tier in cake.tier]}
    return {
        "title": plan.title,
        "warnings": [
            {
                "key": list(warning.key),
                "place": page_place(warning.key, named),
                "text": worded(warning.text, warning.key),
            }
            for warning in warnings(plan)
        ],
        "tiers": [tier_data(tier, plan.terms) for tier in tiers],
        "across": [
            {"across": tier["covered"]["across_mm"], "depth": tier["covered"]["depth_mm"]}
            for tier in tiers
        ],
        "pieces": [_unknown(data[piece.id], known) for piece in plan.pieces],
        "cautions": list(plan.cautions),
    }


def _data(group: Group, terms: Terms) -> dict[str, dict[str, Any]]:
    """Return the data of pieces by their ids, each with a digest of it."""
    found = {piece.id: piece_data(piece, terms) for piece in group.pieces}
    for data in found.values():
        data["digest"] = blake2b(to_json(data), digest_size=8).hexdigest()
    return found


def _unknown(data: dict[str, Any], known: Collection[str]) -> dict[str, Any]:
    """Return what of the data of a piece is not known to the page."""
    return data if data["digest"] not in known else {key: data[key] for key in ("id", "digest")}


def seen(cake: Cake, turn: int, *, coarse: bool = False) -> dict[str, Any]:
    """Return the elevation of a cake seen from ``turn`` degrees to the right of its front.

    A ``coarse`` one has nothing marked on tiers that have not been drawn yet, and so comes soon.
    """
    stack = build_stack(cake, MEMO)
    drum = drum_seen(stack, turn)
    if drum is None:
        alone = [
            (from_front(each), (0.0, -step * ROW)) for step, each in enumerate(letter_boards(stack))
        ]
        return assembled_data([(lines(each), each.bounds, at) for each, at in alone])
    parts = [(lines(drum), drum.bounds, (0.0, 0.0))]
    parts += [(lines(each), each.bounds, (0.0, 0.0)) for each in _separators(stack, turn)]
    for tier, turned, at in _standing(stack, turn % WHOLE_TURN):
        known = ("front", tier, turned, True) in MEMO
        part = ("front", tier, turned, known or not coarse)
        parts.append((*MEMO.get(part, partial(_front_data, *part[1:])), at))
    return assembled_data(parts)


def in_space(cake: Cake, known: Collection[str] = (), *, coarse: bool = False) -> str:
    """Return a cake in space as JSON, to be turned and looked at in the browser.

    Of bodies that are ``known`` by their digest only that and where they stand come again.
    A ``coarse`` one has nothing marked on tiers that have not been drawn yet, and so comes soon.
    """
    found = scene(build_stack(cake, MEMO), MEMO, coarse=coarse)
    return scene_text(found, [_placed_text(body, known) for body in found.bodies])


def _placed_text(body: SceneBody, known: Collection[str]) -> str:
    """Return a body as JSON: written once of equal ones, wherever they stand."""
    if body.made_from is None:
        found = body_text(body)
    else:
        found = MEMO.get(("body text", body.made_from), partial(body_text, body))
    return placed(found.alone if found.digest in known else found.text, body.at)


def _standing(stack: DecoratedStack, turn: int) -> Iterator[tuple[DecoratedTier, float, Point]]:
    """Yield each tier, how it is turned in degrees, and where the middle of its foot is seen."""
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    for tier, place, foot in zip(stack.tiers, stack.places, stack.feet, strict=True):
        yield tier, place.turn - turn, (cos * place.right + sin * place.back, foot)


def _separators(stack: DecoratedStack, turn: int) -> Iterator[Drawing]:
    """Yield what is under each raised tier, as it is seen."""
    for view, seat in zip(views(stack), stack.seats, strict=True):
        if seat.separator is not None:
            yield separator_seen(view, seat, turn)


def _front_data(tier: DecoratedTier, turn: float, marked: bool) -> tuple[Lines, Box]:
    """Return the lines of a tier that stands alone, its foot at 0, and the box round them."""
    drawing = tier_seen(View(tier, Pose(turn=turn), 0.0, FINE), marked=marked)
    return lines(drawing), drawing.bounds
