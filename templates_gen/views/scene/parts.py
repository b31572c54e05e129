"""What a scene is made of: plain values that a renderer can draw without knowing cakes.

Lengths in mm. A body stands in its own frame, x to the right, y to the back, z up from its foot,
and ``at`` says where that is: mm to the right, to the back and up from the middle of the drum, and
degrees of turn, counter-clockwise as seen from above. A ``part`` names what may be picked by the
keys of the cake file with points between them: ``tier.1.drips``, ``drum``, ``topper.0``.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from templates_gen.drawing.drawing import Colour
from templates_gen.geometry.box import Box, Point
from templates_gen.tiers.side import Sphere

Ring = tuple[Point, ...]
"""A closed contour, its first point not again at the end."""
Shape = tuple[Ring, ...]
"""Contours that are filled together by their turning, as a font is."""
SpacePose = tuple[float, float, float, float]
"""To the right, to the back, up, mm; turn, degrees."""
Vector = tuple[float, float, float]


Way = Literal["along", "down", "up", "turn", "right", "back"]
"""Along and down a side, mm; round the tier to the right, degrees; in plan, mm."""


@dataclass(frozen=True, slots=True)
class Move:
    """A value of the cake file that follows where something is dragged, and what it is now.

    ``key`` is what comes after that of the part.
    """

    key: tuple[str, ...]
    way: Way
    value: float


@dataclass(frozen=True, slots=True)
class Look:
    """What something is called, how large it is in words, its colour, and how it can be moved."""

    part: str
    name: str
    size: str
    colour: Colour
    moves: tuple[Move, ...] = ()


@dataclass(frozen=True, slots=True)
class Repeated:
    """One shape about (0, 0) that lies at many places: x, y, and its turn from x to y, degrees."""

    shape: Shape
    places: tuple[Vector, ...]

    @property
    def shapes(self) -> Iterator[Shape]:
        """The shape at each of its places."""
        for x, y, turn in self.places:
            cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            yield tuple(
                tuple((x + cos * px - sin * py, y + sin * px + cos * py) for px, py in ring)
                for ring in self.shape
            )


@dataclass(frozen=True, slots=True)
class Mark:
    """Something on a side, in (u, v), or on a top, in its plan x and y.

    ``bands`` are boxes, ``shapes`` are filled, and so are those ``repeated``; ``lines`` are
    ``width`` mm wide, or as thin as can be seen. It stands ``raised`` mm out.
    """

    look: Look
    shapes: tuple[Shape, ...] = ()
    lines: tuple[tuple[Point, ...], ...] = ()
    bands: tuple[Box, ...] = ()
    width: float = 0.0
    raised: float = 0.0
    repeated: tuple[Repeated, ...] = ()

    @property
    def every_shape(self) -> tuple[Shape, ...]:
        """All that is filled, where it lies."""
        return (*self.shapes, *(shape for each in self.repeated for shape in each.shapes))


@dataclass(frozen=True, slots=True)
class Column:
    """A straight line down a side at ``u``, from the rim to the foot, which is at v = ``depth``."""

    u: float
    depth: float
    rim: Vector
    foot: Vector


@dataclass(frozen=True, slots=True)
class Hole:
    """A hole right through: its edge in front and behind, in (u, v), point by point alike."""

    look: Look
    front: Ring
    back: Ring


@dataclass(frozen=True, slots=True)
class Body:
    """A tier or the drum: between two columns its side is a flat face, or it is a ball.

    ``slope`` is how much its top rises on each mm to the right and to the back; ``top`` is how
    high that is over the middle. ``board`` is the board under it, so ``thick``. Where it is kept,
    ``made_from`` stands for all but ``at``.
    """

    look: Look
    at: SpacePose
    girth: float = 0.0
    columns: tuple[Column, ...] = ()
    top: float = 0.0
    slope: Point = (0.0, 0.0)
    sphere: Sphere | None = None
    on_side: tuple[Mark, ...] = ()
    on_top: tuple[Mark, ...] = ()
    hole: Hole | None = None
    board: Ring = ()
    thick: float = 0.0
    made_from: Hashable = field(default=None, compare=False)


@dataclass(frozen=True, slots=True)
class Standing:
    """A flat thing that stands upright facing the front: its shapes, y up from where it stands.

    ``sticks`` are upright lines from there to a height, at an x.
    """

    look: Look
    at: SpacePose
    shapes: tuple[Shape, ...]
    thickness: float
    sticks: tuple[Point, ...] = ()


@dataclass(frozen=True, slots=True)
class Lying:
    """A thing with upright walls and a level top: its shapes in plan, holes open, ``tall`` mm."""

    look: Look
    at: SpacePose
    shapes: tuple[Shape, ...]
    tall: float


@dataclass(frozen=True, slots=True)
class Scene:
    """A whole cake from the drum up, and how tall it is above the drum.

    It reaches ``reach`` mm out from its middle, which lies ``middle`` mm to the back of that of the
    drum. What is ``lying`` is before the drum: boards first, then what is on them. ``is_coarse``
    says that something has been left out or simplified to bound its size.
    """

    bodies: tuple[Body, ...]
    standing: tuple[Standing, ...]
    height: float
    reach: float
    is_coarse: bool = False
    lying: tuple[Lying, ...] = ()
    middle: float = 0.0
