"""Shapes with flat sides: square, rectangle and regular polygons, with sharp or rounded corners."""

from __future__ import annotations

import math

from templates_gen.geometry.outline import Bend, Outline, starting_at_back


def rectangle(size: float, short: float, corner: float = 0.0) -> Outline:
    """Return a rectangle ``size`` mm from left to right and ``short`` from front to back.

    ``corner`` is the radius of its corners, up to half the shorter side.
    """
    turn = Bend(corner * math.pi / 2, math.pi / 2, corner=True)
    wide, deep = Bend(size - 2 * corner, 0.0), Bend(short - 2 * corner, 0.0)
    bends = (wide, turn, deep, turn, wide, turn, deep, turn)
    # from the right end of the back, leftwards
    return starting_at_back((size / 2 - corner, short / 2), math.pi, bends)


def square(size: float, corner: float = 0.0) -> Outline:
    """Return a square of side ``size`` mm."""
    return rectangle(size, size, corner)


def polygon(size: float, sides: int, corner: float = 0.0) -> Outline:
    """Return a regular polygon ``size`` mm across flats, with a flat side at the front.

    Across flats is twice the distance of a side from the middle, for odd numbers of sides too.
    """
    inside = size / 2
    exterior = math.tau / sides
    flat = 2 * (inside - corner) * math.tan(exterior / 2)
    turn = Bend(corner * exterior, exterior, corner=True)
    # along the front, to the right as seen from above
    start = (-flat / 2, -inside)
    return starting_at_back(start, 0.0, (Bend(flat, 0.0), turn) * sides)
