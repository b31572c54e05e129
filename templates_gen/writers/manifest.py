"""The manifest: where every part of every piece lies, for programs that check or use a pack."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from hashlib import sha256
from typing import Any

from templates_gen.drawing.piece import Unfolding
from templates_gen.sheets.pack import Pack, Window


@dataclass(frozen=True, slots=True)
class Listing:
    """What a manifest says of its pack: ``files`` has the SHA-256 of each by its name."""

    name: str
    title: str
    pack_mark: str
    files: Mapping[str, str]


def write_manifest(pack: Pack, files: Mapping[str, bytes] | None = None) -> bytes:
    """Return the manifest of a pack as JSON; lengths in mm, sheets from their lower left.

    It lists ``files``, the content of each file of the pack by its name in the pack's folder.
    A template on the fold says how it unfolds, and where of the whole piece its (0, 0) is.
    ``to_sheet`` is [a, b, c, d, e, f] with x' = a x + c y + e and y' = b x + d y + f. Sheets are as
    they must come out; of a pack for one printer ``to_page`` leads from there to the file's pages.
    """
    document = {
        "name": pack.name,
        "title": pack.title,
        "pack_mark": pack.pack_mark,
        "paper": {"width_mm": pack.paper.width, "height_mm": pack.paper.height},
        **_printer(pack),
        "files": [
            {"name": name, "sha256": sha256(content).hexdigest()}
            for name, content in (files or {}).items()
        ],
        "sheets": [
            {"number": sheet.number, "windows": [_window(window) for window in sheet.windows]}
            for sheet in pack.sheets
        ],
    }
    return json.dumps(document, indent=1, allow_nan=False).encode() + b"\n"


def read_listing(content: bytes) -> Listing | None:
    """Return what a manifest says of its pack, or None for any other file."""
    try:
        data = json.loads(content)
        files = {file["name"]: file["sha256"] for file in data["files"]}
        return Listing(data["name"], data["title"], data["pack_mark"], files)
    except (ValueError, TypeError, KeyError, RecursionError):
        return None


def _printer(pack: Pack) -> dict[str, Any]:
    if pack.printer is None:
        return {}
    return {"printer": {**asdict(pack.printer), "to_page": list(pack.to_page)}}


def _window(window: Window) -> dict[str, Any]:
    return {
        "piece": window.piece.id,
        **_unfolding(window.piece.unfolding),
        "code": window.code,
        "box_mm": list(window.box),
        "to_sheet": list(window.to_sheet),
        "marks": [
            {"piece_mm": list(mark.on_piece), "sheet_mm": list(mark.on_sheet)}
            for mark in window.marks
        ],
    }


def _unfolding(unfolding: Unfolding | None) -> dict[str, Any]:
    """Say at which lines of its own frame a template is mirrored, one after the other, if any."""
    if unfolding is None:
        return {}
    return {
        "unfold": [{"axis": mirror.axis, "at_mm": mirror.at} for mirror in unfolding.mirrors],
        "whole_mm": list(unfolding.origin),
    }
