"""A scene as compact data for the browser: colours as CSS, points as one row of numbers.

``static/scene.js`` says what it makes of each.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from hashlib import blake2b
from typing import Any, NamedTuple

import numpy as np
from pydantic_core import to_json

from templates_gen.errors import NumberError
from templates_gen.views.colours import to_hex
from templates_gen.views.scene.parts import (
    Body,
    Column,
    Hole,
    Look,
    Lying,
    Mark,
    Scene,
    Shape,
    SpacePose,
    Standing,
)

PLACES = 1
"""Decimals of a mm on a screen."""
FINER = 4
"""Decimals of a slope."""

Data = dict[str, Any]


def scene_text(scene: Scene, bodies: Iterable[str]) -> str:
    """Return a scene as JSON, of its ``bodies`` as JSON."""
    rest = _text(
        {
            "height": _round(scene.height),
            "reach": _round(scene.reach),
            "coarse": scene.is_coarse,
            "middle": _round(scene.middle),
            "standing": [_standing(each) for each in scene.standing],
            "lying": [_lying(each) for each in scene.lying],
        }
    )
    return f'{rest[:-1]},"bodies":[{",".join(bodies)}]}}'


def _text(data: Data | list[float]) -> str:
    """Return data as JSON. Raises NumberError for a number that JSON has no word for."""
    text = to_json(data).decode()
    if "NaN" in text or "Infinity" in text:  # words of JavaScript, or in the name of a tier
        try:
            json.dumps(data, allow_nan=False)
        except ValueError:
            raise NumberError("the picture has a number that is not finite") from None
    return text


def _round(value: float) -> float:
    """Return a number to the tenth, a whole one without decimals, and no minus zero."""
    found = round(value, PLACES)
    return int(found) if found.is_integer() else found


def _row(points: Iterable[Iterable[float]]) -> list[float]:
    # as _round has it but for decimals, all at once: a picture has tens of thousands of numbers
    found: list[float] = (np.round(np.asarray(list(points)), PLACES) + 0.0).ravel().tolist()
    return found


def _look(look: Look) -> Data:
    return {
        "part": look.part,
        "name": look.name,
        "size": look.size,
        "colour": to_hex(look.colour),
        "moves": [
            {"key": list(move.key), "way": move.way, "value": _round(move.value)}
            for move in look.moves
        ],
    }


def placed(body: str, at: SpacePose) -> str:
    """Return a body, given as JSON, where it stands."""
    return f'{body[:-1]},"at":{_text(_row([at]))}}}'


class BodyText(NamedTuple):
    """What a body is, wherever it stands, as JSON; a digest of that, and JSON of that alone."""

    text: str
    digest: str
    alone: str


def body_text(body: Body) -> BodyText:
    """Return what a body is, wherever it stands."""
    text = _text(_body(body))
    digest = blake2b(text.encode(), digest_size=8).hexdigest()
    alone = _text({"digest": digest})
    return BodyText(f"{text[:-1]},{alone[1:]}", digest, alone)


def _body(body: Body) -> Data:
    return {
        **_look(body.look),
        "girth": _round(body.girth),
        "columns": _row(map(_column, body.columns)),
        "top": _round(body.top),
        "slope": [round(each, FINER) for each in body.slope],
        "sphere": _row([(body.sphere.radius, body.sphere.middle, body.sphere.foot)])
        if body.sphere
        else None,
        "side": [_mark(mark) for mark in body.on_side],
        "above": [_mark(mark) for mark in body.on_top],
        "hole": _hole(body.hole) if body.hole else None,
        "board": _row(body.board),
        "thick": _round(body.thick),
    }


def _column(column: Column) -> tuple[float, ...]:
    return column.u, column.depth, *column.rim, *column.foot


def _mark(mark: Mark) -> Data:
    return {
        **_look(mark.look),
        "shapes": [_shape(shape) for shape in mark.shapes],
        "repeated": [
            {"shape": _shape(each.shape), "places": _row(each.places)} for each in mark.repeated
        ],
        "lines": [_row(line) for line in mark.lines],
        "bands": _row(mark.bands),
        "width": _round(mark.width),
        "raised": _round(mark.raised),
    }


def _shape(shape: Shape) -> list[list[float]]:
    return [_row(ring) for ring in shape]


def _hole(hole: Hole) -> Data:
    return {**_look(hole.look), "front": _row(hole.front), "back": _row(hole.back)}


def _standing(each: Standing) -> Data:
    return {
        **_look(each.look),
        "at": _row([each.at]),
        "shapes": [_shape(shape) for shape in each.shapes],
        "thickness": _round(each.thickness),
        "sticks": _row(each.sticks),
    }


def _lying(each: Lying) -> Data:
    return {
        **_look(each.look),
        "at": _row([each.at]),
        "shapes": [_shape(shape) for shape in each.shapes],
        "tall": _round(each.tall),
    }
