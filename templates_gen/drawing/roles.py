"""The line language: what each line on the paper asks the decorator to do.

Weights from the series of ISO 128; dash elements in the multiples of the line width d that ISO 128
uses: dot 0.5 d, gap 3 d, short dash 6 d, dash 12 d, long dash 24 d.
"""

from __future__ import annotations

from enum import Enum

_DOT, _GAP, _SHORT, _DASH, _LONG = 0.5, 3.0, 6.0, 12.0, 24.0


class Role(Enum):
    """A kind of line: its weight in mm, its dash pattern in line widths, what it means."""

    CUT = ("cut", 0.5, (), "edge of the piece, for scissors or blade")
    TRIM = ("trim", 0.35, (_LONG, _GAP), "cut off past it, once the piece fits")
    SCORE = ("score", 0.35, (_SHORT, _GAP), "press or prick it in, but not through")
    FOLD = ("fold", 0.25, (_DASH, _GAP, _DOT, _GAP), "crease the paper along it")
    GUIDE = ("guide", 0.25, (), "mark it on the cake, or pipe along it")
    ON_FOLD = (
        "fold-edge",
        0.5,
        (_DASH, _GAP, _DOT, _GAP),
        "cut here too; lay this edge on the fold of the parchment",
    )
    CENTRE = (
        "centre",
        0.18,
        (_LONG, _GAP, _DOT, _GAP),
        "middle or front, to meet the cake's",
    )
    MATCH = ("match", 0.25, (_DASH, _GAP), "between round marks: sheets meet here")
    NOTE = ("note", 0.18, (), "belongs to words and marks")
    GRID = ("grid", 0.13, (1.0, 9.0), "every 50 mm, named alike on all sheets")

    def __init__(self, word: str, weight: float, pattern: tuple[float, ...], meaning: str) -> None:
        self.word = word
        self.weight = weight
        self.dashes = tuple(element * weight for element in pattern)
        self.meaning = meaning
