"""Lines that lie on each other, drawn once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

import numpy as np
import numpy.typing as npt
import shapely
from shapely import MultiLineString

from templates_gen.geometry.areas.lines import as_lines, merged, owned_segments
from templates_gen.geometry.box import Span, gaps
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
    """Return the lines of paths, each without the parts that lie on a path before it.

    A path clear of those before it comes back untouched; else its curves are sampled.
    """
    segments, owners = owned_segments(paths)
    found = list(paths)
    if not len(segments):
        return found
    tree = shapely.STRtree(as_lines(segments))
    upper, lower = _on_each_other(segments, owners, tree).T
    near = _near_to(segments, owners, tree, upper, owners[lower])
    spans: dict[int, list[Span]] = defaultdict(list)
    for index, span in zip(near[:, 1].tolist(), _covered(segments, near), strict=True):
        spans[index].append(span)
    for owner in sorted(set(owners[lower].tolist())):
        # the straight lines of a path follow each other
        first, end = np.searchsorted(owners, (owner, owner + 1)).tolist()
        left = [
            _left(segments[index], spans[index]) if index in spans else segments[index, None]
            for index in range(first, end)
        ]
        rest = shapely.multilinestrings(np.concatenate(left))
        assert isinstance(rest, MultiLineString)
        found[owner] = merged(rest)
    return found


def _near_to(
    segments: _Numbers, owners: _Indices, tree: shapely.STRtree, upper: _Indices, owner: _Indices
) -> _Indices:
    """Return pairs of near straight lines: each of ``upper``, and any of the ``owner`` beside it.

    A straight line may lie on several of a curve, on one of them over too little to be noticed.
    """
    # in sets: the first np.unique of a process imports masked arrays, over a megabyte
    wanted = set(zip(upper.tolist(), owner.tolist(), strict=True))
    chosen = np.array(sorted({index for index, _ in wanted}), dtype=np.int64)
    found = []
    for pairs in _near_pairs(segments, tree, chosen):
        met = zip(pairs[:, 0].tolist(), owners[pairs[:, 1]].tolist(), strict=True)
        found.append(pairs[[pair in wanted for pair in met]])
    return np.concatenate(found or [np.empty((0, 2), dtype=np.int64)])


def _covered(segments: _Numbers, pairs: _Indices) -> list[Span]:
    """Return for each pair which part of the second line is at most ``ON`` from the first.

    A part is given in shares of the line; where it ends before it starts there is none.

    What is so near a straight line is a rectangle with a disc at each end. It is convex, so the
    part runs from the first to the last place that lies in any of the three.
    """
    (a, b), (start, end) = (segments[pairs[:, column]].swapaxes(0, 1) for column in (0, 1))
    parts = np.stack([_in_rectangle(a, b, start, end), *(_in_disc(c, start, end) for c in (a, b))])
    first, last = parts[:, 0], parts[:, 1]
    none = ~(first <= last)
    first, last = (
        np.where(none, np.inf, first).min(axis=0),
        np.where(none, -np.inf, last).max(axis=0),
    )
    return list(zip(first.tolist(), last.tolist(), strict=True))


def _in_disc(centre: _Numbers, start: _Numbers, end: _Numbers) -> _Numbers:
    """Return from where to where lines are at most ``ON`` from a point, 2 by n, or not numbers."""
    way, off = end - start, start - centre
    square, half = _dot(way, way), _dot(way, off)
    with np.errstate(divide="ignore", invalid="ignore"):
        root = np.sqrt(half**2 - square * (_dot(off, off) - ON**2))
        return np.stack([-half - root, -half + root]) / square


def _in_rectangle(a: _Numbers, b: _Numbers, start: _Numbers, end: _Numbers) -> _Numbers:
    """Return from where to where lines are beside the line from a to b, at most ``ON`` from it."""
    along, way, off = b - a, end - start, start - a
    across = along[:, ::-1] * (-1, 1)
    long = _dot(along, along)
    spans = []
    for axis, least, most in (
        (along, 0 * long, long),
        (across, -ON * np.sqrt(long), ON * np.sqrt(long)),
    ):
        at, rate = _dot(off, axis), _dot(way, axis)
        with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
            spans.append(np.sort([(least - at) / rate, (most - at) / rate], axis=0))
    found: _Numbers = np.stack([np.fmax(*spans)[0], np.fmin(*spans)[1]])
    return found


def _left(segment: _Numbers, spans: Sequence[Span]) -> _Numbers:
    """Return the parts of a straight line that none of the spans covers, n by 2 by 2."""
    ends = gaps(0.0, 1.0, (span for span in spans if span[0] <= span[1]))
    shares = np.array(list(ends)).reshape(-1, 2, 1)
    # so that its own ends stay as they are, to the last digit
    found: _Numbers = (1 - shares) * segment[0] + shares * segment[1]
    return found


def _on_each_other(segments: _Numbers, owners: _Indices, tree: shapely.STRtree) -> _Indices:
    """Return the pairs of straight lines that run on each other, that of the earlier path first."""
    found = []
    for pairs in _near_pairs(segments, tree, np.arange(len(segments))):
        pairs = pairs[owners[pairs[:, 0]] < owners[pairs[:, 1]]]
        found.append(pairs[_overlap(segments[pairs[:, 0]], segments[pairs[:, 1]])])
    pairs = np.concatenate(found)
    # this takes long, so it is looked at last
    one, other = (tree.geometries[pairs[:, column]] for column in (0, 1))
    return pairs[shapely.dwithin(one, other, ON)]


def _near_pairs(segments: _Numbers, tree: shapely.STRtree, chosen: _Indices) -> Iterator[_Indices]:
    """Yield in lots the pairs of chosen straight lines and others whose boxes come near."""
    for start in range(0, len(chosen), AT_ONCE):
        lot = chosen[start : start + AT_ONCE]
        of_lot, near = tree.query(_boxes(segments[lot]))
        yield np.stack([lot[of_lot], near], axis=1)


def _boxes(segments: _Numbers) -> npt.NDArray[np.object_]:
    """Return the boxes of what is at most ``ON`` from straight lines."""
    low, high = segments.min(axis=1) - ON, segments.max(axis=1) + ON
    return np.asarray(shapely.box(*low.T, *high.T))


def _dot(one: _Numbers, other: _Numbers) -> _Numbers:
    found: _Numbers = np.einsum("ni,ni->n", one, other)
    return found


def _overlap(one: _Numbers, other: _Numbers) -> npt.NDArray[np.bool_]:
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
    overlap: npt.NDArray[np.bool_] = beside & (whole | parting)
    return overlap
