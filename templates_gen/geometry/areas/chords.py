"""Parts of lines that are nearly straight, where words can stand along them."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString

from templates_gen.geometry.areas.lines import Line
from templates_gen.geometry.box import Box, Point


@dataclass(frozen=True, slots=True)
class Chord:
    """The chord of a part of a line: its ends, and how far the part bows to either side, mm.

    ``far`` is how far its middle lies from that of the whole line, along it.
    """

    start: Point
    end: Point
    left: float
    right: float
    far: float


def chords(
    lines: Sequence[Line], box: Box, long: float, step: float, bow: float
) -> list[list[Chord]]:
    """Return the chords of parts of lines in a box, each ``long`` mm long and ``step`` mm apart.

    Those that bow by more than ``bow`` mm are left out.
    """
    inside = shapely.line_merge(shapely.clip_by_rect(lines, *box))
    parts, owners = shapely.get_parts(inside, return_index=True)
    spares = shapely.length(parts) - long
    found: list[list[Chord]] = [[] for _ in lines]
    for each in np.flatnonzero(spares >= 0):
        found[owners[each]] += _along(parts[each], float(spares[each]), long, step, bow)
    return found


def _along(line: LineString, spare: float, long: float, step: float, bow: float) -> Iterator[Chord]:
    """Yield the chords of one line, which is ``spare`` mm longer than each part."""
    count = max(1, math.floor(spare / step) + 1)
    starts = (spare - (count - 1) * step) / 2 + np.arange(count) * step
    places = starts[:, None] + np.linspace(0.0, long, 5)
    points = shapely.get_coordinates(shapely.line_interpolate_point(line, places.ravel()))
    points = points.reshape(count, 5, 2)
    chord = points[:, 4] - points[:, 0]
    length = np.hypot(*chord.T)
    straight = length > long * 0.9
    with np.errstate(divide="ignore", invalid="ignore"):
        side = chord[:, ::-1] * (-1, 1) / length[:, None]
        off = np.einsum("nij,nj->ni", points - points[:, :1], side)
    left, right = off.max(axis=1), -off.min(axis=1)
    for index in np.flatnonzero(straight & (np.maximum(left, right) < bow)):
        (x0, y0), (x1, y1) = points[index, [0, 4]].tolist()
        far = abs(float(starts[index]) - spare / 2)
        yield Chord((x0, y0), (x1, y1), float(left[index]), float(right[index]), far)
