"""A drawn line read as heights from left to right."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from itertools import pairwise

from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.svg_path import read_path

FINEST = 1e-4
"""How finely a line is sampled, over its width."""


def profile(data: str) -> Callable[[float], float]:
    """Return how low a line of SVG path data is at a share of its width, from 0 to 1 both.

    0 is as high as it gets, 1 as low. Raises GeometryError unless the line is one stroke that goes
    from one side to the other without turning back.
    """
    path = read_path(data)
    contours = list(sampled(path, max(path.bounds.width * FINEST, 1e-9))) if path.commands else []
    if len(contours) != 1:
        raise GeometryError("the line is not one stroke")
    points, closed = contours[0]
    if points[0][0] > points[-1][0]:
        points = points[::-1]
    width = points[-1][0] - points[0][0]
    if closed or width <= 0 or any(b[0] < a[0] - width * 1e-9 for a, b in pairwise(points)):
        raise GeometryError("the line does not go from one side to the other without turning back")
    highest, lowest = max(y for _, y in points), min(y for _, y in points)
    places = [(x - points[0][0]) / width for x, _ in points]
    drops = [(highest - y) / (highest - lowest) if highest > lowest else 1.0 for _, y in points]

    def at(share: float) -> float:
        after = min(max(bisect_right(places, share), 1), len(places) - 1)
        x0, x1, y0, y1 = places[after - 1], places[after], drops[after - 1], drops[after]
        part = (share - x0) / (x1 - x0) if x1 > x0 else 1.0
        return min(1.0, max(0.0, y0 + part * (y1 - y0)))

    return at
