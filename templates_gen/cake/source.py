"""The text of a cake file, and the line on which a key stands in it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Any

from templates_gen.errors import Key, key_text

_STATEMENT = re.compile(r"""\s*(\[|[\w"'-][^=#]*=)""")
"""The beginning of a line that may start a statement: a table header, or a key and its sign."""


def toml(text: str) -> dict[str, Any]:
    """Read TOML. Raises TOMLDecodeError, or ValueError for a number of too many figures."""
    return tomllib.loads(text)


@lru_cache(maxsize=64)
def _document(text: str) -> Mapping[str, Any] | None:
    """Read the beginning of a file, or return None when it ends within a statement."""
    try:
        return toml(text)
    except ValueError:
        return None


@dataclass(frozen=True)
class CakeText:
    """The text of a cake file and what the file is called."""

    name: str
    text: str

    def where(self, key: Key) -> str:
        """Name file, line and key."""
        return f"{self.name}, line {self.line(key)}: {key_text(key)}".removesuffix(": ")

    @cached_property
    def lines(self) -> list[str]:
        """The lines of the file, as TOML ends them."""
        return self.text.replace("\r\n", "\n").split("\n")

    @cached_property
    def _starts(self) -> list[int]:
        """The lines that may start a statement, counted from 0."""
        return [number for number, line in enumerate(self.lines) if _STATEMENT.match(line)]

    def line(self, key: Key) -> int:
        """Return the line that introduces ``key``, or the nearest key above it.

        A key is introduced by the last statement of the shortest beginning of the file that, read
        alone, already contains it. Beginnings are searched by halves.
        """
        ends = [*self._starts[1:], len(self.lines)]
        while key and not _contains(self._beginning(ends, len(ends) - 1), key):
            key = key[:-1]
        if not key:
            return 1
        low, high = -1, len(ends) - 1
        while high - low > 1:
            middle = (low + high) // 2
            found = _contains(self._beginning(ends, middle), key)
            low, high = (low, middle) if found else (middle, high)
        # what only looks like a statement, in a text of several lines, does not end one
        while high > 0 and self._until(ends[high - 1]) is None:
            high -= 1
        return self._starts[high] + 1

    def _beginning(self, ends: list[int], place: int) -> Mapping[str, Any]:
        """Read the file up to one of ``ends``, or up to the nearest before it that can be read."""
        while place >= 0:
            document = self._until(ends[place])
            if document is not None:
                return document
            place -= 1
        return {}

    def _until(self, line: int) -> Mapping[str, Any] | None:
        return _document("\n".join(self.lines[:line]))


def _contains(document: Any, key: Key) -> bool:  # noqa: ANN401 (any TOML value)
    for part in key:
        if isinstance(part, int):
            if not isinstance(document, list) or part >= len(document):
                return False
        elif not isinstance(document, dict) or part not in document:
            return False
        document = document[part]
    return True
