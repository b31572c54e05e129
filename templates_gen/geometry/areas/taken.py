"""What of a drawing is taken by lines and words, and what is free."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from copy import copy

import numpy as np
import numpy.typing as npt
import shapely

from templates_gen.geometry.areas.booleans import Area
from templates_gen.geometry.areas.lines import as_lines
from templates_gen.geometry.areas.segments import Segments
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path

Corners = Sequence[Sequence[Point]]
"""Convex polygons of as many corners each."""


class Taken:
    """Lines, and boxes; and where there is one, all that is not ``within`` an area."""

    def __init__(self, lines: Iterable[Path], within: Area | None = None) -> None:
        self._trees: tuple[shapely.STRtree, ...] = (_tree(lines, ()),)
        self._within = within
        if within is not None:
            shapely.prepare(within)

    def also(self, boxes: Iterable[Box], lines: Iterable[Path] = ()) -> Taken:
        """Return it with boxes and more lines; what it has is not looked up again."""
        more = copy(self)
        more._trees = (*self._trees, _tree(lines, boxes))
        return more

    def free(self, shapes: Corners) -> list[bool]:
        """Tell of polygons, in order, which are clear of everything."""
        found: list[bool] = self._clear(np.asarray(shapes)).tolist() if len(shapes) else []
        return found

    def clearances(self, points: Sequence[Point]) -> list[float]:
        """Return how far each point is from the nearest line or box, mm; inf if there is none."""
        at: npt.NDArray[np.object_] = np.asarray(shapely.points(points))
        clearances = np.full(len(at), np.inf)
        for tree in self._trees:
            (which, _), away = tree.query_nearest(at, return_distance=True, all_matches=False)
            clearances[which] = np.minimum(clearances[which], away)
        found: list[float] = clearances.tolist()
        return found

    def free_moves(self, shapes: Corners, moves: Sequence[Point]) -> list[bool]:
        """Tell of moves, in order, which bring all of some polygons clear of everything."""
        if not moves:
            return []
        placed = np.asarray(shapes)[None] + np.asarray(moves)[:, None, None]
        count, each = placed.shape[:2]
        clear = self._clear(placed.reshape(-1, *placed.shape[2:]))
        every = np.atleast_1d(clear.reshape(count, each).all(axis=1))
        return [bool(one) for one in every]

    def _clear(self, corners: npt.NDArray[np.float64]) -> npt.NDArray[np.bool_]:
        polygons: npt.NDArray[np.object_] = np.asarray(shapely.polygons(corners))
        clear = np.ones(len(polygons), dtype=np.bool_)
        for tree in self._trees:
            clear[tree.query(polygons, "intersects")[0]] = False
        if self._within is not None:
            clear &= shapely.covers(self._within, polygons)
        return clear


def _tree(lines: Iterable[Path], boxes: Iterable[Box]) -> shapely.STRtree:
    # straight line by straight line: the box round a curve holds much that is free
    straight = as_lines(Segments.of(lines).ends)
    return shapely.STRtree([*straight, *(shapely.box(*box) for box in boxes)])
