"""The list of a class to fill in: the headings for a cake, and rows with its own values."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from templates_gen.cakefile.overrides import tier_names
from templates_gen.spreadsheet import csv_bytes

ROWS = ("First person", "Second person")
"""Names to write over: whoever fills the list in copies a row for each person."""


def blank_list(data: Mapping[str, Any]) -> bytes:
    """Return the list of a class for a cake, as CSV: a column for what often differs.

    ``data`` is that of a cake that can be made. Each row has its values, so the list as it comes
    makes the cake itself for everybody.
    """
    columns = dict(_columns(data))
    rows = [[name, *columns.values()] for name in ROWS]
    return csv_bytes([["name", *columns], *rows])


def _columns(data: Mapping[str, Any]) -> Iterator[tuple[str, str]]:
    """Yield headings and values: paper, size and depth of each tier, the words on it, letters."""
    yield "paper", str(data.get("paper", "a4"))
    for name, tier in zip(tier_names(data), data.get("tier", ()), strict=True):
        for key in ("size", "depth"):
            if key in tier:
                yield f"{name}.{key}", str(tier[key])
        for number, lettering in enumerate(tier.get("lettering", ()), 1):
            yield f"{name}.lettering.{number}.text", str(lettering["text"])
    for number, letters in enumerate(data.get("letter_cake", ()), 1):
        for key in ("text", "cap_height"):
            if key in letters:
                yield f"letter_cake.{number}.{key}", str(letters[key])
