"""The words that say along a line what it is: ``CUT``, ``PRESS``, again and again."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import compress

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.chords import Chord, chords
from templates_gen.geometry.areas.lines import Line
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, polyline
from templates_gen.sheets.drawn import Drawn

SIZE = LEAST_TEXT
"""Em size of the words, mm."""
EVERY = 90.0
"""How far words of one kind keep from each other, mm."""
STEP = 9.0
"""Places along a line are tried so far apart, mm."""
CLEAR, AIR = 0.5, 0.3
"""Between a line and its words, and between the words and anything else, mm."""
BESIDE = 1.5
"""Before and after the words, mm: scissors that touch a word look like a letter of it."""
BOW = 1.4
"""A line that bows more beside its words is too bent for them, mm."""
SCISSORS = 4.6
"""What the scissors before the word of a cut line take, mm."""


@dataclass(frozen=True, slots=True)
class _Place:
    """Where words could stand: the start of their baseline, their turn, and what they take."""

    at: Point
    turn: float
    frame: tuple[Point, ...]


def line_words(strokes: Sequence[Drawn], box: Box, taken: Taken) -> Drawing:
    """Return the words of the lines that a window shows, clear of all that is ``taken``.

    ``box`` is what the window shows. A line that is too short, bent or crowded has none.
    """
    drawing, boxes = Drawing(), list[Box]()
    for role in dict.fromkeys(each.stroke.role for each in strokes if each.stroke.role.says):
        places = list(
            _places([each.line for each in strokes if each.stroke.role is role], role, box)
        )
        free = compress(places, taken.free([place.frame for place in places]))
        chosen: list[_Place] = []
        for place in free:
            around = Box.round(place.frame)
            if all(math.dist(place.at, other.at) > EVERY for other in chosen) and not any(
                around.intersection(each) for each in boxes
            ):
                chosen.append(place)
                boxes.append(around)
                drawing += _drawn(role, place)
    return drawing


def _places(lines: Sequence[Line], role: Role, box: Box) -> Iterator[_Place]:
    """Yield places along lines, of each those in the middle of it first."""
    before = SCISSORS if role is Role.CUT else 0.0
    width = before + fonts.text_width(role.says, SIZE)
    for found in chords(lines, box, width + 2, STEP, BOW):
        for chord in sorted(found, key=lambda each: each.far):
            for side in (1, -1):
                place = _beside(chord, side, width, before)
                if box.contains(Box.round(place.frame)):
                    yield place


def _beside(chord: Chord, side: int, width: float, before: float) -> _Place:
    """Return the place for words above a chord (side 1) or below it (-1), turned to be read."""
    turn = math.atan2(chord.end[1] - chord.start[1], chord.end[0] - chord.start[0])
    above, below = chord.left, chord.right
    if not -math.pi / 2 + 1e-9 < turn < math.pi / 2 + 1e-9:
        turn, above, below = turn + math.pi, below, above
    cos, sin = math.cos(turn), math.sin(turn)
    x, y = ((one + other) / 2 for one, other in zip(chord.start, chord.end, strict=True))
    foot, top = -fonts.DESCENT * SIZE, fonts.CAP_HEIGHT * SIZE
    # capitals stand as far below a line as above it, where what goes below others is kept free
    base = CLEAR - foot + above if side > 0 else -CLEAR + foot - below - top

    def at(along: float, up: float) -> Point:
        return x + along * cos - up * sin, y + along * sin + up * cos

    start, end = -width / 2 - BESIDE, width / 2 + BESIDE
    low, high = base + foot - AIR, base + top + AIR
    frame = (at(start, low), at(end, low), at(end, high), at(start, high))
    return _Place(at(before - width / 2, base), math.degrees(turn), frame)


def _drawn(role: Role, place: _Place) -> Drawing:
    label = Label(role.says, place.at, SIZE, Anchor.START, place.turn)
    marks = _scissors(place) if role is Role.CUT else ()
    return Drawing(tuple(Stroke(path, Role.NOTE) for path in marks), (label,))


def _scissors(place: _Place) -> Iterator[Path]:
    """Draw scissors before a word, with their points towards it."""
    turn, high = math.radians(place.turn), fonts.CAP_HEIGHT * SIZE
    cos, sin = math.cos(turn), math.sin(turn)

    def at(along: float, up: float) -> Point:
        x, y = along - SCISSORS, up
        return place.at[0] + x * cos - y * sin, place.at[1] + x * sin + y * cos

    for up, tip in ((0.45, high - 0.15), (high - 0.45, 0.15)):
        yield circle(at(0.55, up), 0.45)
        yield polyline([at(0.95, up), at(3.8, tip)])
