"""Circle guides as they are read: their pivot, their holes, and the name beside each."""

from __future__ import annotations

import math
import re

import pytest

from templates_gen.drawing.drawing import Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box, Point
from templates_gen.pieces.circle_lanes import HOLE

NARROWEST = 18.0
"""A narrower strip of card is weak, mm: the owner's figure, no source."""


def middle(stroke: Stroke, radius: float) -> Point:
    """Return the middle of a circle, which is drawn from the point at its right."""
    (start,) = stroke.path.commands[0][1]
    return start[0] - radius, start[1]


def pivot(piece: Piece) -> Point:
    """Return where the strip is pinned."""
    rings = [s for s in piece.drawing.strokes if s.role is Role.GUIDE]
    return middle(rings[0], 2.0)


def holes(piece: Piece) -> list[Point]:
    """Return the middle of each pencil hole as seen from the pivot."""
    wide = pytest.approx(2 * HOLE, abs=1e-3)
    drawn = [s for s in piece.drawing.strokes if s.path.bounds.width == wide]
    x0, y0 = pivot(piece)
    return [(x - x0, y - y0) for x, y in (middle(s, HOLE) for s in drawn)]


def names(piece: Piece) -> list[Label]:
    """Return the name of each hole."""
    return [label for label in piece.drawing.labels if ": " in label.text]


def named(piece: Piece, label: Label) -> float:
    """Return how wide the circle is whose hole lies nearest to a name, in a line with it."""
    x0, y0 = pivot(piece)
    box = label.box.moved(-x0, -y0)
    in_line = [hole for hole in holes(piece) if box.y0 < hole[1] < box.y1]
    return 2 * math.hypot(*min(in_line, key=lambda hole: off(box, hole)))


def said(label: Label) -> float:
    """Return how wide a name says that its circle is, mm."""
    found = re.search(r"([\d.]+) mm", label.text)
    assert found
    return float(found[1])


def off(box: Box, point: Point) -> float:
    """Return how far a point is from a box, mm."""
    x, y = point
    return math.hypot(max(box.x0 - x, x - box.x1, 0), max(box.y0 - y, y - box.y1, 0))
