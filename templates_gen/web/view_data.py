"""Drawings, pieces and sizes as data that a script can draw without knowing cakes."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from fontTools.misc.transform import Transform

from templates_gen.bench.figures import value_lines
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.terms import Terms
from templates_gen.units import in_both

PLACES = 2
"""Decimals of a mm on a screen."""
EDGE = 2.0
"""Blank edge round a drawing, mm."""


Lines = dict[str, str]
"""Path data with y down, mm, by the word of its lines."""


def drawing_data(drawing: Drawing) -> dict[str, Any]:
    """Return a drawing with y down, mm: its size, its lines and its labels."""
    page = drawing.box.expanded(EDGE)
    onto = Transform(1, 0, 0, -1, -page.x0, page.y1)
    return {
        "size": _size(page),
        "lines": lines(drawing, (page.x0, page.y1)),
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


def assembled_data(parts: Iterable[tuple[Lines, Box, Point]]) -> dict[str, Any]:
    """Return a drawing that is put together: of each part its lines, box, and where it stands."""
    placed = list(parts)
    page = union_box([box.moved(*at) for _, box, at in placed]).expanded(EDGE)
    return {
        "size": _size(page),
        "parts": [
            {"at": [round(x - page.x0, PLACES), round(page.y1 - y, PLACES)], "lines": found}
            for found, _, (x, y) in placed
        ],
    }


def _size(page: Box) -> list[float]:
    return [round(page.width, PLACES), round(page.height, PLACES)]


def lines(drawing: Drawing, origin: Point = (0.0, 0.0)) -> Lines:
    """Return the lines of a drawing, measured from an origin."""
    x0, y1 = origin

    def point(at: Point) -> str:
        return f"{at[0] - x0:.{PLACES}f} {y1 - at[1]:.{PLACES}f}"

    found: dict[str, list[str]] = {}
    for stroke in drawing.strokes:
        found.setdefault(stroke.role.word, []).append(stroke.path.data(point))
    return {word: "".join(texts) for word, texts in found.items()}


def piece_data(piece: Piece, terms: Terms) -> dict[str, Any]:
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
        "measures": terms.text(f"{in_both(piece.size.width)} × {in_both(piece.size.height)}"),
        "values": [(name, terms.text(text)) for name, text in value_lines(piece.values)],
        "drawing": drawing_data(piece.drawing),
    }


def tier_data(tier: dict[str, Any], terms: Terms) -> dict[str, Any]:
    """Return the figures of a tier as texts in both units, that of the cake first."""
    return {
        "name": tier["name"],
        "shape": tier["shape"],
        "layers": [
            {
                "surface": surface,
                **{name[:-3]: terms.text(in_both(mm)) for name, mm in tier[surface].items()},
            }
            for surface in ("bare", "coated", "covered")
        ],
    }
