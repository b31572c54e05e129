"""Lines that lie on each other, drawn once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt
import shapely
from shapely import MultiLineString

from templates_gen.geometry.areas.lines import as_lines, merged, owned_segments, sampled_lines
from templates_gen.geometry.path import Path

ON = 0.05
"""Lines nearer to each other lie on each other, mm: less than half the finest line."""
LEAST = 0.2
"""What lines have in common over less length only cross or touch, mm."""
PARALLEL = 0.01
"""Lines that part by less to a mm are one for as long as they lie on each other."""

AT_ONCE = 2000
"""Straight lines that are held against all others in one lot: it bounds the memory."""

_Numbers = npt.NDArray[np.float64]
_Indices = npt.NDArray[np.int64]


def drawn_once(paths: Sequence[Path]) -> list[Path]:
    """Return the lines of paths, each without the stretches that lie on a path before it.

    A path clear of those before it comes back untouched; else its curves are sampled.
    """
    lines = [sampled_lines(path) for path in paths]
    segments, owners = owned_segments(lines)
    pairs = _on_each_other(segments, owners)
    under: dict[int, set[int]] = defaultdict(set)
    for upper, lower in pairs.tolist():
        under[int(owners[lower])].add(upper)
    found = list(paths)
    for owner, uppers in under.items():
        # as one: the buffers of lines that run on would be united one by one
        over = shapely.buffer(MultiLineString(as_lines(segments[sorted(uppers)])), ON)
        found[owner] = merged(shapely.difference(lines[owner], over))
    return found


def _on_each_other(segments: _Numbers, owners: _Indices) -> _Indices:
    """Return the pairs of straight lines that run on each other, that of the earlier path first."""
    if not len(segments):
        return np.empty((0, 2), dtype=np.int64)
    made = np.atleast_1d(np.asarray(shapely.linestrings(segments)))
    found = []
    for pairs in _near_pairs(segments, made):
        pairs = pairs[owners[pairs[:, 0]] < owners[pairs[:, 1]]]
        found.append(pairs[_run_together(segments[pairs[:, 0]], segments[pairs[:, 1]])])
    pairs = np.concatenate(found)
    # this takes long, so it is looked at last
    return pairs[shapely.dwithin(made[pairs[:, 0]], made[pairs[:, 1]], ON)]


def _near_pairs(segments: _Numbers, made: npt.NDArray[np.object_]) -> Iterator[_Indices]:
    """Yield in lots the pairs of straight lines whose boxes come near each other."""
    tree = shapely.STRtree(made)
    low, high = segments.min(axis=1) - ON, segments.max(axis=1) + ON
    for start in range(0, len(segments), AT_ONCE):
        lot = slice(start, start + AT_ONCE)
        pairs = tree.query(np.atleast_1d(shapely.box(*low[lot].T, *high[lot].T))).T
        yield np.add(pairs, (start, 0))


def _run_together(one: _Numbers, other: _Numbers) -> npt.NDArray[np.bool_]:
    """Tell of pairs of straight lines, n by 2 by 2 each, which go the same way for a while."""
    long = np.hypot(*(one[:, 1] - one[:, 0]).T)
    with np.errstate(divide="ignore", invalid="ignore"):
        way = (one[:, 1] - one[:, 0]) / long[:, None]
        along = np.einsum("nij,nj->ni", other - one[:, :1], way)
        off = np.einsum("nij,nj->ni", other - one[:, :1], way[:, ::-1] * (-1, 1))
        start, end = np.maximum(along.min(axis=1), 0.0), np.minimum(along.max(axis=1), long)
        common, steep = end - start, np.diff(off).T[0] / np.diff(along).T[0]
        # how far they are apart where they run beside each other
        apart = np.abs(off[:, :1] + (np.stack([start, end], 1) - along[:, :1]) * steep[:, None])
    # short lines of a sampled curve lie on it as a whole
    least = np.minimum(LEAST, np.minimum(long, np.hypot(*(other[:, 1] - other[:, 0]).T)) * 0.6)
    # a line of no length runs along nothing
    beside = (common > 0) & (common >= least)
    whole = np.abs(off).max(axis=1) < 2 * ON
    parting = (apart.max(axis=1) < ON) & (np.abs(steep) < PARALLEL)
    together: npt.NDArray[np.bool_] = beside & (whole | parting)
    return together
