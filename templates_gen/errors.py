"""The one tree of errors, and what a message about a cake consists of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from typing import Protocol

Key = tuple[str | int, ...]
"""Where a value stands in the cake file: ``("tier", 1, "drips", "spacing")``."""

_LONGEST_PART = 60
DAMAGED = (
    ValueError,
    KeyError,
    IndexError,
    AttributeError,
    TypeError,
    AssertionError,
    ArithmeticError,
    RecursionError,
)
"""What a library may raise that reads a damaged file or text."""


def key_text(key: Key) -> str:
    """Write a key as a decorator reads it, places counted from 1: ``tier 2, drips.width``."""
    text = joint = ""
    for part in key:
        if isinstance(part, int):
            text, joint = f"{text} {part + 1}", ", "
        else:
            text, joint = f"{text}{joint}{part[:_LONGEST_PART]}", "."
    return text


class TemplatesGenError(Exception):
    """Base of every error this package raises on purpose."""


class StageError(TemplatesGenError):
    """A stage cannot do its work; the stage that knows the key behind it says so as a CakeError.

    One that nobody put into the words of the cake file is the program's own fault.
    """


class NumberError(StageError):
    """A number that cannot be printed (nan or infinite)."""


class GeometryError(StageError):
    """A geometric operation did not give what it must give."""


class GlyphError(StageError):
    """A text needs a character that the bundled font cannot print."""


class FileError(TemplatesGenError):
    """A file cannot be read or written."""


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a cake: at which key, what was found, what is allowed, what to do.

    ``lacks_unit`` where it is a number that would be right with one.
    """

    key: Key
    found: str
    allowed: str
    advice: str
    lacks_unit: bool = field(default=False, kw_only=True)

    def within(self, owner: Key) -> Problem:
        """Return the same problem of a part, at its key in the whole."""
        return replace(self, key=(*owner, *self.key))


@dataclass(frozen=True, slots=True)
class PlanWarning:
    """Something that can be made and may yet not be meant: at which key, and what to think of.

    ``text`` names the tier, so that it can stand alone on paper.
    """

    key: Key
    text: str


class Source(Protocol):
    """Where a cake came from, so that a message can point at the place."""

    def where(self, key: Key) -> str:
        """Say in words where ``key`` stands: file, line and key, or the name of an option."""


class CakeError(TemplatesGenError):
    """A cake that cannot be read or made, with every problem found.

    ``source`` turns the key of each problem into a place the decorator can go to; without one the
    key itself is shown.
    """

    def __init__(self, problems: Iterable[Problem], source: Source | None = None) -> None:
        self.problems = tuple(problems)
        self.source = source
        super().__init__("\n".join(self._lines(problem) for problem in self.problems))

    @classmethod
    def at(cls, key: Key, found: str, allowed: str, advice: str) -> CakeError:
        """Return the error of one problem."""
        return cls([Problem(key, found, allowed, advice)])

    def located(self, source: Source) -> CakeError:
        """Return the same problems, shown where they stand in ``source``."""
        return CakeError(self.problems, source)

    def _lines(self, problem: Problem) -> str:
        place = self.source.where(problem.key) if self.source else key_text(problem.key)
        parts = (place, problem.found, problem.allowed, problem.advice)
        # what was written in the file may have line ends of its own
        place, found, allowed, advice = (part.replace("\n", "\\n") for part in parts)
        return f"{place}\n  problem   {found}\n  accepted  {allowed}\n  fix       {advice}"


@contextmanager
def geometry_at(key: Key, allowed: str, advice: str) -> Iterator[None]:
    """Turn a GeometryError within the block into a CakeError at a key, with what is allowed."""
    try:
        yield
    except GeometryError as error:
        raise CakeError.at(key, str(error), allowed, advice) from None


@dataclass(frozen=True, slots=True)
class Collector:
    """The problems found so far, of several parts."""

    found: list[Problem] = field(default_factory=list)

    @contextmanager
    def at(self, *owner: str | int) -> Iterator[None]:
        """Collect what a part raises as CakeError, its keys within that of the part."""
        try:
            yield
        except CakeError as error:
            self.found.extend(problem.within(owner) for problem in error.problems)


@contextmanager
def all_problems() -> Iterator[Collector]:
    """Try every part of something, then raise CakeError with all problems that were collected.

    Where two parts find the same problem it is reported once.
    """
    collector = Collector()
    yield collector
    if collector.found:
        raise CakeError(dict.fromkeys(collector.found))
