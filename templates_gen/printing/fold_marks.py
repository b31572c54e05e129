"""What marks a template on the fold: its fold edges, its words, and how it opens.

The bracket with arrows to the edge, and the words "place on fold" along it, are the common
convention of dressmaking patterns.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import Text, blocks, words_apart
from templates_gen.drawing.drawing import Drawing, Label, Stroke, joined
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT, Line, text_block
from templates_gen.geometry.areas.lines import within
from templates_gen.geometry.areas.placement import FreeSpace, bounds_of
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.mirror import Mirror, edges_of
from templates_gen.geometry.path import Path, line, polyline

IN = 6.0
"""How far the bracket stands from the edge, mm."""
LONGEST, SHORTEST = 90.0, 30.0
"""How long a bracket is at most and at least, mm."""
HEAD = 2.2
"""Length of the head of an arrow, mm."""
MARK = 20.0
"""A mark at the edge that reaches no farther than this is kept free of brackets, mm."""
BAND = 12.0
"""What a bracket and its words take beside the edge, mm."""
PICTURE = (26.0, 18.0, 12.0)
"""Sizes of the drawing of how a template opens, mm, the largest that has room is taken."""
THINNEST = 2.0
"""A drawing that is less tall shows no folds, mm: the words serve alone."""
WORDS = 46.0
"""Room for the words beside it, mm."""
HATCH = 2.5
ALIKE = 0.3
"""Words that share this part of their area stand at one mark."""
OPPOSITE = ({"front", "back"}, {"left", "right"})
"""Names that meet at one mark once the paper is folded."""
ASIDE = 8.0
"""How far one of them may have been moved aside, mm."""


def _point(mirror: Mirror, along: float, across: float) -> Point:
    """Return the point so far along a mirror line and beside it."""
    far = mirror.at + across
    return (far, along) if mirror.axis == "x" else (along, far)


def _spans(part: Piece, mirror: Mirror) -> list[tuple[float, float]]:
    """Return from where to where the paper of a part runs along a mirror line."""
    free = _along(part.outline, mirror)
    for low, high in (span for opening in part.openings for span in _along(opening, mirror)):
        free = [span for each in free for span in _subtracted(each, low, high)]
    return free


def _along(outline: Path, mirror: Mirror) -> list[tuple[float, float]]:
    """Return from where to where an outline runs along a mirror line."""
    edges = [edge for edge in edges_of([outline]) if mirror.contains(edge)]
    ends = [sorted((mirror.along(edge[0]), mirror.along(edge[-1]))) for edge in edges]
    return [(low, high) for low, high in ends]


def edges_marked(part: Piece, mirrors: Sequence[Mirror], labels: Sequence[Label]) -> Piece:
    """Return a part with these words, its fold edges drawn, and a bracket to each, which is empty.

    Words that would lie on a line or within a bracket are moved.
    """
    marks = brackets(part, mirrors, labels)
    drawn = Drawing(part.drawing.strokes, tuple(labels)) + fold_edges(part, mirrors)
    drawn = joined((drawn, *(bracket.drawing for bracket in marks)))
    inside = [path for bracket in marks for path in bracket.inside]
    return words_apart(replace(part, drawing=drawn), inside)


def fold_edges(part: Piece, mirrors: Sequence[Mirror]) -> Drawing:
    """Draw the edges of a part that are laid on a fold."""
    lines = [
        Stroke(line(_point(mirror, start, 0.0), _point(mirror, end, 0.0)), Role.ON_FOLD)
        for mirror in mirrors
        for start, end in _spans(part, mirror)
    ]
    return Drawing(tuple(lines))


@dataclass(frozen=True, slots=True)
class Bracket:
    """A bracket with arrows to a fold edge, in the middle of a part of it from ``start`` on, mm."""

    mirror: Mirror
    start: float
    end: float

    @property
    def ends(self) -> tuple[float, float]:
        """Where it stands along the edge, mm."""
        middle = (self.start + self.end) / 2
        half = min(LONGEST, (self.end - self.start) * 0.7) / 2
        return middle - half, middle + half

    @property
    def drawing(self) -> Drawing:
        """The bracket and the heads of its arrows."""
        low, high = self.ends
        frame = self._line((low, 0.4), (low, IN), (high, IN), (high, 0.4))
        heads = (
            self._line((tip - HEAD / 3, HEAD), (tip, 0.4), (tip + HEAD / 3, HEAD))
            for tip in self.ends
        )
        return Drawing(tuple(Stroke(path, Role.NOTE) for path in (frame, *heads)))

    @property
    def inside(self) -> tuple[Path, ...]:
        """Lines so close that no words have room between it and the edge."""
        low, high = self.ends
        return tuple(self._line((low, IN * k / 3), (high, IN * k / 3)) for k in (1, 2))

    def _line(self, *points: Point) -> Path:
        return polyline([_point(self.mirror, *each) for each in points])


def brackets(
    part: Piece, mirrors: Sequence[Mirror], labels: Sequence[Label]
) -> tuple[Bracket, ...]:
    """Return a bracket for each fold edge of a part, clear of words and marks if there is room.

    It may cross what reaches farther from the edge, as a line over the fold.
    """
    words = [label.box for label in labels]
    found = []
    for mirror in mirrors:
        drawn = (stroke.path.bounds for stroke in part.drawing.strokes)
        # what lies on the edge itself is a fold too
        marks = [box for box in drawn if HEAD < mirror.across((box.x1, box.y1)) < MARK]
        edges = _spans(part, mirror)
        # words can be moved
        ways = (_free(edges, mirror, taken) for taken in ([*words, *marks], marks))
        spans = next((each for each in ways if each), edges)
        found.append(Bracket(mirror, *max(spans, key=lambda span: span[1] - span[0])))
    return tuple(found)


def _free(
    spans: Iterable[tuple[float, float]], mirror: Mirror, taken: Iterable[Box]
) -> list[tuple[float, float]]:
    """Return the parts of a fold edge with room for a bracket beside which nothing stands."""
    near = [
        (mirror.along((box.x0, box.y0)) - 1, mirror.along((box.x1, box.y1)) + 1)
        for box in taken
        if mirror.across((box.x0, box.y0)) < BAND
    ]
    free = list(spans)
    for low, high in near:
        free = [each for span in free for each in _subtracted(span, low, high)]
    return [each for each in free if each[1] - each[0] > SHORTEST]


def _subtracted(
    interval: tuple[float, float], low: float, high: float
) -> Iterator[tuple[float, float]]:
    start, end = interval
    if high <= start or low >= end:
        yield interval
        return
    if low > start:
        yield start, low
    if high < end:
        yield high, end


def folded_words(labels: Iterable[Label], mirrors: Sequence[Mirror]) -> tuple[Label, ...]:
    """Return the words of a piece on its part: those of the parts cut away at their mirror image.

    Where two words come to one mark they are written as one, ``right / left``.
    """
    texts: list[Text] = []
    for text in (Text.of(lines) for lines in blocks(labels)):
        there = _onto_part(text, mirrors)
        same = next((n for n, other in enumerate(texts) if _at_one_mark(there, other)), None)
        if same is None:
            texts.append(there)
        else:
            texts[same] = _joined(texts[same], there)
    return tuple(label for text in texts for label in text.lines)


def _onto_part(text: Text, mirrors: Sequence[Mirror]) -> Text:
    """Return a text with its middle on the kept side of every mirror, readable as before.

    A line that is set slantwise, as along a curve, slants the other way at its mirror image.
    """
    for mirror in mirrors:
        if mirror.across(text.box.centre) < 0 and len(text.lines) == 1:
            text = _slanted_back(text)
        box = text.box
        far = abs(mirror.across(box.centre))
        half = (box.width if mirror.axis == "x" else box.height) / 2
        by = max(far, half + 1.5) - mirror.across(box.centre)
        if abs(by) > 0:
            text = Text.of(text.moved(*((by, 0.0) if mirror.axis == "x" else (0.0, by))))
    return text


def _slanted_back(text: Text) -> Text:
    """Return a text of one line, which is not upright or level, slanted the other way in place."""
    (label,) = text.lines
    if label.turn % 90 == 0:
        return text
    (x, y), turned = text.box.centre, Text.of([replace(label, turn=-label.turn)])
    return Text.of(turned.moved(x - turned.box.centre[0], y - turned.box.centre[1]))


def _at_one_mark(one: Text, other: Text) -> bool:
    if len(one.lines) > 1 or len(other.lines) > 1:
        return False
    if {one.lines[0].text, other.lines[0].text} in OPPOSITE:
        return one.box.expanded(ASIDE).intersection(other.box) is not None
    common = one.box.intersection(other.box)
    least = min(each.box.width * each.box.height for each in (one, other))
    return common is not None and common.width * common.height > ALIKE * least


def _joined(one: Text, other: Text) -> Text:
    label, more = one.lines[0], other.lines[0].text
    if more in label.text.split(" / "):
        return one
    return Text.of([replace(label, text=f"{label.text} / {more}")])


def how_it_opens(part: Piece, says: Sequence[str]) -> Drawing:
    """Draw small how a part unfolds, with its words beside it, where there is room for it."""
    taken = [label.box.expanded(1.0) for label in part.drawing.labels]
    free = FreeSpace(part.paper, taken, [stroke.path for stroke in part.drawing.strokes])
    words = [Line(says[0], TEXT, bold=True), *(Line(each, SMALL) for each in says[1:])]
    whole = _whole(part)
    for size in (*PICTURE, 0.0):
        scale = min(size / whole.height, 1.6 * size / whole.width)
        box = Box(*(scale * side for side in whole))
        if size and box.height < THINNEST:
            continue
        height = max(box.height, 11.0)
        space = (box.width + 2 + WORDS, height)
        at = free.place(space[0] + 2, space[1] + 2)
        if at is not None:
            x, y = at[0] + 1, at[1] + 1
            there = Transform(1, 0, 0, 1, x - box.x0, y + (height - box.height) / 2 - box.y0)
            beside = Box(x + box.width + 2, y, x + space[0], y + height)
            picture = _picture(part, scale).transformed(there) if size else Drawing()
            return picture + Drawing(labels=text_block(words, beside))
    return Drawing()


def _whole(part: Piece) -> Box:
    """Return the box round the whole piece of a part."""
    whole = Box(*bounds_of(part.area))
    for mirror in part.unfolding.mirrors if part.unfolding else ():
        other = whole.transformed(mirror.transform)
        whole = Box.round([*whole.corners, *other.corners])
    return whole


def _picture(part: Piece, scale: float) -> Drawing:
    """Draw the whole piece at a scale, its folds, and the part hatched."""
    outlines = [part.outline]
    for mirror in part.unfolding.mirrors if part.unfolding else ():
        outlines += [path.transformed(mirror.transform) for path in outlines]
    small = Transform().scale(scale)
    paths = (*outlines, *_hatch(part, scale))
    return Drawing(tuple(Stroke(path.transformed(small), Role.NOTE) for path in paths))


def _hatch(part: Piece, scale: float) -> Iterator[Path]:
    """Yield slanting lines across a part, HATCH mm apart on the drawing."""
    box = part.outline.bounds
    step = HATCH * math.sqrt(2) / scale
    for number in range(1, int((box.width + box.height) / step) + 1):
        start = box.x0 + number * step
        path = within(line((start, box.y0), (start - box.height, box.y1)), part.area)
        if path.commands:
            yield path
