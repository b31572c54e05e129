"""Mirror lines: whether paths are their own mirror image, and the half on one side, exactly.

Paths are taken apart into edges, straight lines and cubics. Cubics are split, never sampled, so
that a half laid on its mirror image gives the whole back.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from fontTools.misc.bezierTools import splitCubic
from fontTools.misc.transform import Transform

from templates_gen.errors import GeometryError
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Command, Edge, Path, contours
from templates_gen.geometry.tolerances import MIRRORED, ROUNDING

_CELL = 1e-3
"""Edges are looked for among those whose middle lies within so much, mm."""


@dataclass(frozen=True, slots=True)
class Mirror:
    """The line x = ``at``, or y = ``at``, mm."""

    axis: Literal["x", "y"]
    at: float

    @property
    def transform(self) -> Transform:
        """The map to the mirror image."""
        twice = 2 * self.at
        return Transform(-1, 0, 0, 1, twice, 0) if self._x else Transform(1, 0, 0, -1, 0, twice)

    @property
    def _x(self) -> bool:
        return self.axis == "x"

    def across(self, point: Point) -> float:
        """Return how far a point lies on the side that is kept, mm."""
        return (point[0] if self._x else point[1]) - self.at

    def along(self, point: Point) -> float:
        """Return where beside the line a point lies, mm."""
        return point[1] if self._x else point[0]

    def split(self, edge: Edge) -> list[Edge]:
        """Return the parts of an edge between the places where it crosses the line."""
        sides = [self.across(point) for point in edge]
        if min(sides) >= -ROUNDING or max(sides) <= ROUNDING:
            return [edge]
        if len(edge) == 2:
            share = sides[0] / (sides[0] - sides[1])
            (x0, y0), (x1, y1) = edge
            between = self._on((x0 + share * (x1 - x0), y0 + share * (y1 - y0)))
            return [(edge[0], between), (between, edge[1])]
        parts: list[Edge] = [tuple(part) for part in splitCubic(*edge, self.at, not self._x)]
        joined = [(*one[:-1], self._on(one[-1])) for one in parts[:-1]]
        starts = [edge[0], *(one[-1] for one in joined)]
        ends = [*joined, parts[-1]]
        return [(start, *part[1:]) for start, part in zip(starts, ends, strict=True)]

    def _on(self, point: Point) -> Point:
        return (self.at, point[1]) if self._x else (point[0], self.at)

    def keeps(self, edge: Edge) -> bool:
        """Tell whether an edge that does not cross the line lies on the side that is kept."""
        return sum(self.across(point) for point in edge) >= -ROUNDING

    def contains(self, edge: Edge) -> bool:
        """Tell whether an edge lies along the line."""
        return all(abs(self.across(point)) <= MIRRORED for point in edge)


def merged_contours(path: Path) -> Iterator[tuple[list[Edge], bool]]:
    """Yield the edges of each contour, merged where one goes straight on, and if it is closed."""
    return ((_merged(edges), closed) for edges, closed in contours(path))


def _merged(edges: Iterable[Edge]) -> list[Edge]:
    """Return edges without those of no length, straight ones that go on straight as one."""
    merged: list[Edge] = []
    for edge in edges:
        if len(edge) == 2 and math.dist(*edge) <= ROUNDING:
            continue
        if merged and _goes_on(merged[-1], edge):
            merged[-1] = (merged[-1][0], edge[1])
        else:
            merged.append(edge)
    if len(merged) > 1 and merged[0][0] == merged[-1][-1] and _goes_on(merged[-1], merged[0]):
        merged[0] = (merged.pop()[0], merged[0][1])
    return merged


def _goes_on(one: Edge, other: Edge) -> bool:
    """Tell whether a straight edge goes on in the other, straight and forwards."""
    if len(one) != 2 or len(other) != 2:
        return False
    (ax, ay), (bx, by) = one
    cx, cy = other[1]
    long = math.dist(one[0], other[1])
    off = abs((bx - ax) * (cy - ay) - (by - ay) * (cx - ax))
    forwards = (bx - ax) * (cx - bx) + (by - ay) * (cy - by) > 0
    return forwards and off <= ROUNDING * max(long, 1.0)


def mirrored_edges(groups: Iterable[Sequence[Edge]], mirror: Mirror) -> bool:
    """Tell whether the edges of every group are, together, their own mirror image.

    Edge by edge, to within the tolerance MIRRORED.
    """
    return all(is_same(edges, edges, mirror.transform) for edges in groups)


def edges_of(paths: Iterable[Path]) -> list[Edge]:
    """Return every line and cubic of some paths."""
    return [edge for path in paths for edges, _ in merged_contours(path) for edge in edges]


def is_same(some: Sequence[Edge], others: Sequence[Edge], transform: Transform) -> bool:
    """Tell whether each of some edges, mapped, is among the others, drawn either way."""
    cells: dict[tuple[int, int], list[Edge]] = defaultdict(list)
    for edge in others:
        cells[_cell(edge)].append(edge)
    mapped = (tuple(transform.transformPoints(edge)) for edge in some)
    return all(
        any(_alike(edge, other) for cell in _around(_cell(edge)) for other in cells.get(cell, ()))
        for edge in mapped
    )


def _around(cell: tuple[int, int]) -> Iterator[tuple[int, int]]:
    """Yield a cell and those beside it, itself first: most often it has what is looked for."""
    x, y = cell
    return ((x + dx, y + dy) for dx in (0, -1, 1) for dy in (0, -1, 1))


def _cell(edge: Edge) -> tuple[int, int]:
    x = sum(point[0] for point in edge) / len(edge)
    y = sum(point[1] for point in edge) / len(edge)
    return math.floor(x / _CELL), math.floor(y / _CELL)


def _alike(one: Edge, other: Edge) -> bool:
    if len(one) != len(other):
        return False
    return any(
        all(math.dist(a, b) <= MIRRORED for a, b in zip(one, way, strict=True))
        for way in (other, other[::-1])
    )


def half_of(path: Path, mirror: Mirror) -> Path:
    """Return what of the lines of a path lies on the kept side of a mirror line, or on it."""
    commands: list[Command] = []
    for edges, closed in merged_contours(path):
        chains = _chains(edges, mirror)
        whole = (
            closed
            and len(chains) == 1
            and len(chains[0]) == sum(len(mirror.split(edge)) for edge in edges)
        )
        for chain in chains:
            commands += _drawn(chain, closed=whole)
    return Path(tuple(commands))


def half_outline(path: Path, mirror: Mirror) -> Path:
    """Return the closed edge of what of an area lies on the kept side of a mirror line.

    Raises GeometryError where the line runs along the edge.
    """
    commands: list[Command] = []
    loose: list[list[Edge]] = []
    for edges, _ in merged_contours(path):
        if any(mirror.contains(edge) for edge in edges):
            raise GeometryError("the mirror line runs along the edge")
        chains = _chains(edges, mirror)
        for chain in chains:
            if math.dist(chain[0][0], chain[-1][-1]) <= ROUNDING:
                commands += _drawn(chain, closed=True)
            else:
                loose.append(chain)
    for ring in _rings(loose, mirror):
        commands += _drawn(ring, closed=True)
    return Path(tuple(commands))


def _chains(edges: Iterable[Edge], mirror: Mirror) -> list[list[Edge]]:
    """Return the kept parts of a contour, those that follow each other in one chain."""
    chains: list[list[Edge]] = []
    for edge in (each for whole in edges for each in mirror.split(whole) if mirror.keeps(each)):
        if chains and _meet(chains[-1][-1], edge):
            chains[-1].append(edge)
        else:
            chains.append([edge])
    if len(chains) > 1 and _meet(chains[-1][-1], chains[0][0]):
        chains[0] = chains.pop() + chains[0]
    return chains


def _meet(one: Edge, other: Edge) -> bool:
    """Tell whether an edge starts where one ends: of a closed contour, but for rounding."""
    return math.dist(one[-1], other[0]) <= ROUNDING


def _rings(chains: Sequence[list[Edge]], mirror: Mirror) -> Iterator[list[Edge]]:
    """Close chains that end on the line along it: inside the area lie 1 to 2, 3 to 4 and so on."""
    ends = sorted(
        [
            (mirror.along(point), index, is_end)
            for index, chain in enumerate(chains)
            for point, is_end in ((chain[0][0], False), (chain[-1][-1], True))
        ]
    )
    partner = {}
    for one, other in zip(ends[::2], ends[1::2], strict=True):
        partner[one[1:]], partner[other[1:]] = other[1:], one[1:]
    left = set(range(len(chains)))
    while left:
        start = min(left)
        ring: list[Edge] = []
        index, is_start = start, True
        while index in left:
            left.remove(index)
            ring += chains[index] if is_start else _turned(chains[index])
            index, is_end = partner[index, is_start]
            is_start = not is_end
        yield _bridged(ring)


def _turned(chain: Iterable[Edge]) -> list[Edge]:
    return [edge[::-1] for edge in reversed(list(chain))]


def _bridged(ring: Sequence[Edge]) -> list[Edge]:
    """Return edges with a straight one wherever the next does not start at the end of the last."""
    bridged = [ring[0]]
    for one, other in pairwise(ring):
        if one[-1] != other[0]:
            bridged.append((one[-1], other[0]))
        bridged.append(other)
    return bridged


def _drawn(chain: Sequence[Edge], *, closed: bool) -> Iterator[Command]:
    yield "moveTo", (chain[0][0],)
    for edge in chain:
        yield ("lineTo" if len(edge) == 2 else "curveTo"), edge[1:]
    yield ("closePath" if closed else "endPath"), ()
