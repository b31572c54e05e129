"""Arcs and circles as cubics."""

from __future__ import annotations

import math

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Command, Path

CIRCLE_CUBICS = 8
"""Cubics to a full circle: the radial error stays under 5e-6 of the radius."""


def arc_cubics(
    centre: Point, radius: float, start: float, sweep: float, cubics: int = CIRCLE_CUBICS
) -> tuple[Command, ...]:
    """Return the cubics of an arc from the angle ``start`` over ``sweep``, radians, no moveTo.

    A full circle has as many ``cubics``. Handle length 4/3 tan(angle / 4) of the radius,
    which puts the middle of each cubic exactly on the circle.
    """
    pieces = max(1, math.ceil(abs(sweep) / math.tau * cubics - 1e-9))
    step = sweep / pieces
    handle = 4 / 3 * math.tan(step / 4) * radius
    cx, cy = centre
    commands: list[Command] = []
    for index in range(pieces):
        a, b = start + index * step, start + (index + 1) * step
        ax, ay, bx, by = math.cos(a), math.sin(a), math.cos(b), math.sin(b)
        commands.append(
            (
                "curveTo",
                (
                    (cx + radius * ax - handle * ay, cy + radius * ay + handle * ax),
                    (cx + radius * bx + handle * by, cy + radius * by - handle * bx),
                    (cx + radius * bx, cy + radius * by),
                ),
            )
        )
    return tuple(commands)


def circle(centre: Point, radius: float, start: float = 0.0) -> Path:
    """Return a full circle, counter-clockwise from the angle ``start`` (radians)."""
    begin = (centre[0] + radius * math.cos(start), centre[1] + radius * math.sin(start))
    cubics = arc_cubics(centre, radius, start, math.tau)
    return Path((("moveTo", (begin,)), *cubics, ("closePath", ())))
