"""Words kept off lines and each other: what stays together, and where else a text has room."""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import compress

import numpy as np
import numpy.typing as npt
from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEAST_TEXT, LOOSE, Line, broken, height, set_lines
from templates_gen.geometry.areas.booleans import Area
from templates_gen.geometry.areas.placement import overlapping
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path

LEAST_GAP = 1.0
"""What is left between a text that had to move and any other, mm."""
NARROWER = (1, 2, 3, 4, 6)
"""In how many parts a line of text that finds no place is broken."""
NEAR, FAR, REACH = 1.0, 3.0, 45.0
"""How far apart places round about are tried, near ones and far ones, and how far away, mm."""
NUMBER = 6.0
"""A text no wider, mm, is a number or letter at what it names: it goes to the nearest place."""
OFF_LINES = 0.15
"""What is left between a text and any line, mm."""
_PHRASE_END = re.compile("(?<=[,;]) ")
_TOUCH = 1e-6
"""Texts that share less stand beside each other, mm."""
_SLACK = 1e-9
"""A text that leaves its space by less is inside, mm."""


Fits = Callable[[Sequence[Point]], Sequence[bool]]
"""Tells of moves of a text which bring it to a place that it can have."""


@dataclass(frozen=True, slots=True)
class Text:
    """Lines that stay together, and the box round them."""

    lines: Sequence[Label]
    box: Box

    @classmethod
    def of(cls, lines: Sequence[Label]) -> Text:
        """Return the text of some lines."""
        return cls(lines, union_box(label.box for label in lines))

    def moved(self, dx: float, dy: float) -> list[Label]:
        """Return its lines at another place."""
        return [replace(label, at=(label.at[0] + dx, label.at[1] + dy)) for label in self.lines]

    def fits(self, drawn: Taken) -> Fits:
        """Return what tells of moves which bring it to where nothing is drawn."""
        frames = [frame(label, OFF_LINES) for label in self.lines]
        return lambda moves: drawn.free_moves(frames, moves)

    @property
    def narrower(self) -> Iterable[Text]:
        """The text as it is, then with its lines broken to a part of the width."""
        for parts in NARROWER:
            yield self._broken(parts) if parts > 1 else self

    @property
    def ways(self) -> Iterator[Text]:
        """The text as it is and narrower, then the same in letters of the least size."""
        yield from self.narrower
        small = [replace(line, size=min(line.size, LEAST_TEXT)) for line in self.lines]
        yield from Text.of(small).narrower

    @property
    def phrases(self) -> list[Text]:
        """The parts of a line, each to its comma or semicolon, where they stand in it."""
        label, *others = self.lines
        parts = _PHRASE_END.split(label.text)
        if others or len(parts) == 1:
            return []
        found, start = [], 0.0
        for part in parts:
            at = label.frame.transformPoint((start, 0.0))
            found.append(Text.of([replace(label, text=part, at=at, anchor=Anchor.START)]))
            start += fonts.text_width(f"{part} ", label.size, bold=label.bold)
        return found

    def _broken(self, parts: int) -> Text:
        """Return the text with its lines broken to a part of the width, about the same middle.

        No word is cut for it, but a length may end a line between its units.
        """
        texts = [each.text.replace("\u00a0(", " (") for each in self.lines]
        lines = [
            Line(text, each.size, each.bold, each.wraps)
            for text, each in zip(texts, self.lines, strict=True)
        ]
        words = (
            replace(line, text=word).width for line in lines for word in fonts.words(line.text)
        )
        part = max(line.width for line in lines) / parts + 2 * lines[0].size
        rows = broken(lines, max(part, *words) + _SLACK)
        onto = Transform().translate(*self.box.centre).rotate(math.radians(self.lines[0].turn))
        labels = set_lines(rows, (0.0, height(rows, LOOSE) / 2), Anchor.MIDDLE, LOOSE)
        return Text.of([label.transformed(onto) for label in labels])


def blocks(labels: Iterable[Label]) -> list[list[Label]]:
    """Return labels that stay together: the lines of a text, or one label alone."""
    gathered: list[list[Label]] = []
    for label in labels:
        if label.continues and gathered:
            gathered[-1].append(label)
        else:
            gathered.append([label])
    return gathered


def into(box: Box, space: Box) -> Point:
    """Return by how much to move ``box`` so that it lies in ``space``, its start at the least."""
    return (
        max(space.x0 - box.x0, min(space.x1 - box.x1, 0.0)),
        max(space.y0 - box.y0, min(space.y1 - box.y1, 0.0)),
    )


def clear_move(box: Box, space: Box, taken: Iterable[Box], fits: Fits) -> Point | None:
    """Return the least move that brings ``box`` into ``space`` and clear of ``taken``, if any.

    The nearest free place is often beside another text, so those are tried: along the line first,
    unless it is a number, then all of them and those round about, from near to far, until one
    ``fits``.
    """
    if box.width > space.width or box.height > space.height:
        return None
    dx, dy = into(box, space)
    others = [each.expanded(LEAST_GAP) for each in taken]
    xs = [dx, *(x for each in others for x in (each.x0 - box.x1, each.x1 - box.x0))]
    ys = [dy, *(y for each in others for y in (each.y0 - box.y1, each.y1 - box.y0))]
    clear = _Clear(box.expanded(-_TOUCH), space, np.reshape(others, (-1, 4)))

    def tries() -> Iterator[Moves]:
        if box.width > NUMBER:
            yield _across([x for x in xs if abs(x) < REACH], [dy])
        yield np.vstack((_across(xs, ys), np.add(_ROUND, (dx, dy))))

    return next((move for moves in tries() for move in clear.nearest(moves, fits)), None)


