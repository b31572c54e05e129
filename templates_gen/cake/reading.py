"""From a cake file to a checked Cake, or to one error that lists every problem with its line."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from templates_gen.cake.lengths import UNITS
from templates_gen.cake.model import Cake
from templates_gen.cake.problems import problem_of
from templates_gen.errors import CakeError, FileError, Key, Problem, Source, key_text

LARGEST_FILE = 1_000_000
"""Bytes of a cake file that are read at the most."""


@dataclass(frozen=True)
class CakeText:
    """The text of a cake file and what the file is called."""

    name: str
    text: str

    @cached_property
    def _lines(self) -> list[str]:
        return self.text.splitlines(keepends=True)

    def where(self, key: Key) -> str:
        """Name file, line and key."""
        return f"{self.name}, line {self.line(key)}: {key_text(key)}".removesuffix(": ")

    def line(self, key: Key) -> int:
        """Return the line that introduces ``key``, or the nearest key above it.

        A key stands in the first part of the file that, read alone, already contains it. The
        beginnings of the file are searched by halves, so a thousand lines take ten readings.
        """
        while key and not _contains(self._document(len(self._lines)), key):
            key = key[:-1]
        if not key:
            return 1
        low, high = 0, len(self._lines)
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (low, middle) if _contains(self._document(middle), key) else (middle, high)
        return self._statement_start(high)

    def _statement_start(self, last: int) -> int:
        """Return the first line of the statement that ends with line ``last``."""
        first = last
        while first > 1 and self._parsed(first - 1) is None:
            first -= 1
        return first

    def _document(self, count: int) -> Mapping[str, Any]:
        """Read as many of the first ``count`` lines as make a document."""
        while (document := self._parsed(count)) is None:
            count -= 1
        return document

    def _parsed(self, count: int) -> Mapping[str, Any] | None:
        try:
            return tomllib.loads("".join(self._lines[:count]))
        except tomllib.TOMLDecodeError:
            return None


def _contains(document: Any, key: Key) -> bool:  # noqa: ANN401 (any TOML value)
    for part in key:
        if isinstance(part, int):
            if not isinstance(document, list) or part >= len(document):
                return False
        elif not isinstance(document, dict) or part not in document:
            return False
        document = document[part]
    return True


def read_text(file: str | PathLike[str]) -> CakeText:
    """Read the text of a cake file; ``-`` is standard input. Raises FileError."""
    name = str(file)
    try:
        if name == "-":
            name = "standard input"
            return decoded(sys.stdin.buffer.read(LARGEST_FILE + 1), name)
        with Path(file).open("rb") as stream:
            return decoded(stream.read(LARGEST_FILE + 1), Path(file).name)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise FileError(
            f"{name} cannot be read: {reason}. Check the name and the folder,"
            " or start a new cake file with: templates-gen new FILE.toml"
        ) from None


def read_cake(file: str | PathLike[str]) -> Cake:
    """Read a cake file; ``-`` is standard input.

    Raises FileError when it cannot be read and CakeError, with every problem, when it is wrong.
    """
    return parse_cake(read_text(file))


def parse_cake(source: CakeText) -> Cake:
    """Read a cake from the text of a cake file. Raises as read_cake."""
    name = source.name
    try:
        data = tomllib.loads(source.text)
    except tomllib.TOMLDecodeError as error:
        raise CakeError([_syntax_problem(error, source)], _At(source.name)) from None
    except RecursionError:
        raise FileError(f"{name} is nested too deeply to be a cake file") from None
    try:
        return cake_from(data, source)
    except CakeError as error:
        raise CakeError(sorted(error.problems, key=lambda p: source.line(p.key)), source) from None


def cake_from(data: Mapping[str, Any], source: Source) -> Cake:
    """Check values that a face gathered itself. Raises CakeError with every problem."""
    unit = data.get("unit")
    context = {"unit": unit if unit in UNITS else None}
    try:
        return Cake.model_validate(data, context=context)
    except ValidationError as error:
        problems = [problem_of(fault) for fault in error.errors()]
        raise CakeError(problems, source) from None


def decoded(content: bytes, name: str) -> CakeText:
    """Return the content of a cake file called ``name`` as text. Raises FileError."""
    if len(content) > LARGEST_FILE:
        raise FileError(f"{name} is larger than {LARGEST_FILE} bytes; a cake file is a short text")
    try:
        return CakeText(name, content.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise FileError(
            f"{name}, line {line}: not UTF-8 text. Save the file as plain text with the"
            " encoding UTF-8"
        ) from None


@dataclass(frozen=True)
class _At:
    """A source for a file that is no TOML, so that no key can be looked up."""

    name: str

    def where(self, key: Key) -> str:
        return f"{self.name}, {key[0]}" if key else self.name


_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")
_BARE_LENGTH = re.compile(r"\s*([\w.]+)\s*=\s*([^\"'#]*\d[^\"'#]*\S?)")


def _syntax_problem(error: tomllib.TOMLDecodeError, source: CakeText) -> Problem:
    """Explain why a file is no TOML; the usual reason is a text without quotes."""
    lines = source.text.splitlines() or [""]
    place = _PLACE.search(str(error))
    number = int(place[1]) if place and place[1] else len(lines)
    found = lines[number - 1].strip()[:80] if number <= len(lines) else ""
    bare = _BARE_LENGTH.match(found)
    advice = (
        f"put the length in quotes: {bare[1]} = '{bare[2].strip()}'"
        if bare and not found.startswith("[")
        else "check quotes, brackets and the equals sign on this line and the one above"
    )
    reason = _PLACE.sub("", str(error))
    return Problem(
        (f"line {number}",),
        f"{found} ({reason[:1].lower()}{reason[1:]})",
        'lines such as size = "8 in", [[tier]] or # a comment',
        advice,
    )
