"""The text of a cake file, and the line on which a key stands in it."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any

from templates_gen.errors import Key, key_text

_WORDS = re.compile(
    r'''"""(?:\\.|.)*?(?:"""{1,3}|\Z)|\'\'\'.*?(?:\'\'\'{1,3}|\Z)'''
    r"""|"(?:\\[^\n]|[^"\\\n])*"?|'[^'\n]*'?|\#[^\n]*""",
    re.DOTALL,
)
"""What has no say in how a file is built: texts in quotes, a text never closed too, and comments.

A text of several lines may end with up to two quotes of its own.
"""
_BUILT = re.compile(r"[][{}\n]")


@dataclass(frozen=True)
class CakeText:
    """The text of a cake file, what the file is called, and the folder of files it speaks of."""

    name: str
    text: str
    folder: Path | None = None

    def where(self, key: Key) -> str:
        """Name file, line and key."""
        return f"{self.name}, line {self.line(key)}: {key_text(key)}".removesuffix(": ")

    @cached_property
    def lines(self) -> list[str]:
        """The lines of the file, as TOML ends them."""
        return _unix(self.text).split("\n")

    @cached_property
    def frame(self) -> str:
        """The text with its comments and texts in quotes crossed out, character for character."""
        return _WORDS.sub(lambda found: "_" * len(found[0]), _unix(self.text))

    def line_at(self, offset: int) -> int:
        """Return the line of a character of the frame."""
        return _unix(self.text).count("\n", 0, offset) + 1

    def line(self, key: Key) -> int:
        """Return the line that introduces ``key``, or the nearest key above it.

        A file that is not TOML has no keys, and raises TOMLDecodeError.
        """
        while key not in self._places:
            key = key[:-1]
        return self._places[key]

    @cached_property
    def _places(self) -> dict[Key, int]:
        """The line of each key that a statement names; keys in a value have their owner's."""
        places: dict[Key, int] = {(): 1}
        latest: dict[Key, int] = {}  # of each [[...]], counted from 0
        table: Key = ()
        for line, statement in self._statements():
            names, value = _named(tomllib.loads(statement))
            if statement.lstrip().startswith("["):
                table = key = _entered(names, value, latest)
            else:
                key = (*table, *names)
            for end in range(len(key)):
                places.setdefault(key[: end + 1], line)
        return places

    def _statements(self) -> Iterator[tuple[int, str]]:
        """Yield each statement, a comment and an empty line too, and the line it starts on.

        A statement ends with the line on which its brackets and quotes are closed.
        """
        text = _unix(self.text) + "\n"
        start, line, depth = 0, 1, 0
        for sign in _BUILT.finditer(self.frame + "\n"):
            depth += {"[": 1, "{": 1, "]": -1, "}": -1}.get(sign[0], 0)
            if sign[0] == "\n" and depth == 0:
                statement = text[start : sign.end()]
                yield line, statement
                start, line = sign.end(), line + statement.count("\n")


def _unix(text: str) -> str:
    return text.replace("\r\n", "\n")


def _named(document: Any) -> tuple[list[str], Any]:  # noqa: ANN401 (any TOML value)
    """Return the names of the key of one statement, from the outside in, and what it holds."""
    names = []
    while isinstance(document, dict) and len(document) == 1:
        ((name, document),) = document.items()
        names.append(name)
    return names, document


def _entered(names: list[str], value: object, latest: dict[Key, int]) -> Key:
    """Return the key of the table that a header opens; ``latest`` counts a new [[...]]."""
    key: Key = ()
    for index, name in enumerate(names, 1):
        key = (*key, name)
        if index == len(names) and isinstance(value, list):
            latest[key] = latest.get(key, -1) + 1
        if key in latest:
            key = (*key, latest[key])
    return key
