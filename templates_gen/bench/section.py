"""A section of the bench list in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

WHOLE = "whole cake"
QUANTITIES = "To weigh and mix (estimates)"
"""The title of the section of quantities."""
ASSUMPTIONS = "Assumptions"
"""The title of the section of estimates, a row for each source."""
SHOPPING, TIMES, PORTIONS = "To buy", "Order of work", "Portions"
APART = (SHOPPING, TIMES, PORTIONS)
"""The titles of what may stand on a page of its own."""
Row = tuple[str, ...]
Data = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the bench list: its title, headings of its columns, rows, notes below them.

    ``assumptions`` say how its figures are estimated; unless it may stand on a page of its own,
    they are moved to the section of estimates. A section that is ``bench_only`` stands in the bench
    list and on the page, but not on the cover.
    ``brief`` are fewer rows, with headings above them, that say the same where space is short.
    """

    title: str
    columns: Row
    rows: tuple[Row, ...]
    notes: tuple[str, ...] = ()
    assumptions: tuple[str, ...] = ()
    bench_only: bool = False
    brief: tuple[Row, ...] = ()


def whose(each: Data) -> str:
    """Return the tier that something is for; what belongs to none is for the whole cake."""
    return WHOLE if each["tier"] == "pack" else str(each["tier"])
