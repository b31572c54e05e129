"""What marks a template on the fold: its fold edges, its words, and how it opens.

The bracket with arrows to the edge, and the words "place on fold" along it, are the common
convention of dressmaking patterns.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import Text, blocks
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT, Line, text_block
from templates_gen.geometry.areas.lines import within
from templates_gen.geometry.areas.placement import FreeSpace, bounds_of
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.mirror import Mirror, contours
from templates_gen.geometry.path import Path, line, polyline

IN = 6.0
"""How far the bracket stands from the edge, mm."""
LONGEST, SHORTEST = 90.0, 30.0
"""How long a bracket is at most and at least, mm."""
HEAD = 2.2
"""Length of the head of an arrow, mm."""
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


def _point(mirror: Mirror, along: float, across: float) -> Point:
    """Return the point so far along a mirror line and beside it."""
    far = mirror.at + across
    return (far, along) if mirror.axis == "x" else (along, far)


def _spans(outline: Path, mirror: Mirror) -> list[tuple[float, float]]:
    """Return from where to where an outline runs along a mirror line."""
    edges = [edge for edges, _ in contours(outline) for edge in edges if mirror.contains(edge)]
    ends = [sorted((mirror.along(edge[0]), mirror.along(edge[-1]))) for edge in edges]
    return [(low, high) for low, high in ends]


def fold_edges(outline: Path, mirrors: Sequence[Mirror]) -> Drawing:
    """Draw the edges that are laid on a fold."""
    lines = [
        Stroke(line(_point(mirror, start, 0.0), _point(mirror, end, 0.0)), Role.ON_FOLD)
        for mirror in mirrors
        for start, end in _spans(outline, mirror)
    ]
    return Drawing(tuple(lines))


def brackets(outline: Path, mirrors: Sequence[Mirror], labels: Sequence[Label]) -> Drawing:
    """Draw a bracket with arrows to each fold edge, where no words stand."""
    drawn = Drawing()
    for mirror in mirrors:
        taken = [label.box for label in labels]
        interval = max(_free(outline, mirror, taken), key=lambda each: each[1] - each[0])
        drawn += _bracket(mirror, *interval)
    return drawn


def _free(outline: Path, mirror: Mirror, taken: Iterable[Box]) -> list[tuple[float, float]]:
    """Return the parts of a fold edge beside which no words stand; if there is none, it."""
    spans = _spans(outline, mirror)
    near = [
        (mirror.along((box.x0, box.y0)) - 1, mirror.along((box.x1, box.y1)) + 1)
        for box in taken
        if mirror.across((box.x0, box.y0)) < BAND
    ]
    free = list(spans)
    for low, high in near:
        free = [part for each in free for part in _subtracted(each, low, high)]
    return [each for each in free if each[1] - each[0] > SHORTEST] or spans


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


def _bracket(mirror: Mirror, start: float, end: float) -> Drawing:
    """Draw a bracket in the middle of a part of a fold edge."""
    middle, half = (start + end) / 2, min(LONGEST, (end - start) * 0.7) / 2
    low, high = middle - half, middle + half
    frame = [(low, 0.4), (low, IN), (high, IN), (high, 0.4)]
    lines = [polyline([_point(mirror, *each) for each in frame])]
    for tip in (low, high):
        head = [(tip - HEAD / 3, HEAD), (tip, 0.4), (tip + HEAD / 3, HEAD)]
        lines.append(polyline([_point(mirror, *each) for each in head]))
    return Drawing(tuple(Stroke(path, Role.NOTE) for path in lines))


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
