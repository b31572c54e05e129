"""From a cake file to a checked Cake, or to one error that lists every problem with its line."""

from __future__ import annotations

import re
import sys
import tomllib
from collections.abc import Mapping
from difflib import get_close_matches
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.files import content_of, reason
from templates_gen.cakefile.lengths import UNITS, mostly_inches
from templates_gen.cakefile.messages import problems_of
from templates_gen.cakefile.source import CakeText
from templates_gen.errors import CakeError, FileError, Source
from templates_gen.terms import Terms, place_of

LARGEST_FILE = 100_000
"""Bytes of a cake file that are read at the most."""
NO_TEXT = {
    b"PK\x03\x04": "a word processor's document or an archive",
    b"\xd0\xcf\x11\xe0": "a word processor's document",
    b"{\\rtf": "rich text",
    b"%PDF-": "a PDF",
}
"""Files that people take for a text, by their first bytes."""
DEEPEST_KEY = 50
"""Dots in a key at the most; a key of the cake has two."""
_PART = re.compile(r"[^\n=,{}\[\]]+")
"""What may be a key, between the signs that keep keys and values apart."""
_FIGURES = re.compile(r"\d[\d_]*")
MOST_PROBLEMS = 100
"""Problems reported at once; the rest can wait until these are mended."""


def read_text(file: str | PathLike[str]) -> CakeText:
    """Read the text of a cake file; ``-`` is standard input. Raises FileError."""
    name = str(file)
    try:
        if name == "-":
            name = "standard input"
            if sys.stdin is None:
                raise OSError("it is closed")
            return decoded(sys.stdin.buffer.read(LARGEST_FILE + 1), name, Path())
        path = Path(file)
        return decoded(content_of(path, LARGEST_FILE + 1), path.name, path.parent)
    except (OSError, ValueError) as error:
        raise FileError(
            f"{name or '“”'} cannot be read: {reason(error)}. {_meant(name)}Check the name and the"
            " folder, or start a new cake file with: templates-gen new FILE.toml. To read what"
            " another program writes, the name is -"
        ) from None


def _meant(name: str) -> str:
    """Ask for the cake file that a name nearly spells, where there is one beside it."""
    path = Path(name)
    try:
        beside = [] if path.exists() else [each.name for each in path.parent.glob("*.toml")]
    except (OSError, ValueError):
        return ""
    close = get_close_matches(path.name, sorted(beside), n=1)
    return f"Did you mean {path.with_name(close[0])}? " if close else ""


def decoded(content: bytes, name: str, folder: Path | None = None) -> CakeText:
    """Return the content of a cake file called ``name`` as text. Raises FileError.

    Files that it speaks of are looked up in ``folder``; without one they are refused.
    """
    for beginning, kind in NO_TEXT.items():
        if content.startswith(beginning):
            raise FileError(
                f"{name} is {kind}, not a plain text file. Write the cake file in a plain text"
                " editor, or save it as plain text with the encoding UTF-8"
            )
    if len(content) > LARGEST_FILE:
        raise FileError(
            f"{name} is larger than {LARGEST_FILE // 1000} kB; a cake file is a short text"
        )
    try:
        return CakeText(name, content.decode("utf-8-sig"), folder)
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
    return checked(parse_data(source), source)


def parse_data(source: CakeText) -> dict[str, Any]:
    """Read the values of a cake file, unchecked. Raises FileError, CakeError if it is not TOML."""
    _refuse_deep_keys(source)
    try:
        return tomllib.loads(source.text)
    except tomllib.TOMLDecodeError as error:
        # only a file that is not TOML needs the clues
        from templates_gen.cakefile.syntax import syntax_error

        raise syntax_error(error, source) from None
    except ValueError:
        longest = max(_FIGURES.finditer(source.frame), key=lambda found: len(found[0]))
        line = source.line_at(longest.start())
        raise FileError(
            f"{source.name}, line {line}: a number has too many figures. Write a length such as"
            ' "8 in"'
        ) from None
    except RecursionError:
        deepest = max(source.lines, key=lambda text: text.count("[") + text.count("{"))
        line = source.lines.index(deepest) + 1
        raise FileError(
            f"{source.name}, line {line}: nested too deeply to be a cake file. Leave out brackets"
            " within brackets"
        ) from None


def checked(data: Mapping[str, Any], text: CakeText, source: Source | None = None) -> Cake:
    """Return the cake of the values of a file, its problems in the order of the lines.

    ``source`` says where a problem is, where some values come from elsewhere.
    Raises CakeError with the first problems.
    """
    try:
        return cake_from(data, source or text, text.folder)
    except CakeError as error:
        first = sorted(error.problems[:MOST_PROBLEMS], key=lambda problem: text.line(problem.key))
        raise CakeError(first, source or text) from None


def _refuse_deep_keys(source: CakeText) -> None:
    """Refuse what would keep the reader of TOML busy for minutes. Raises FileError."""
    for part in _PART.finditer(source.frame):
        if part[0].count(".") > DEEPEST_KEY:
            line = source.line_at(part.start())
            raise FileError(
                f"{source.name}, line {line}: a key of too many parts. Write a key of one table,"
                " such as size"
            )


def cake_from(
    data: Mapping[str, Any], source: Source | None = None, folder: str | PathLike[str] | None = None
) -> Cake:
    """Check values that come from no file. Raises CakeError with every problem.

    ``source`` says where a problem is; without one its key is shown. Files that the cake speaks of
    are looked up in ``folder``; without one they are refused.
    """
    unit = data.get("unit") if isinstance(data, Mapping) else None
    known = unit if isinstance(unit, str) and unit in UNITS else None
    context = {
        "unit": known,
        "words": place_of(data.get("words") if isinstance(data, Mapping) else None),
        "folder": Path(folder) if folder is not None else None,
    }
    try:
        return Cake.model_validate(data, context=context)
    except ValidationError as error:
        terms = _terms(data, known)
        found = (problem for details in error.errors() for problem in problems_of(details, data))
        problems = [terms.problem(problem) for problem in found]
        raise CakeError(problems, source) from None


def _terms(data: object, unit: str | None) -> Terms:
    """Return the words of a cake that cannot be read, as far as its values say them."""
    if not isinstance(data, Mapping):
        return Terms()
    tiers = data.get("tier")
    listed = tiers if isinstance(tiers, list) else []
    sizes = (each.get("size") for each in listed if isinstance(each, Mapping))
    return Terms(place_of(data.get("words")), inches=mostly_inches(map(str, sizes), unit))
