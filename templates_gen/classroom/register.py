"""The register of a class: who has how many sheets, and figures to check them by, as CSV."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.classroom.making import Made
from templates_gen.spreadsheet import csv_bytes
from templates_gen.units import MM_PER_INCH, decimal


def register(made: Sequence[Made]) -> bytes:
    """Return a row for each person and paper, as CSV under a heading.

    The finished lengths are those of each tier's covered side, in mm and inches.
    """
    most = max((len(each.lists.figures["tiers"]) for each in made), default=0)
    heading = ["name", "paper", "sheets", "pack mark", "file"]
    for number in range(1, most + 1):
        heading += [f"tier {number}", "round, mm", "round, in"]
    return csv_bytes([heading, *(row for each in made for row in _rows(each))])


def _rows(made: Made) -> list[list[str]]:
    tiers: list[str] = []
    for tier in made.lists.figures["tiers"]:
        girth = tier["covered"]["girth_mm"]
        tiers += [tier["name"], decimal(girth, 1), decimal(girth / MM_PER_INCH, 2)]
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
