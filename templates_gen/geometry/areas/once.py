"""Lines that lie on each other, drawn once."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from itertools import chain, pairwise

import numpy as np
import numpy.typing as npt
import shapely

from templates_gen.geometry.areas.lines import as_lines
from templates_gen.geometry.areas.segments import Indices, Numbers, Segments
from templates_gen.geometry.box import Span, gaps
from templates_gen.geometry.path import Edge, Path, contour, part, together
from templates_gen.geometry.tolerances import ROUNDING, SAMPLING

ON = 0.05
"""Lines nearer to each other lie on each other, mm: less than half the finest line."""
LEAST = 0.2
"""What lines have in common over less length only cross or touch, mm."""
PARALLEL = 0.01
"""Lines that part by less to a mm are one for as long as they lie on each other."""

AT_ONCE = 2000
"""Straight lines that are held against all others in one lot: it bounds the memory."""


def drawn_once(paths: Sequence[Path]) -> list[Path]:
    """Return the lines of paths, each without the parts that lie on a path before it.

    What no path before it lies on comes back untouched.
    """
    sampled = Segments.of(paths, meeting=ON)
    segments, owners = sampled.ends, sampled.owners
    if not len(segments):
        return list(paths)
    tree = shapely.STRtree(as_lines(segments))
    upper, lower = _on_each_other(segments, owners, tree).T
    near = _near_to(segments, owners, tree, upper, owners[lower])
    spans = defaultdict[int, list[Span]](list)
    for index, span in zip(near[:, 1].tolist(), _covered(segments, near), strict=True):
        if span[0] <= span[1]:
            spans[index].append(span)
    parts = _parts(sampled, _cut(sampled, spans), set(owners[lower].tolist()))
    return [together(parts[at]) if at in parts else path for at, path in enumerate(paths)]


def _cut(sampled: Segments, spans: Mapping[int, Sequence[Span]]) -> dict[int, list[Edge]]:
    """Return by its number what the spans leave of each edge that they cover a part of."""
    edges = list(chain.from_iterable(own for _, own, _ in sampled.contours))
    found = {}
    for number in sorted(set(sampled.edges[list(spans)].tolist())):
        first, end = np.searchsorted(sampled.edges, (number, number + 1)).tolist()
        count = end - first
        covered = (
            ((index - first + low) / count, (index - first + high) / count)
            for index in range(first, end)
            for low, high in spans.get(index, ())
        )
        left = (part(edges[number], *span) for span in gaps(0.0, 1.0, covered))
        found[number] = [edge for edge in left if _length([edge]) > ROUNDING]
    return found


def _parts(
    sampled: Segments, cut: Mapping[int, Sequence[Edge]], owners: Container[int]
) -> dict[int, list[Path]]:
    """Return the contours of some paths with what is left of the edges that were cut."""
    found = defaultdict[int, list[Path]](list)
    end = 0
    for owner, edges, is_closed in sampled.contours:
        numbers = range(end, end := end + len(edges))
        if owner not in owners:
            continue
        if not any(number in cut for number in numbers):
            found[owner].append(contour(edges, closed=is_closed))
            continue
        left = (cut.get(number, (edge,)) for number, edge in zip(numbers, edges, strict=True))
        runs = _runs(chain.from_iterable(left), is_closed)
        found[owner] += [contour(run) for run in runs if _length(run) > SAMPLING]
    return found


def _runs(edges: Iterable[Edge], is_closed: bool) -> list[list[Edge]]:
    """Return edges that follow each other; those on both sides of a closed seam do too."""
    runs = list[list[Edge]]()
    for edge in edges:
        if runs and math.dist(runs[-1][-1][-1], edge[0]) <= ROUNDING:
            runs[-1].append(edge)
        else:
            runs.append([edge])
    if is_closed and len(runs) > 1 and math.dist(runs[-1][-1][-1], runs[0][0][0]) <= ROUNDING:
        runs[0] = runs.pop() + runs[0]
    return runs


def _length(run: Iterable[Edge]) -> float:
    """Return the length of edges, mm, no less than it is: that over their controls."""
    return sum(math.dist(a, b) for edge in run for a, b in pairwise(edge))


def _near_to(
    segments: Numbers, owners: Indices, tree: shapely.STRtree, upper: Indices, owner: Indices
) -> Indices:
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


def _covered(segments: Numbers, pairs: Indices) -> list[Span]:
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


def _in_disc(centre: Numbers, start: Numbers, end: Numbers) -> Numbers:
    """Return from where to where lines are at most ``ON`` from a point, 2 by n, or not numbers."""
    way, off = end - start, start - centre
    square, half = _dot(way, way), _dot(way, off)
    with np.errstate(divide="ignore", invalid="ignore"):
        root = np.sqrt(half**2 - square * (_dot(off, off) - ON**2))
        return np.stack([-half - root, -half + root]) / square


def _in_rectangle(a: Numbers, b: Numbers, start: Numbers, end: Numbers) -> Numbers:
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
    found: Numbers = np.stack([np.fmax(*spans)[0], np.fmin(*spans)[1]])
    return found


def _on_each_other(segments: Numbers, owners: Indices, tree: shapely.STRtree) -> Indices:
    """Return the pairs of straight lines that run on each other, that of the earlier path first."""
    found = []
    for pairs in _near_pairs(segments, tree, np.arange(len(segments))):
        pairs = pairs[owners[pairs[:, 0]] < owners[pairs[:, 1]]]
        found.append(pairs[_overlap(segments[pairs[:, 0]], segments[pairs[:, 1]])])
    pairs = np.concatenate(found)
    # this takes long, so it is looked at last
    one, other = (tree.geometries[pairs[:, column]] for column in (0, 1))
    return pairs[shapely.dwithin(one, other, ON)]


def _near_pairs(segments: Numbers, tree: shapely.STRtree, chosen: Indices) -> Iterator[Indices]:
    """Yield in lots the pairs of chosen straight lines and others whose boxes come near."""
    for start in range(0, len(chosen), AT_ONCE):
        lot = chosen[start : start + AT_ONCE]
        of_lot, near = tree.query(_boxes(segments[lot]))
        yield np.stack([lot[of_lot], near], axis=1)


def _boxes(segments: Numbers) -> npt.NDArray[np.object_]:
    """Return the boxes of what is at most ``ON`` from straight lines."""
    low, high = segments.min(axis=1) - ON, segments.max(axis=1) + ON
    return np.asarray(shapely.box(*low.T, *high.T))


def _dot(one: Numbers, other: Numbers) -> Numbers:
    found: Numbers = np.einsum("ni,ni->n", one, other)
    return found


def _overlap(one: Numbers, other: Numbers) -> npt.NDArray[np.bool_]:
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
