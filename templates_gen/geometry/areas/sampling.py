"""Curves as points, to a stated tolerance."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from fontTools.misc.bezierTools import cubicPointAtT

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Path
from templates_gen.geometry.tolerances import ROUNDING, SAMPLING

NEEDED = 6 / 8
"""A cubic of n equal steps is off by at most |second derivative| / (8 n^2), and that derivative is
at most 6 max(|a - 2b + c|, |b - 2c + d|)."""


def _cubic_points(a: Point, curve: tuple[Point, ...], tolerance: float) -> list[Point]:
    """Sample the cubic from ``a`` over two control points to its end, without its start."""
    b, c, d = curve
    bend = max(
        math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]),
        math.hypot(b[0] - 2 * c[0] + d[0], b[1] - 2 * c[1] + d[1]),
    )
    steps = max(1, math.ceil(math.sqrt(NEEDED * bend / tolerance)))
    return [*[cubicPointAtT(a, b, c, d, index / steps) for index in range(1, steps)], d]


def sampled(path: Path, tolerance: float = SAMPLING) -> Iterator[tuple[list[Point], bool]]:
    """Yield each contour as its points (ends included) and whether it is closed."""
    points: list[Point] = []
    for name, args in path.commands:
        if name == "moveTo":
            points = [args[0]]
        elif name == "lineTo":
            points.append(args[0])
        elif name == "curveTo":
            points += _cubic_points(points[-1], args, tolerance)
        else:
            closed = name == "closePath"
            yield (_ring(points) if closed else points), closed


def _ring(points: list[Point]) -> list[Point]:
    """Return points with the first again at the end, once: a last one may be off by rounding."""
    back = len(points) > 1 and math.dist(points[0], points[-1]) < ROUNDING
    return [*(points[:-1] if back else points), points[0]]


def path_length(path: Path) -> float:
    """Return the length of the lines and curves of a path, mm."""
    return sum(
        math.dist(a, b) for points, _ in sampled(path, SAMPLING / 100) for a, b in pairwise(points)
    )


def as_point(place: Sequence[float]) -> Point:
    """Return a coordinate of shapely as a point."""
    return place[0], place[1]


def signed_area(points: Sequence[Point]) -> float:
    """Return the area of a polygon, positive when its points run counter-clockwise."""
    turned = [*points[1:], points[0]] if points else []
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, turned, strict=True)) / 2
