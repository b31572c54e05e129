"""What a design is made of: a cell, and the lines that one repeat draws in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.piece import Value
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.units import at_most, in_both


@dataclass(frozen=True, slots=True)
class Cell:
    """The space of one repeat, mm: x from 0 to ``width`` along the side, v from 0 to ``height``."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Hung:
    """A strip set all round along a ``level``, and its ``height`` as it is cut, mm."""

    level: float
    height: float


@dataclass(frozen=True, slots=True)
class Flat:
    """A strip of which each repeat takes a ``number``, as it is cut, mm."""

    name: str
    length: float
    width: float
    number: int


@dataclass(frozen=True, slots=True)
class Motif:
    """What a design draws: ``paths`` in each cell, and level lines all round at ``levels``.

    A path may reach over the sides of its cell, never over its top or foot. Where there
    are ``turned`` paths, every other cell has those. ``values`` are the
    design's own figures; those in ``lengths`` are the lengths of some of its paths, on an even
    side. Paths of true size keep it on every side, ``about`` one point of the cell. Strips are
    ``hung`` all round, ``flats`` cut for each repeat.
    """

    paths: tuple[Path, ...] = ()
    turned: tuple[Path, ...] | None = None
    levels: tuple[float, ...] = ()
    values: Mapping[str, Value] = field(default_factory=dict)
    lengths: Mapping[str, tuple[Path, ...]] = field(default_factory=dict)
    about: Point | None = None
    hung: tuple[Hung, ...] = ()
    flats: tuple[Flat, ...] = ()

    def stretched(self, factor: float) -> Motif:
        """Return the motif with its paths ``factor`` times as wide, and its figures unchanged."""
        stretch = Transform().scale(factor, 1.0)

        def each(paths: tuple[Path, ...]) -> tuple[Path, ...]:
            return tuple(path.transformed(stretch) for path in paths)

        return replace(
            self,
            paths=each(self.paths),
            turned=None if self.turned is None else each(self.turned),
            lengths={name: each(paths) for name, paths in self.lengths.items()},
        )


def within(key: str, value: float, most: float, what: str) -> float:
    """Return a length, or raise the error that it is too large for ``what``."""
    if value > most + 1e-9:
        found, allowed = f"{in_both(value)} in {what}", f"up to {at_most(most)}"
        raise CakeError.at((key,), found, allowed, "make one of them fit")
    return value


def stacked(paths: Iterable[Path], tops: Iterable[float]) -> tuple[Path, ...]:
    """Return the paths once at each height."""
    drawn = tuple(paths)
    return tuple(path.moved(0, top) for top in tops for path in drawn)


def rising(height: float, tall: float, rows: int) -> tuple[float, ...]:
    """Return the tops of rows of things ``tall`` mm tall, evenly from the top to the foot."""
    if rows == 1:
        return (0.0,)
    return tuple(row * (height - tall) / (rows - 1) for row in range(rows))
