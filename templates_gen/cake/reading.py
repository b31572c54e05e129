"""From a cake file to a checked Cake, or to one error that lists every problem with its line."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from templates_gen.cake.lengths import UNITS
from templates_gen.cake.model import Cake
from templates_gen.cake.problems import problems_of
from templates_gen.cake.source import CakeText, toml
from templates_gen.errors import CakeError, FileError, Key, Problem, Source

LARGEST_FILE = 100_000
"""Bytes of a cake file that are read at the most."""
DEEPEST_KEY = 50
"""Dots in one line's key at the most; a key of the cake has two."""
MOST_PROBLEMS = 100
"""Problems told at once; the rest can wait until these are mended."""


def read_text(file: str | PathLike[str]) -> CakeText:
    """Read the text of a cake file; ``-`` is standard input. Raises FileError."""
    name = str(file)
    try:
        if name == "-":
            name = "standard input"
            if sys.stdin is None:
                raise OSError("it is closed")
            return decoded(sys.stdin.buffer.read(LARGEST_FILE + 1), name)
        with Path(file).open("rb") as stream:
            return decoded(stream.read(LARGEST_FILE + 1), Path(file).name)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise FileError(
            f"{name} cannot be read: {reason}. Check the name and the folder,"
            " or start a new cake file with: templates-gen new FILE.toml"
        ) from None


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


def read_cake(file: str | PathLike[str]) -> Cake:
    """Read a cake file; ``-`` is standard input.

    Raises FileError when it cannot be read and CakeError, with every problem, when it is wrong.
    """
    return parse_cake(read_text(file))


def parse_cake(source: CakeText) -> Cake:
    """Read a cake from the text of a cake file. Raises as read_cake."""
    for number, line in enumerate(source.lines, 1):
        if re.split(r"[=\"'#]", line, maxsplit=1)[0].count(".") > DEEPEST_KEY:
            raise FileError(f"{source.name}, line {number}: a key of too many parts")
    try:
        data = toml(source.text)
    except tomllib.TOMLDecodeError as error:
        raise CakeError([_syntax_problem(error, source)], _Lines(source.name)) from None
    except ValueError:
        raise FileError(f"{source.name}: a number has too many figures") from None
    except RecursionError:
        raise FileError(f"{source.name} is nested too deeply to be a cake file") from None
    try:
        return cake_from(data, source)
    except CakeError as error:
        told = sorted(error.problems[:MOST_PROBLEMS], key=lambda problem: source.line(problem.key))
        raise CakeError(told, source) from None


def cake_from(data: Mapping[str, Any], source: Source) -> Cake:
    """Check values that a face gathered itself. Raises CakeError with every problem."""
    unit = data.get("unit")
    context = {"unit": unit if isinstance(unit, str) and unit in UNITS else None}
    try:
        return Cake.model_validate(data, context=context)
    except ValidationError as error:
        problems = [problem for fault in error.errors() for problem in problems_of(fault)]
        raise CakeError(problems, source) from None


@dataclass(frozen=True)
class _Lines:
    """A source for a file that is no TOML, so that only lines and no keys can be named."""

    name: str

    def where(self, key: Key) -> str:
        return f"{self.name}, {key[0]}" if key else self.name


_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")
_BARE_LENGTH = re.compile(r"\s*([\w.]+)\s*=\s*([^\"'#]*\d[^\"'#]*\S?)")
_TWICE = ("Cannot overwrite", "Cannot declare", "Cannot redefine", "Duplicate")


def _syntax_problem(error: tomllib.TOMLDecodeError, source: CakeText) -> Problem:
    """Explain why a file is no TOML; the usual reason is a text without quotes."""
    lines = source.lines
    place = _PLACE.search(str(error))
    number = int(place[1]) if place and place[1] else len(source.text.rstrip().split("\n"))
    found = lines[number - 1].strip()[:80] if number <= len(lines) else ""
    reason = _PLACE.sub("", str(error))
    bare = _BARE_LENGTH.match(found)
    if reason.startswith(_TWICE):
        advice = "this key stands in the file a second time: leave one of them out"
    elif bare and not found.startswith("["):
        advice = f"put the length in quotes: {bare[1]} = '{bare[2].strip()}'"
    else:
        advice = "check quotes, brackets and the equals sign on this line and the one above"
    return Problem(
        (f"line {number}",),
        f"{found} ({reason[:1].lower()}{reason[1:]})",
        'lines such as size = "8 in", [[tier]] or # a comment',
        advice,
    )
