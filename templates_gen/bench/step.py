"""A step of the work: what it is, how long it takes, how long it waits, what comes before it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from templates_gen.cakefile.work import Work

DAY = 24.0
"""Hours."""
SLOWLY = "bake slowly"
"""The stage after which a cake is in the oven for as long as it waits."""
IN_OVEN = ("bake", SLOWLY)
"""Stages that need the oven, which holds one bake at a time."""
NO_RAW_EGG = "Make royal icing with meringue powder or dried egg white, never with raw egg."
SOFT_DRIPS, ROYAL_DRIPS = "drips", "royal icing drips"
"""The stages of drips: of ganache or icing that may be chilled, of royal icing that may not."""
Place = Literal["kitchen", "on the day"]


@dataclass(frozen=True, slots=True)
class Step:
    """Something to do: for which tier, in words, minutes of work, of which ``stage``.

    It comes ``after`` steps that have waited, and ``follows`` others at once. Steps of one stage
    are alike and wait as long after it, if the step ``waits`` at all: ``wait`` hours, known when
    the steps are gathered. For so many of these as ``oven`` says it is in the oven, with someone
    near who does other work. Done more than ``keeps`` hours before the cake is ready it is too
    early. ``pieces`` are the ids of the templates that it takes. A ``bake`` says which of how many
    of its tier it is.
    """

    name: str
    tier: str
    words: str
    minutes: int
    stage: str = ""
    keeps: float | None = None
    place: Place = "kitchen"
    caution: str = ""
    pieces: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    follows: tuple[str, ...] = ()
    waits: bool = True
    wait: float = 0.0
    oven: float = 0.0
    bake: tuple[int, int] | None = None

    @property
    def key(self) -> str:
        """What other steps call it."""
        return f"{self.tier}: {self.name}"


def chained(steps: Iterable[Step]) -> Iterator[Step]:
    """Yield steps, each after the last has waited."""
    before: tuple[str, ...] = ()
    for step in steps:
        yield replace(step, after=(*step.after, *before))
        before = (step.key,)


def in_sessions(steps: Iterable[Step], work: Work) -> tuple[Step, ...]:
    """Return steps in sessions of one stretch at the most; others wait for the last of each.

    A batter is mixed at one go, and parted only where that takes longer than a whole day.
    """
    day = (work.day_ends - work.day_starts) * 60
    parted = {
        step.key: tuple(_sessions(step, day if step.stage in IN_OVEN else work.stretch))
        for step in steps
    }
    ends = {key: parts[-1].key for key, parts in parted.items()}
    return tuple(
        replace(
            part,
            after=tuple(ends.get(key, key) for key in part.after),
            follows=tuple(ends.get(key, key) for key in part.follows),
        )
        for parts in parted.values()
        for part in parts
    )


def _sessions(step: Step, longest: int) -> Iterator[Step]:
    count = math.ceil(step.minutes / longest)
    if count <= 1:
        yield step
        return
    ends = [in_fives(step.minutes * number / count) for number in range(count + 1)]
    before: Step | None = None
    for number, (start, end) in enumerate(pairwise(ends), 1):
        part = replace(
            step,
            name=f"{step.name}, part {number} of {count}",
            minutes=end - start,
            wait=step.wait if number == count else 0.0,
            oven=step.oven if number == count else 0.0,
        )
        if before is not None:
            part = replace(part, after=(), follows=(before.key,))
        yield part
        before = part


def in_fives(minutes: float) -> int:
    """Return minutes rounded up to the next five."""
    return math.ceil(minutes / 5 - 1e-9) * 5
