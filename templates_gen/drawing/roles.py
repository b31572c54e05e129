"""The line language: what each line on the paper asks the decorator to do.

Weights from the series of ISO 128; dash elements in the multiples of the line width d that ISO 128
uses: dot 0.5 d, gap 3 d, short dash 6 d, dash 12 d, long dash 24 d.
"""

from __future__ import annotations

from enum import Enum

_DOT, _GAP, _SHORT, _DASH, _LONG = 0.5, 3.0, 6.0, 12.0, 24.0


class Role(Enum):
    """A kind of line: its weight in mm, its dash pattern in line widths, what it means."""

    CUT = ("cut", 0.5, (), "cut here")
    TRIM = ("trim", 0.35, (_LONG, _GAP), "cut here after fitting")
    SCORE = ("score", 0.35, (_SHORT, _GAP), "score or prick this line into the surface")
    FOLD = ("fold", 0.25, (_DASH, _GAP, _DOT, _GAP), "fold the paper")
    GUIDE = ("guide", 0.25, (), "mark it or pipe along it")
    CENTRE = ("centre", 0.18, (_LONG, _GAP, _DOT, _GAP), "centre line")
    MATCH = ("match", 0.25, (_DASH, _GAP), "trim one sheet here and lay it on the other")
    NOTE = ("note", 0.18, (), "for reading only")
    GRID = ("grid", 0.13, (1.0, 9.0), "faint, every 50 mm: runs on from sheet to sheet")

    def __init__(self, word: str, weight: float, pattern: tuple[float, ...], meaning: str) -> None:
        self.word = word
        self.weight = weight
        self.dashes = tuple(element * weight for element in pattern)
        self.meaning = meaning
