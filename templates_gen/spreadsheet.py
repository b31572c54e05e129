"""Tables for spreadsheets: CSV in which no cell is computed, and its cells as they were meant."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Sequence

FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the start of a formula."""


def csv_bytes(rows: Iterable[Sequence[str]]) -> bytes:
    """Return rows as CSV (RFC 4180), in UTF-8 with the mark that spreadsheets look for."""
    out = io.StringIO(newline="")
    csv.writer(out).writerows([_as_text(cell) for cell in row] for row in rows)
    return out.getvalue().encode("utf-8-sig")


def _as_text(cell: str) -> str:
    """Return a cell that no spreadsheet computes."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell


def plain(cell: str) -> str:
    """Return a cell without the sign that kept a spreadsheet from computing it."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(FORMULA) else cell
