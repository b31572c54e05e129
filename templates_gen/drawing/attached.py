"""A file that a cake file speaks of: a typeface, or artwork."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Attached:
    """A file by the name the cake file has for it, and its content."""

    name: str
    content: bytes = field(repr=False)

    def __str__(self) -> str:
        return self.name
