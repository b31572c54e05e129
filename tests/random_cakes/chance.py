"""Where the choices of a random cake come from: a seed, or Hypothesis."""

from __future__ import annotations

import random
from abc import ABC, abstractmethod
from collections.abc import Sequence
from decimal import Decimal
from typing import Any, TypeVar

from hypothesis import strategies as st

Table = dict[str, Any]
"""A table of a cake file."""
T = TypeVar("T")


class Chance(ABC):
    """A source of choices; ``unit`` is what a bare number means in the cake, if anything."""

    unit: str | None = None

    @abstractmethod
    def whole(self, least: int, most: int) -> int:
        """Return a whole number from ``least`` to ``most``."""

    def odds(self, percent: int) -> bool:
        """Return True as often as that, in percent; False is the simpler."""
        return self.whole(0, 99) >= 100 - percent

    def pick(self, options: Sequence[T]) -> T:
        """Return one of the options; the first is the simplest."""
        return options[self.whole(0, len(options) - 1)]

    def mm(self, least: float, most: float) -> float:
        """Return a length to a hundredth of a mm; more often than not a whole number."""
        if least + 1 <= most and self.odds(60):
            return float(self.whole(-int(-least // 1), int(most)))
        low, high = round(least * 100), round(most * 100)
        return self.whole(low, max(low, high)) / 100

    def length(self, least: float, most: float) -> str:
        """Return a length between two in mm, as it may be written."""
        return self.written(self.mm(least, most))

    def written(self, mm: float) -> str:
        """Return a length in mm as it may be written, in any unit."""
        unit = self.pick(("mm", "mm", "cm", "in", self.unit or "mm"))
        per = {"mm": Decimal(1), "cm": Decimal(10), "in": Decimal("25.4")}[unit]
        number = f"{round(Decimal(str(mm)) / per, 6).normalize():f}"
        bare = unit == self.unit and self.odds(40)
        return number if bare else f"{number} {unit}"

    def some(self, table: Table, percent: int = 40) -> Table:
        """Return a part of a table, each key as often as that."""
        return {key: value for key, value in table.items() if self.odds(percent)}


class Seeded(Chance):
    """The choices of a seed."""

    def __init__(self, seed: int) -> None:
        self._random = random.Random(seed)

    def whole(self, least: int, most: int) -> int:
        """Return a whole number from ``least`` to ``most``."""
        return self._random.randint(least, most)


class Drawn(Chance):
    """The choices of Hypothesis, which looks for the simplest that fail."""

    def __init__(self, draw: st.DrawFn) -> None:
        self._draw = draw

    def whole(self, least: int, most: int) -> int:
        """Return a whole number from ``least`` to ``most``."""
        return self._draw(st.integers(least, most))
