"""The manifest: where every part of every piece lies, for programs that check or use a pack."""

from __future__ import annotations

import json
from typing import Any

from templates_gen.sheets.pack import Pack, Window


def write_manifest(pack: Pack) -> bytes:
    """Return the manifest of a pack as JSON; lengths in mm, sheets from their lower left.

    ``to_sheet`` is [a, b, c, d, e, f] with x' = a x + c y + e and y' = b x + d y + f.
    """
    document = {
        "pack_mark": pack.pack_mark,
        "paper": {"width_mm": pack.paper.width, "height_mm": pack.paper.height},
        "sheets": [
            {"number": sheet.number, "windows": [_window(window) for window in sheet.windows]}
            for sheet in pack.sheets
        ],
    }
    return json.dumps(document, indent=1, allow_nan=False).encode() + b"\n"


def _window(window: Window) -> dict[str, Any]:
    return {
        "piece": window.piece.id,
        "code": window.code,
        "box_mm": list(window.box),
        "to_sheet": list(window.to_sheet),
        "marks": [
            {"piece_mm": list(mark.on_piece), "sheet_mm": list(mark.on_sheet)}
            for mark in window.marks
        ],
    }
