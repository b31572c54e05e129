"""The edges of many paths as straight lines, sampled all at once."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
import shapely

from templates_gen.geometry.areas.sampling import NEEDED
from templates_gen.geometry.path import Edge, Path, contours
from templates_gen.geometry.tolerances import ROUNDING, SAMPLING

Numbers = npt.NDArray[np.float64]
Indices = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Segments:
    """The straight lines of paths, or of some edges of them, in order: ``ends``, n by 2 by 2.

    ``owners`` has the place of the path of each, ``edges`` the number of the edge that it is of:
    they are counted through all ``contours``. Of these there are the place of the path, the edges,
    and whether it is closed.
    """

    contours: Sequence[tuple[int, Sequence[Edge], bool]]
    ends: Numbers
    owners: Indices
    edges: Indices

    @classmethod
    def of(cls, paths: Iterable[Path], meeting: float | None = None) -> Segments:
        """Sample paths; or only their edges whose box comes so near, mm, to one of another path."""
        found = [(at, *each) for at, path in enumerate(paths) for each in _drawn(path)]
        edges = [edge for _, own, _ in found for edge in own]
        lengths = [len(own) for _, own, _ in found]
        owners = np.repeat(np.array([at for at, _, _ in found], dtype=np.int64), lengths)
        # a line is a cubic in one step
        cubics = np.array(
            [edge if len(edge) > 2 else (edge[0], edge[0], edge[1], edge[1]) for edge in edges],
            dtype=np.float64,
        ).reshape(-1, 4, 2)
        counts = np.where([len(edge) > 2 for edge in edges], _steps(cubics), 1)
        if meeting is not None:
            counts[~_met(cubics, owners, meeting)] = 0
        numbers = np.repeat(np.arange(len(edges)), counts)
        return cls(found, _points(cubics, counts, numbers), owners[numbers], numbers)


def _drawn(path: Path) -> Iterator[tuple[Sequence[Edge], bool]]:
    """Yield the edges of each contour and whether it is closed, but none that closes over nothing.

    The last point of a closed one may be off the first by rounding.
    """
    for edges, closed in contours(path):
        nothing = closed and len(edges) > 1 and math.dist(*edges[-1]) < ROUNDING
        yield (edges[:-1] if nothing else edges), closed


def _steps(cubics: Numbers) -> Indices:
    """Return in how many straight lines each cubic is sampled."""
    second = np.diff(cubics, n=2, axis=1)
    bend = np.hypot(second[..., 0], second[..., 1]).max(axis=1, initial=0.0)
    found: Indices = np.maximum(np.ceil(np.sqrt(NEEDED * bend / SAMPLING)), 1).astype(np.int64)
    return found


def _met(cubics: Numbers, owners: Indices, reach: float) -> npt.NDArray[np.bool_]:
    """Tell of each cubic whether the box round it comes near that of one of another owner."""
    low, high = cubics.min(axis=1) - reach / 2, cubics.max(axis=1) + reach / 2
    boxes = np.asarray(shapely.box(*low.T, *high.T))
    one, other = shapely.STRtree(boxes).query(boxes)
    found = np.zeros(len(boxes), dtype=np.bool_)
    found[one[owners[one] != owners[other]]] = True
    return found


def _points(cubics: Numbers, counts: Indices, numbers: Indices) -> Numbers:
    """Return the ends of the straight lines of cubics, each of its number."""
    firsts = np.cumsum(counts) - counts
    step = np.arange(len(numbers)) - firsts[numbers]
    t = np.stack([step, step + 1], axis=1) / counts[numbers, None]
    left = 1 - t
    parts = np.stack([left**3, 3 * left**2 * t, 3 * left * t**2, t**3], axis=2)
    found: Numbers = parts @ cubics[numbers]
    return found
