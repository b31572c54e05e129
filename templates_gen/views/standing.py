"""Toppers and flowers on the top tier from the front: what is nearer hides what is behind it."""

from __future__ import annotations

import math
from collections.abc import Iterator

from templates_gen.drawing.drawing import Drawing, Fill, Stroke
from templates_gen.geometry.areas.booleans import Area, difference, edge_of, shadow
from templates_gen.geometry.areas.lines import cutter
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path, line, polygons, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.views.elevation import FORM
from templates_gen.views.scene.flowers import standing_flowers
from templates_gen.views.scene.parts import Standing
from templates_gen.views.scene.standing import standing
from templates_gen.views.view import FINE

LEAST = 1.0
"""The least that is drawn of a thing, mm2."""


def standing_seen(stack: DecoratedStack) -> Drawing:
    """Draw what stands on the top tier, x to the right and y up from the drum, in its colours."""
    found = [*standing(stack), *standing_flowers(stack)]
    farthest_first = sorted(found, key=lambda each: -each.at[1])
    # of what is turned aside nothing is seen but its edge
    visible = [(each, area) for each in farthest_first if (area := _area(each)).area > LEAST]
    areas = [area for _, area in visible]
    drawing = Drawing()
    for index, (each, area) in enumerate(visible):
        edge, nearer = edge_of(area), areas[index + 1 :]
        seen = [cutter(nearer)(edge), *map(cutter([area, *nearer]), _sticks(each))]
        strokes = tuple(Stroke(path, FORM) for path in seen if path.commands)
        drawing += Drawing(strokes, fills=(Fill(edge, each.look.colour),))
    return drawing


def _area(each: Standing) -> Area:
    """Return what a flat thing hides, without the tab of a topper that stands in the cake."""
    outline = _outline(each)
    box, foot = outline.bounds, each.at[2]
    sunk = rectangle(Box(box.x0 - 1, box.y0 - 1, box.x1 + 1, foot))
    whole = shadow(outline, FINE)
    return difference(whole, [shadow(sunk)]) or whole if box.y0 < foot else whole


def _outline(each: Standing) -> Path:
    """Return the contours of a flat thing as they look from the front."""
    right, _, up, turn = each.at
    narrow = math.cos(math.radians(turn))
    every = (ring for shape in each.shapes for ring in shape)
    return polygons([(right + x * narrow, up + y) for x, y in ring] for ring in every)


def _sticks(each: Standing) -> Iterator[Path]:
    right, _, up, turn = each.at
    for x, high in each.sticks:
        at = right + x * math.cos(math.radians(turn))
        yield line((at, up), (at, up + high))
