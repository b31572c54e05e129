"""Stretches of lines that are nearly straight, where words can stand along them."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from templates_gen.geometry.areas.lines import sampled_lines
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of a line: its ends, and how far the line bows to the left and right of them, mm.

    ``far`` is how far its middle lies from that of the whole line, along it.
    """

    start: Point
    end: Point
    left: float
    right: float
    far: float


def stretches(path: Path, box: Box, long: float, step: float, bow: float) -> Iterator[Stretch]:
    """Yield stretches ``long`` mm long of what of a path lies in a box, ``step`` mm apart.

    Those that bow by more than ``bow`` mm are left out.
    """
    shown = shapely.clip_by_rect(sampled_lines(path), *box)
    for line in shapely.get_parts(shapely.line_merge(shown)):
        room = float(line.length) - long
        if room < 0:
            continue
        count = max(1, math.floor(room / step) + 1)
        starts = (room - (count - 1) * step) / 2 + np.arange(count) * step
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
            start, end = points[index, 0], points[index, 4]
            far = abs(float(starts[index]) - room / 2)
            yield Stretch(
                (float(start[0]), float(start[1])),
                (float(end[0]), float(end[1])),
                float(left[index]),
                float(right[index]),
                far,
            )
