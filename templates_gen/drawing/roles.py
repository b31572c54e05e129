"""The line language: what each line on the paper asks the decorator to do.

Weights from the series of ISO 128; dash elements in the multiples of the line width d that ISO 128
uses: dot 0.5 d, gap 3 d, short dash 6 d, dash 12 d, long dash 24 d. Weight, dashes and the word
along a line carry its meaning; colour is only added where the printer has it.
"""

from __future__ import annotations

from enum import Enum

_DOT, _GAP, _SHORT, _DASH, _LONG = 0.5, 3.0, 6.0, 12.0, 24.0
_CHAIN = (_DASH, _GAP, _DOT, _GAP)


class Role(Enum):
    """A kind of line: weight in mm, dashes in its widths, colour, words along it, name, meaning.

    Of lines that lie on each other, the one whose role comes first is drawn.
    """

    CUT = ("cut", 0.7, (), "#000000", "CUT", "cut", "edge of the piece")
    ON_FOLD = (
        "fold-edge",
        0.7,
        _CHAIN,
        "#401A5C",
        "PLACE ON FOLD",
        "on fold",
        "lay this edge on the fold of the parchment",
    )
    TRIM = (
        "trim",
        0.35,
        (_LONG, _GAP),
        "#78270A",
        "TRIM AFTER FITTING",
        "trim",
        "cut back to this line after fitting",
    )
    SCORE = (
        "score",
        0.35,
        (_SHORT, _GAP),
        "#0647DE",
        "PRESS",
        "press",
        "press or prick it in, but not through",
    )
    CHECK = (
        "check",
        0.35,
        (_LONG, _GAP, _DOT, _GAP, _DOT, _GAP),
        "#0647DE",
        "CHECK ONLY",
        "check only",
        "compare with the cake, do not cut",
    )
    FOLD = ("fold", 0.25, _CHAIN, "#401A5C", "FOLD", "fold", "crease the paper along it")
    PIPE = ("pipe", 0.35, (), "#06413B", "PIPE", "pipe", "mark it, then pipe over it")
    GUIDE = ("guide", 0.25, (), "#06413B", "MARK", "mark", "mark it on the cake")
    CENTRE = (
        "centre",
        0.18,
        (_LONG, _GAP, _DOT, _GAP),
        "#8C6E01",
        "CENTRE",
        "centre",
        "line up with the cake's centre or front",
    )
    MATCH = (
        "match",
        0.25,
        (_DASH, _GAP),
        "#C526A4",
        "",
        "parts meet",
        "between round marks: parts meet here",
    )
    NOTE = ("note", 0.18, (), "#000000", "", "pointer", "pointer line, do not cut")
    GRID = ("grid", 0.13, (1.0, 9.0), "#767676", "", "50 mm", "every 50 mm, named on all sheets")

    def __init__(
        self,
        word: str,
        weight: float,
        pattern: tuple[float, ...],
        colour: str,
        says: str,
        brief: str,
        meaning: str,
    ) -> None:
        self.word = word
        self.weight = weight
        self.dashes = tuple(element * weight for element in pattern)
        self.colour = colour
        self.says = says
        self.brief = brief
        self.meaning = meaning

    @property
    def rgb(self) -> tuple[float, float, float]:
        """Red, green and blue of its colour, each from 0 to 1."""
        red, green, blue = (int(self.colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
        return red, green, blue
