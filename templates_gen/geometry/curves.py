"""Curves given by a formula, as cubics."""

from __future__ import annotations

import math
from collections.abc import Callable

from templates_gen.geometry.box import Point
from templates_gen.geometry.path import Command, Path
from templates_gen.geometry.roots import halved

Curve = Callable[[float], Point]
"""Height and slope of a curve at a place along it."""


def graph(curve: Curve, start: float, end: float, pieces: int) -> Path:
    """Return the graph of ``curve`` from ``start`` to ``end`` as ``pieces`` cubics.

    Each cubic has the curve's heights and slopes at its ends (Hermite); over a segment h it leaves
    the curve by at most h^4 / 384 times its fourth derivative.
    """
    step = (end - start) / pieces
    height, slope = curve(start)
    commands: list[Command] = [("moveTo", ((start, height),))]
    for index in range(pieces):
        x0, x1 = start + index * step, start + (index + 1) * step
        after, slope_after = curve(x1)
        handles = (
            (x0 + step / 3, height + slope * step / 3),
            (x1 - step / 3, after - slope_after * step / 3),
        )
        commands.append(("curveTo", (*handles, (x1, after))))
        height, slope = after, slope_after
    return Path((*commands, ("endPath", ())))


class Catenary:
    """A string that hangs between two points of one height, ``span`` mm apart, by ``sag`` mm.

    Its height over the lowest point is a (cosh(x / a) - 1), its length 2 a sinh(span / 2a)
    (MathWorld, "Catenary"). Laid against a side it keeps this form in side coordinates: what the
    side pushes back has no part along the side.
    """

    def __init__(self, span: float, sag: float) -> None:
        self.span = span
        self.sag = sag
        self._half = _half_turn(sag / span)
        self.parameter = span / 2 / self._half

    @property
    def length(self) -> float:
        """The length of the string, mm."""
        return 2 * self.parameter * math.sinh(self._half)

    def path(self) -> Path:
        """Return the string hung up at 0 and ``span``, v down from there."""
        a, middle = self.parameter, self.span / 2
        pieces = 8 * math.ceil(self._half) + 8

        def curve(x: float) -> Point:
            t = (x - middle) / a
            return self.sag - 2 * a * math.sinh(t / 2) ** 2, -math.sinh(t)

        return graph(curve, 0.0, self.span, pieces)


def _half_turn(share: float) -> float:
    """Return t = span / 2a of the string whose sag is ``share`` of its span, by bisection.

    sag / span = (cosh t - 1) / 2t = sinh(t/2)^2 / t, which rises with t.
    """

    def is_low(half: float) -> bool:
        return math.sinh(half / 2) ** 2 / half < share

    high = 1.0
    while is_low(high):
        high *= 2
    return halved(is_low, 0.0, high)[1]
