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
    segments, owners = owned_segments([sampled_lines(path) for path in paths])
    upper, lower = _on_each_other(segments, owners).T
    near = _near_to(segments, owners, upper, owners[lower])
    spans: dict[int, list[_Span]] = defaultdict(list)
    for place, span in zip(near[:, 1].tolist(), _covered(segments, near), strict=True):
        spans[place].append(span)
    found = list(paths)
    for owner in np.unique(owners[lower]).tolist():
        places = np.flatnonzero(owners == owner).tolist()
        left = [part for place in places for part in _left(segments[place], spans[place])]
        found[owner] = merged(MultiLineString(as_lines(np.array(left).reshape(-1, 2, 2))))
    return found


def _near_to(segments: _Numbers, owners: _Indices, upper: _Indices, owner: _Indices) -> _Indices:
    """Return pairs of near straight lines: each of ``upper``, and any of the ``owner`` beside it.

    A straight line may lie on several of a curve, on one of them over too little to be noticed.
    """
    wanted = np.unique(np.stack([owner, upper]), axis=1)
    found = [np.empty((0, 2), dtype=np.int64)]
    for path in np.unique(owner).tolist():
        chosen, places = wanted[1][wanted[0] == path], np.flatnonzero(owners == path)
        tree = shapely.STRtree(_made(segments[places]))
        over, under = tree.query(_boxes(segments[chosen]))
        found.append(np.stack([chosen[over], places[under]], axis=1))
    return np.concatenate(found)


_Span = tuple[float, float]
"""From where to where a straight line is covered, in lengths of it; nothing if that is less."""


def _covered(segments: _Numbers, pairs: _Indices) -> list[_Span]:
    """Return for each pair which stretch of the second line is at most ``ON`` from the first.

    What is so near a straight line is a rectangle with a disc at each end. It is convex, so the
    stretch runs from the first to the last place that lies in any of the three.
    """
    (a, b), (start, end) = (segments[pairs[:, place]].swapaxes(0, 1) for place in (0, 1))
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


def _left(segment: _Numbers, spans: Sequence[_Span]) -> Iterator[_Numbers]:
    """Yield the parts of a straight line that none of the spans covers."""
    start, way = segment[0], segment[1] - segment[0]
    done = 0.0
    for first, last in sorted(span for span in spans if span[0] <= span[1]):
        if first > done:
            yield np.array([start + done * way, start + min(first, 1.0) * way])
        done = max(done, last)
    if done < 1.0:
        yield np.array([start + done * way, segment[1]])


def _on_each_other(segments: _Numbers, owners: _Indices) -> _Indices:
    """Return the pairs of straight lines that run on each other, that of the earlier path first."""
    if not len(segments):
        return np.empty((0, 2), dtype=np.int64)
    made = _made(segments)
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
    for start in range(0, len(segments), AT_ONCE):
        pairs = tree.query(_boxes(segments[start : start + AT_ONCE])).T
        yield np.add(pairs, (start, 0))


def _made(segments: _Numbers) -> npt.NDArray[np.object_]:
    """Return straight lines as those of shapely."""
    return np.atleast_1d(np.asarray(shapely.linestrings(segments)))


def _boxes(segments: _Numbers) -> npt.NDArray[np.object_]:
    """Return the boxes of what is at most ``ON`` from straight lines."""
    low, high = segments.min(axis=1) - ON, segments.max(axis=1) + ON
    return np.atleast_1d(np.asarray(shapely.box(*low.T, *high.T)))


def _dot(one: _Numbers, other: _Numbers) -> _Numbers:
    found: _Numbers = np.einsum("ni,ni->n", one, other)
    return found


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
