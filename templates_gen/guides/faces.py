"""Faces: what a side with corners is divided into, and repeats that close on each of them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from templates_gen.geometry.outline import Outline


@dataclass(frozen=True, slots=True)
class Face:
    """An interval of a rim from the middle of one corner to the middle of the next, mm of u."""

    start: float
    end: float

    @property
    def length(self) -> float:
        """From corner to corner, mm."""
        return self.end - self.start


def faces(outline: Outline) -> tuple[Face, ...]:
    """Return the faces of an outline in order from the back join; none without corners.

    A face that goes on over the join ends beyond the girth.
    """
    corners = outline.corners
    if not corners:
        return ()
    return tuple(Face(a, b) for a, b in pairwise((*corners, corners[0] + outline.girth)))


def places_on(
    found: Sequence[Face], girth: float, count: Callable[[Face], int], *, at_corner: bool
) -> tuple[float, ...]:
    """Return a ``count`` of places on each face, evenly, one on each corner or astride of it.

    In order from the first corner, each in [0, girth).
    """
    shift = 0.0 if at_corner else 0.5
    places: list[float] = []
    for face in found:
        many = count(face)
        step = face.length / many
        places += [(face.start + (index + shift) * step) % girth for index in range(many)]
    return tuple(places)
