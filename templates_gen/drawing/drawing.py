"""Strokes, labels and areas of colour in one frame."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from enum import Enum
from typing import TypeAlias

from fontTools.misc.transform import Identity, Offset, Transform

from templates_gen.drawing import fonts
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path


@dataclass(frozen=True, slots=True)
class Stroke:
    """A path drawn with the line of its role."""

    path: Path
    role: Role

    def transformed(self, transform: Transform) -> Stroke:
        """Return the stroke mapped by an affine transform."""
        return Stroke(self.path.transformed(transform), self.role)


Colour: TypeAlias = tuple[int, int, int]
"""Red, green and blue, 0 to 255."""


@dataclass(frozen=True, slots=True)
class Fill:
    """An area in one colour: what the contours of a path go round, by their turning."""

    path: Path
    colour: Colour

    def transformed(self, transform: Transform) -> Fill:
        """Return the area mapped by an affine transform."""
        return Fill(self.path.transformed(transform), self.colour)


class Anchor(Enum):
    """Which point of a text stands at its label's place; the value is the part left of it."""

    START = 0.0
    MIDDLE = 0.5
    END = 1.0


@dataclass(frozen=True, slots=True)
class Label:
    """A line of text: ``at`` is on the baseline, ``size`` the em size in mm, ``turn`` in degrees.

    One that ``continues`` the label before it is a further line of the same text: they stay
    together. One that ``wraps`` is the rest of a sentence that was too long for the line before.
    One that ``stays`` names what it stands at by its size: elsewhere it would name something else.
    """

    text: str
    at: Point
    size: float = 3.0
    anchor: Anchor = Anchor.START
    turn: float = 0.0
    bold: bool = False
    continues: bool = False
    wraps: bool = False
    stays: bool = False

    @property
    def width(self) -> float:
        """Set width of the text, mm."""
        return fonts.text_width(self.text, self.size, bold=self.bold)

    @property
    def rise(self) -> float:
        """How high the text reaches over its baseline, mm."""
        return self.size * fonts.rise(self.text, bold=self.bold)

    @property
    def frame(self) -> Transform:
        """The map from the text's own frame (start of the baseline at (0, 0)) to the drawing."""
        cos, sin = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        left, (x, y) = self.anchor.value * self.width, self.at
        return Transform(cos, sin, -sin, cos, x - left * cos, y - left * sin)

    @property
    def box(self) -> Box:
        """The upright box round the text, capitals, their accents and descenders included."""
        own = Box(0, -fonts.DESCENT * self.size, self.width, self.rise)
        if self.turn:
            return own.transformed(self.frame)
        # nearly all are level, and are asked often
        return own.moved(self.at[0] - self.anchor.value * own.width, self.at[1])

    def transformed(self, transform: Transform) -> Label:
        """Return the label moved and turned by a rigid transform; the text keeps its size."""
        turn = self.turn + math.degrees(math.atan2(transform.xy, transform.xx))
        at = transform.transformPoint(self.at)
        return replace(self, at=at, turn=turn)


@dataclass(frozen=True, slots=True)
class Drawing:
    """Strokes and labels in one frame; ``fills`` lie under them, the later over the earlier."""

    strokes: tuple[Stroke, ...] = ()
    labels: tuple[Label, ...] = ()
    fills: tuple[Fill, ...] = ()

    @property
    def bounds(self) -> Box:
        """The box round its strokes."""
        return union_box(stroke.path.bounds for stroke in self.strokes)

    @property
    def box(self) -> Box:
        """The box round its strokes and labels."""
        boxes = [stroke.path.bounds for stroke in self.strokes]
        return union_box([*boxes, *(label.box for label in self.labels)])

    def __add__(self, other: Drawing) -> Drawing:
        return Drawing(
            self.strokes + other.strokes, self.labels + other.labels, self.fills + other.fills
        )

    def transformed(self, transform: Transform) -> Drawing:
        """Return everything mapped by a rigid transform."""
        if transform == Identity:
            return self
        return Drawing(
            tuple(stroke.transformed(transform) for stroke in self.strokes),
            tuple(label.transformed(transform) for label in self.labels),
            tuple(fill.transformed(transform) for fill in self.fills),
        )

    def moved(self, dx: float, dy: float) -> Drawing:
        """Return everything moved by (dx, dy)."""
        return self.transformed(Offset(dx, dy))

    def cut(self, by: Callable[[Path], Path]) -> Drawing:
        """Return the drawing with what a function leaves of each line; fills and labels stay."""
        left = (Stroke(by(each.path), each.role) for each in self.strokes)
        return replace(self, strokes=tuple(each for each in left if each.path.commands))

    def reworded(self, say: Callable[[str], str]) -> Drawing:
        """Return it with other words in its labels, which stay where they are."""
        labels = (replace(each, text=say(each.text)) for each in self.labels)
        return Drawing(self.strokes, tuple(labels), self.fills)


def joined(drawings: Iterable[Drawing]) -> Drawing:
    """Return drawings in one frame as one, the later over the earlier."""
    some = list(drawings)
    return Drawing(
        tuple(stroke for each in some for stroke in each.strokes),
        tuple(label for each in some for label in each.labels),
        tuple(fill for each in some for fill in each.fills),
    )
