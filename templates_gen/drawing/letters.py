"""Letters of a text to prick, pipe or cut, and the lines they stand on."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from fontTools.misc.transform import Transform

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.booleans import merged
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path
from templates_gen.geometry.roots import halved

Baseline = Callable[[float], tuple[Point, float]]
"""The point of a baseline at a distance from its middle, mm, and its direction there, radians."""

STEEPEST = 1 / math.pi
"""Rise over length of half a circle, the steepest arch of a text."""


@dataclass(frozen=True, slots=True)
class Letter:
    """A letter as it is set, mm: its outline from its own origin, its place x and its advance.

    ``name`` tells letters of one form alike; ``text`` is what it stands for.
    """

    name: str
    text: str
    path: Path
    x: float
    advance: float

    def scaled(self, factor: float) -> Letter:
        """Return the letter ``factor`` times as large about the start of its text."""
        path, x, advance = self.path.scaled(factor), self.x * factor, self.advance * factor
        return replace(self, path=path, x=x, advance=advance)


@dataclass(frozen=True, slots=True)
class TextLine:
    """A text set on a level line from (0, 0), mm, y up."""

    letters: tuple[Letter, ...]
    cap_height: float

    @property
    def inked(self) -> tuple[Letter, ...]:
        """The letters without the spaces between them."""
        return tuple(letter for letter in self.letters if letter.path.commands)

    @property
    def box(self) -> Box:
        """The box round all that is inked."""
        return union_box(letter.path.bounds.moved(letter.x, 0) for letter in self.inked)

    def scaled(self, factor: float) -> TextLine:
        """Return the text ``factor`` times as large."""
        letters = tuple(letter.scaled(factor) for letter in self.letters)
        return TextLine(letters, self.cap_height * factor)

    def along(self, baseline: Baseline) -> tuple[Path, ...]:
        """Return the outlines with the middle of the text in the middle of a baseline.

        Each letter stands upright on the baseline at its own middle; letters that overlap become
        one outline.
        """
        return merged(list(self._standing(baseline)))

    def box_along(self, baseline: Baseline) -> Box:
        """Return the box round the outlines as ``along`` has them."""
        return union_box(path.bounds for path in self._standing(baseline))

    def _standing(self, baseline: Baseline) -> Iterator[Path]:
        """Yield each letter by itself where it stands."""
        middle = self.box.centre[0]
        for letter in self.inked:
            half = letter.advance / 2
            (x, y), heading = baseline(letter.x + half - middle)
            stand = Transform().translate(x, y).rotate(heading).translate(-half, 0)
            yield letter.path.transformed(stand)


def level(along: float) -> tuple[Point, float]:
    """Return the place of a level baseline through (0, 0)."""
    return (along, 0.0), 0.0


def arched(length: float, rise: float) -> Baseline:
    """Return an arc whose middle is at (0, 0), ``rise`` mm above the ends of a ``length`` on it.

    A negative rise makes a hollow. Raises GeometryError where the length cannot rise so much.
    """
    share = abs(rise) / length
    if share > STEEPEST:
        raise GeometryError("the arch is too steep")
    # half the angle t of the arc: rise / length = (1 - cos t) / 2t, rising up to STEEPEST
    _, half = halved(lambda t: (1 - math.cos(t)) / (2 * t) < share, 0.0, math.pi / 2)
    radius = math.copysign(length / 2 / half, rise)

    def place(along: float) -> tuple[Point, float]:
        angle = along / radius
        return (radius * math.sin(angle), radius * (math.cos(angle) - 1)), -angle

    return place
