"""Where a function has a value: by halving an interval, and by chords."""

from __future__ import annotations

from collections.abc import Callable

from templates_gen.geometry.box import Point, Span

_MOST_STEPS = 72


def halved(is_low: Callable[[float], bool], low: float, high: float, within: float = 0.0) -> Span:
    """Return the largest number found low and the smallest found not to be.

    From ``low`` to ``high`` numbers change from low to not low once. The two returned are at most
    ``within`` apart, by default next to each other.
    """
    while high - low > within and (middle := (low + high) / 2) not in (low, high):
        low, high = (middle, high) if is_low(middle) else (low, middle)
    return low, high


def zero_between(value: Callable[[float], float], one: Point, other: Point, close: float) -> float:
    """Return where a function is 0, but for ``close``, between two numbers with their values.

    By the Illinois method: Dowell and Jarratt, "A modified regula falsi method" (BIT 11, 1971): the
    chord of two values of different signs; where one end stays a second time, half its value is
    taken for it.
    """
    for _ in range(_MOST_STEPS):
        at = (one[0] * other[1] - other[0] * one[1]) / (other[1] - one[1])
        found = value(at)
        if abs(found) < close or at in (one[0], other[0]):
            return at
        one = other if found * other[1] < 0 else (one[0], one[1] / 2)
        other = at, found
    return other[0]
