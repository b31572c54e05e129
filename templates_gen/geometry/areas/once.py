"""Lines that lie on each other, drawn once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence

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

_Numbers = npt.NDArray[np.float64]


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


def _on_each_other(segments: _Numbers, owners: npt.NDArray[np.int64]) -> npt.NDArray[np.int64]:
    """Return the pairs of straight lines that run on each other, that of the earlier path first."""
    if not len(segments):
        return np.empty((0, 2), dtype=np.int64)
    made = as_lines(segments)
    pairs: npt.NDArray[np.int64] = shapely.STRtree(made).query(made, "dwithin", distance=ON).T
    pairs = pairs[owners[pairs[:, 0]] < owners[pairs[:, 1]]]
    one, other = segments[pairs[:, 0]], segments[pairs[:, 1]]
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
    whole = np.abs(off).max(axis=1) < 2 * ON
    parting = (apart.max(axis=1) < ON) & (np.abs(steep) < PARALLEL)
    kept: npt.NDArray[np.int64] = pairs[(common >= least) & (whole | parting)]
    return kept
