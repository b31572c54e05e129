"""Rhythms: how the lengths of drips follow each other round a tier. One function and one line each.

A rhythm gives one share a drip, from 0 (the shortest) to 1 (the longest), in order round the tier
from the front. Each closes: the last share leads on to the first.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from dataclasses import dataclass


def even(count: int, waves: int, seed: int) -> list[float]:
    """All drips the longest."""
    return [1.0] * count


def alternate(count: int, waves: int, seed: int) -> list[float]:
    """Long and short by turns, long at the front; ``count`` is even."""
    return [1.0 - index % 2 for index in range(count)]


def wave(count: int, waves: int, seed: int) -> list[float]:
    """Rise and fall ``waves`` times round the tier, longest at the front."""
    return [(1 + math.cos(math.tau * waves * index / count)) / 2 for index in range(count)]


def scatter(count: int, waves: int, seed: int) -> list[float]:
    """Unequal lengths, the same ones for the same seed."""
    draw = random.Random(seed)
    return [draw.random() for _ in range(count)]


@dataclass(frozen=True, slots=True)
class Rhythm:
    """A rhythm: its shares, and the number that the count of drips must divide by to close."""

    shares: Callable[[int, int, int], list[float]]
    multiple: int = 1


RHYTHMS = {
    "even": Rhythm(even),
    "alternate": Rhythm(alternate, multiple=2),
    "wave": Rhythm(wave),
    "scatter": Rhythm(scatter),
}
