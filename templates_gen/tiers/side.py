"""The side of a tier: where something drawn on it lies on flat paper, and where in space.

Everything on a side is drawn once in (u, v): u = mm round the rim from the back join, to the right
as seen from outside; v = mm down from the rim. The back join is u = 0, the front u = girth / 2.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Protocol

from fontTools.misc.transform import Transform

from templates_gen.drawing.outline import Outline
from templates_gen.drawing.path import Point
from templates_gen.drawing.piece import Drawing


class Side(Protocol):
    """A side that can be laid flat without stretching. All lengths in mm."""

    @property
    def girth(self) -> float:
        """The length of the rim: the largest u."""
        ...

    @property
    def depth(self) -> float:
        """From rim to foot along the side: the largest v."""
        ...

    def flat(self, u: float, v: float) -> Point:
        """Return where (u, v) lies on the paper, printed side up, y up."""
        ...

    def in_space(self, u: float, v: float) -> tuple[float, float, float]:
        """Return where (u, v) lies on the tier that stands on z = 0, front towards -y."""
        ...

    def unroll(self, drawing: Drawing) -> Drawing:
        """Return a drawing made in (u, v) as it lies on the paper.

        A label's turn is counter-clockwise from the direction of u, as the paper shows it.
        """
        ...


@dataclass(frozen=True, slots=True)
class UprightSide:
    """The side of a tier with upright walls: flat by the identity, v downwards."""

    outline: Outline
    depth: float

    @property
    def girth(self) -> float:
        """The length of the rim."""
        return self.outline.girth

    def flat(self, u: float, v: float) -> Point:
        """Return (u, -v): the same lengths on paper."""
        return u, -v

    def in_space(self, u: float, v: float) -> tuple[float, float, float]:
        """Return the point of the outline at u, at the height of v."""
        return (*self.outline.at(u), self.depth - v)

    def unroll(self, drawing: Drawing) -> Drawing:
        """Return the drawing with v turned into y."""
        flip = Transform(1, 0, 0, -1, 0, 0)
        return Drawing(
            tuple(stroke.transformed(flip) for stroke in drawing.strokes),
            tuple(replace(label, at=self.flat(*label.at)) for label in drawing.labels),
        )