Moves = npt.NDArray[np.float64]
"""Ways to move a text: (count, 2), mm."""


@dataclass(frozen=True, slots=True)
class _Clear:
    """Tells which moves bring a box into a space and clear of others."""

    inner: Box
    space: Box
    others: npt.NDArray[np.float64]
    """x0, y0, x1, y1 of each other box: (count, 4), mm."""

    def nearest(self, moves: Moves, fits: Fits) -> Iterator[Point]:
        """Yield those of some moves that are free and fit, from near to far."""
        for some in _batched(moves[np.argsort(np.hypot(*moves.T), kind="stable")]):
            free = [(x, y) for x, y in some[self._free(some)].tolist()]
            yield from compress(free, fits(free))

    def _free(self, moves: Moves) -> npt.NDArray[np.bool_]:
        low, high = moves + self.inner[:2], moves + self.inner[2:]
        inside = (low >= np.subtract(self.space[:2], _SLACK)) & (
            high <= np.add(self.space[2:], _SLACK)
        )
        x0, y0, x1, y1 = self.others.T
        on_other = (np.minimum(high[:, :1], x1) > np.maximum(low[:, :1], x0)) & (
            np.minimum(high[:, 1:], y1) > np.maximum(low[:, 1:], y0)
        )
        free: npt.NDArray[np.bool_] = inside.all(axis=1) & ~on_other.any(axis=1)
        return free


def _across(xs: Sequence[float], ys: Sequence[float]) -> Moves:
    """Return every move by one of ``xs`` and one of ``ys``."""
    return np.stack(np.meshgrid(xs, ys, indexing="ij"), axis=-1).reshape(-1, 2)


def _batched(moves: Moves) -> Iterator[Moves]:
    """Yield moves in growing lots: most often one of the first will do."""
    start, size = 0, 32
    while start < len(moves):
        yield moves[start : start + size]
        start, size = start + size, min(2 * size, 1024)


def _steps(step: float, reach: float) -> list[float]:
    return [step * number for number in range(-int(reach / step), int(reach / step) + 1)]


_ROUND = np.concatenate(
    [_across(steps, steps) for steps in (_steps(NEAR, 3 * FAR), _steps(FAR, REACH))]
)
"""Moves to places round about."""


def words_apart(piece: Piece, taken: Iterable[Path] = ()) -> Piece:
    """Return a piece with each word inside it, clear of its openings, off lines and other words.

    They keep off the paths in ``taken`` too. Of two texts the longer is moved: a short one stands
    at what it names. A text is left out where a small or crowded piece has no room for it: the
    caption beside the piece has it.
    """
    whole = [Text.of(lines) for lines in blocks(piece.drawing.labels)]
    if not whole:
        return piece
    area = piece.paper
    lines = Taken((*(stroke.path for stroke in piece.drawing.strokes), *taken), area)
    order = sorted(range(len(whole)), key=lambda index: (whole[index].box.width, index))
    misplaced = _misplaced(whole, order, lines)
    texts: list[Text | None] = [*whole]
    for index in order:
        if index in misplaced:
            others = [text for each, text in enumerate(texts) if text and each != index]
            texts[index] = _moved(whole[index], others, area, lines)
    if not misplaced:
        return piece
    labels = tuple(label for text in texts if text for label in text.lines)
    return replace(piece, drawing=replace(piece.drawing, labels=labels))


def _misplaced(texts: Sequence[Text], order: Sequence[int], lines: Taken) -> set[int]:
    """Return which texts are to move: on one earlier in ``order``, on a line, or not inside."""
    owner = [index for index in order for _ in texts[index].lines]
    labels = [label for index in order for label in texts[index].lines]
    frames = [frame(label, -_TOUCH) for label in labels]
    clear = [frame(label, OFF_LINES) for label in labels]
    found = {index for index, free in zip(owner, lines.free(clear), strict=True) if not free}
    # of a pair the second is later in the order
    return found | {owner[b] for a, b in overlapping(frames) if owner[a] != owner[b]}


def frame(label: Label, more: float = 0.0) -> Sequence[Point]:
    """Return the corners of what a label takes, with so much more round it, mm."""
    foot = -fonts.DESCENT * label.size
    corners: Sequence[Point] = label.frame.transformPoints(
        Box(0, foot, label.width, label.rise).expanded(more).corners
    )
    return corners


def free_labels(labels: Sequence[Label], taken: Taken) -> Iterator[Label]:
    """Yield labels that are off all lines and words."""
    return compress(labels, taken.free([frame(label, OFF_LINES) for label in labels]))


def _moved(text: Text, others: Sequence[Text], area: Area, drawn: Taken) -> Text | None:
    """Return a text at the nearest place inside a piece that no other takes, smaller if need be."""
    space = Box(*area.bounds)
    taken = [label.box for other in others for label in other.lines]
    for narrower in text.ways:
        move = clear_move(narrower.box, space, taken, narrower.fits(drawn))
        if move is not None:
            return Text.of(narrower.moved(*move))
    return None
