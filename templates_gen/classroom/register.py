"""The register of a class: who has how many sheets, and figures to check them by, as CSV."""

from __future__ import annotations

import csv
import io
from collections.abc import Sequence

from templates_gen.classroom.making import Made
from templates_gen.units import MM_PER_INCH

FORMULA = ("=", "+", "-", "@", "\t", "\r")
"""What a spreadsheet takes for the start of a formula."""


def register(made: Sequence[Made]) -> str:
    """Return a row for each person and paper, as a CSV text with the heading a spreadsheet shows.

    The finished lengths are those of each tier's covered side, in mm and inches.
    """
    most = max((len(each.figures["tiers"]) for each in made), default=0)
    heading = ["name", "paper", "sheets", "pack mark", "file"]
    for number in range(1, most + 1):
        heading += [f"tier {number}", "round, mm", "round, in"]
    rows = [heading, *(row for each in made for row in _rows(each))]
    out = io.StringIO(newline="")
    csv.writer(out).writerows([_as_text(cell) for cell in row] for row in rows)
    return out.getvalue()


def _rows(made: Made) -> list[list[str]]:
    tiers: list[str] = []
    for tier in made.figures["tiers"]:
        girth = tier["covered"]["girth_mm"]
        tiers += [tier["name"], f"{girth:.1f}", f"{girth / MM_PER_INCH:.2f}"]
    return [
        [
            made.student.person.name,
            sheets.paper,
            str(sheets.sheets),
            sheets.pack_mark,
            f"{sheets.name}.pdf",
            *tiers,
        ]
        for sheets in made.printed
    ]


def _as_text(cell: str) -> str:
    """Return a cell that no spreadsheet computes."""
    return f"'{cell}" if cell.startswith(FORMULA) else cell
