"""How the lengths of drips follow each other round a tier: one function and one line for each.

A pattern gives one share a drip, from 0 (the shortest) to 1 (the longest), in order round the tier
from the front. Each closes: the last share leads on to the first.
"""

import math
import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Protocol

from templates_gen.errors import GeometryError, Problem
from templates_gen.geometry.profile import profile
from templates_gen.units import counted

USUAL_WAVES = 5


class InMm(Protocol):
    """A length."""

    @property
    def mm(self) -> float:
        """The length in mm."""


class PatternSpec(Protocol):
    """What a pattern is made from: the drips of the cake file, as far as a pattern uses them."""

    @property
    def waves(self) -> int | None:
        """How often a wave rises and falls, if that was said."""

    @property
    def shuffle(self) -> int:
        """Which of the random orders."""

    @property
    def lengths(self) -> Sequence[InMm] | None:
        """The lengths typed in."""

    @property
    def line(self) -> str | None:
        """The line that the lengths follow, as path data of SVG."""

    @property
    def front(self) -> str:
        """Whether a drip or a gap stands at the front."""

    @property
    def corners(self) -> bool:
        """Whether drips follow the corners instead."""


def even(count: int, spec: PatternSpec) -> list[float]:
    """All drips the longest."""
    return [1.0] * count


def alternate(count: int, spec: PatternSpec) -> list[float]:
    """Long and short alternately, long at the front; ``count`` is even."""
    return [1.0 - index % 2 for index in range(count)]


def wave(count: int, spec: PatternSpec) -> list[float]:
    """Rise and fall round the tier, longest at the front."""
    waves = spec.waves or min(USUAL_WAVES, _most_waves(count))
    return [(1 + math.cos(math.tau * waves * index / count)) / 2 for index in range(count)]


def at_random(count: int, spec: PatternSpec) -> list[float]:
    """Unequal lengths, the same ones for the same shuffle number."""
    draw = random.Random(spec.shuffle)
    return [draw.random() for _ in range(count)]


def front(count: int, spec: PatternSpec) -> list[float]:
    """Longest at the front, falling evenly to both sides, shortest at the back."""
    first = _first(spec)
    return [1 - 2 * abs(_turn(index + first, count)) for index in range(count)]


def listed(count: int, spec: PatternSpec) -> list[float]:
    """Give the lengths typed in, from the front to the right, again and again; ``count`` closes."""
    mms = [length.mm for length in spec.lengths or ()]
    if not mms or max(mms) == min(mms):
        return [1.0] * count
    least, most = min(mms), max(mms)
    return [(mms[index % len(mms)] - least) / (most - least) for index in range(count)]


def drawn(count: int, spec: PatternSpec) -> list[float]:
    """Follow a line laid once round from the back join: where it hangs lowest, the longest."""
    at = profile(spec.line or "M0 0H1")
    first = _first(spec)
    return [at(0.5 + _turn(index + first, count)) for index in range(count)]


def _first(spec: PatternSpec) -> float:
    """Return how many spacings right of the front the first drip stands."""
    return 0.5 if spec.front == "gap" and not spec.corners else 0.0


def _turn(index: float, count: int) -> float:
    """Return how far round from the front a drip stands, from -1/2 to 1/2 of a turn."""
    share = index / count
    return share if share <= 0.5 else share - 1


def _most_waves(count: int) -> int:
    """Return how many waves ``count`` drips can show: each takes a long and a short one."""
    return max(1, count // 2)


def _too_many_waves(count: int, spec: PatternSpec) -> Iterator[Problem]:
    most = _most_waves(count)
    if spec.waves is not None and spec.waves > most:
        yield Problem(
            ("waves",),
            f"{counted(spec.waves, 'wave')} on {counted(count, 'drip')}",
            f"1 to {most}: a wave takes a long drip and a short one",
            "use fewer waves, or drips closer together",
        )


def _no_lengths(count: int, spec: PatternSpec) -> Iterator[Problem]:
    if not spec.lengths:
        yield Problem(
            ("lengths",),
            "the pattern “listed” and no lengths",
            "one or more lengths, from the front to the right",
            "write lengths one after the other, such as 20 mm, 35 mm, 25 mm",
        )


def _no_line(count: int, spec: PatternSpec) -> Iterator[Problem]:
    try:
        if spec.line is None:
            raise GeometryError("the pattern “drawn” and no line")
        profile(spec.line)
    except GeometryError as error:
        yield Problem(
            ("line",),
            str(error),
            "path data of SVG: one line from left to right, low where drips are long",
            'write for example line = "M0 0 C 30 40 70 40 100 0"',
        )


def _whole_lists(spec: PatternSpec) -> int:
    return max(1, len(spec.lengths or ()))


def _given(spec: PatternSpec) -> tuple[float, float] | None:
    """Return the shortest and the longest of the lengths typed in."""
    mms = [length.mm for length in spec.lengths or ()]
    return (min(mms), max(mms)) if mms else None


@dataclass(frozen=True, slots=True)
class Pattern:
    """A pattern: the share of each drip, and what it takes to close.

    The count of drips must divide by ``multiple``. ``extremes`` are the shortest and longest length
    in mm, where the pattern itself says them. ``keys`` names the keys of the drips that it
    uses and others do not. ``problems`` says, at those keys, what it cannot do.
    """

    share_out: Callable[[int, PatternSpec], list[float]]
    multiple: Callable[[PatternSpec], int] = lambda _: 1
    keys: tuple[str, ...] = ()
    problems: Callable[[int, PatternSpec], Iterator[Problem]] = lambda *_: iter(())
    extremes: Callable[[PatternSpec], tuple[float, float] | None] = lambda _: None


BETWEEN = ("shortest", "longest")
"""The keys of a pattern whose lengths lie between two."""

PATTERNS = {
    "even": Pattern(even, keys=("longest",)),
    "alternate": Pattern(alternate, multiple=lambda _: 2, keys=BETWEEN),
    "wave": Pattern(wave, keys=(*BETWEEN, "waves"), problems=_too_many_waves),
    "random": Pattern(at_random, keys=(*BETWEEN, "shuffle")),
    "front": Pattern(front, keys=BETWEEN),
    "listed": Pattern(
        listed, _whole_lists, keys=("lengths",), problems=_no_lengths, extremes=_given
    ),
    "drawn": Pattern(drawn, keys=(*BETWEEN, "line"), problems=_no_line),
}
