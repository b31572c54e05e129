"""Repeats that close: evenly round a girth, with one of them or a gap at the front."""

from __future__ import annotations

from dataclasses import dataclass

_SEAM = 1e-9
"""What rounding leaves short of a whole turn is the back join, mm."""


@dataclass(frozen=True, slots=True)
class Repeat:
    """``count`` places round a ``girth`` in mm, one of them at ``start``."""

    count: int
    girth: float
    start: float

    @property
    def pitch(self) -> float:
        """From one place to the next, mm."""
        return self.girth / self.count

    def place(self, index: int) -> float:
        """Return the place ``index`` steps round from the start, in [0, girth)."""
        u = (self.start + index * self.pitch) % self.girth
        return 0.0 if self.girth - u < _SEAM else u

    @property
    def places(self) -> tuple[float, ...]:
        """Every place, in order from the back join."""
        return tuple(sorted(self.place(index) for index in range(self.count)))


def repeat(count: int, girth: float, *, at_front: bool) -> Repeat:
    """Return ``count`` places, one of them at the front, or the middle between two of them."""
    return Repeat(count, girth, girth / 2 + (0.0 if at_front else girth / count / 2))
