"""Drawings, pieces and sizes as data that a script can draw without knowing cakes."""

from __future__ import annotations

from typing import Any

from fontTools.misc.transform import Transform

from templates_gen.bench.figures import value_lines
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box, union_box
from templates_gen.units import in_both

PLACES = 2
"""Decimals of a mm on a screen."""
EDGE = 2.0
"""Blank edge round a drawing, mm."""


def drawing_data(drawing: Drawing, box: Box | None = None) -> dict[str, Any]:
    """Return a drawing with y down, mm: its size, path data by the word of its lines, labels."""
    boxes = [stroke.path.bounds for stroke in drawing.strokes]
    page = (box or union_box([*boxes, *(label.box for label in drawing.labels)])).grown(EDGE)
    onto = Transform(1, 0, 0, -1, -page.x0, page.y1)
    return {
        "size": [round(page.width, PLACES), round(page.height, PLACES)],
        "lines": {
            role.word: _path_data(drawing, role, page)
            for role in Role
            if any(stroke.role is role for stroke in drawing.strokes)
        },
        "labels": [
            {
                "text": label.text,
                "at": [round(each, PLACES) for each in onto.transformPoint(label.at)],
                "size": round(label.size, PLACES),
                "anchor": label.anchor.name.lower(),
                "turn": round(-label.turn, PLACES),
                "bold": label.bold,
            }
            for label in drawing.labels
        ],
    }


_LETTERS = {"moveTo": "M", "lineTo": "L", "curveTo": "C", "closePath": "Z", "endPath": ""}
"""What path data has for each command of a pen."""


def _path_data(drawing: Drawing, role: Role, page: Box) -> str:
    """Return path data with y down, from the upper left of the page."""
    # made at every edit, so it is written without a pen
    x0, y1 = page.x0, page.y1
    return "".join(
        _LETTERS[name] + " ".join(f"{x - x0:.{PLACES}f} {y1 - y:.{PLACES}f}" for x, y in points)
        for stroke in drawing.strokes
        if stroke.role is role
        for name, points in stroke.path.commands
    )


def piece_data(piece: Piece) -> dict[str, Any]:
    """Return a piece: what it is, what to do with it, its figures as text, its drawing."""
    return {
        "id": piece.id,
        "title": piece.title,
        "tier": piece.tier,
        "kind": piece.kind,
        "copies": piece.copies,
        "use": piece.use,
        "surface": piece.surface,
        "printed": piece.printed,
        "measures": f"{in_both(piece.size.width)} × {in_both(piece.size.height)}",
        "values": list(value_lines(piece.values)),
        "drawing": drawing_data(piece.drawing),
    }


def tier_data(tier: dict[str, Any]) -> dict[str, Any]:
    """Return the figures of a tier as texts in both units."""
    return {
        "name": tier["name"],
        "shape": tier["shape"],
        "layers": [
            {
                "surface": surface,
                **{name[:-3]: in_both(value) for name, value in tier[surface].items()},
            }
            for surface in ("bare", "coated", "covered")
        ],
    }
