"""Rhythms: how the lengths of drips follow each other round a tier. One function and one line each.

A rhythm gives one share a drip, from 0 (the shortest) to 1 (the longest), in order round the tier
from the front. Each closes: the last share leads on to the first.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Protocol

from templates_gen.errors import Problem

USUAL_WAVES = 5


class Asked(Protocol):
    """What the decorator asked of a rhythm: the drips of the cake file, as far as it heeds them."""

    @property
    def waves(self) -> int | None:
        """How often a wave rises and falls, if that was said."""
        ...

    @property
    def seed(self) -> int:
        """Which of all scatters."""
        ...


def even(count: int, asked: Asked) -> list[float]:
    """All drips the longest."""
    return [1.0] * count


def alternate(count: int, asked: Asked) -> list[float]:
    """Long and short by turns, long at the front; ``count`` is even."""
    return [1.0 - index % 2 for index in range(count)]


def wave(count: int, asked: Asked) -> list[float]:
    """Rise and fall round the tier, longest at the front."""
    waves = asked.waves or min(USUAL_WAVES, _most_waves(count))
    return [(1 + math.cos(math.tau * waves * index / count)) / 2 for index in range(count)]


def scatter(count: int, asked: Asked) -> list[float]:
    """Unequal lengths, the same ones for the same seed."""
    draw = random.Random(asked.seed)
    return [draw.random() for _ in range(count)]


def _most_waves(count: int) -> int:
    """Return how many waves ``count`` drips can show: each takes a long and a short one."""
    return max(1, count // 2)


def _too_many_waves(count: int, asked: Asked) -> Iterator[Problem]:
    most = _most_waves(count)
    if asked.waves is not None and asked.waves > most:
        yield Problem(
            ("waves",),
            f"{asked.waves} waves on {count} drips",
            f"1 to {most}: a wave takes a long drip and a short one",
            "ask for fewer waves, or for drips closer together",
        )


def _nothing(count: int, asked: Asked) -> Iterator[Problem]:
    yield from ()


@dataclass(frozen=True, slots=True)
class Rhythm:
    """A rhythm: the share of each drip, and what it takes to close.

    The count of drips must divide by ``multiple``. ``heeds`` names the keys of the drips that it
    makes use of and others do not. ``problems`` says, at those keys, what it cannot do.
    """

    share_out: Callable[[int, Asked], list[float]]
    multiple: int = 1
    heeds: tuple[str, ...] = ()
    problems: Callable[[int, Asked], Iterator[Problem]] = _nothing


RHYTHMS = {
    "even": Rhythm(even),
    "alternate": Rhythm(alternate, multiple=2, heeds=("shortest",)),
    "wave": Rhythm(wave, heeds=("shortest", "waves"), problems=_too_many_waves),
    "scatter": Rhythm(scatter, heeds=("shortest", "seed")),
}
