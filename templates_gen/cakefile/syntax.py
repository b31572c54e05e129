"""Why a file is not TOML, and what to do, for someone who has never heard of TOML."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Callable
from dataclasses import dataclass

from templates_gen.cakefile.source import CakeText
from templates_gen.drawing.fonts import character_name
from templates_gen.errors import CakeError, Key, Problem

_PLACE = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)")
_LONGEST_LINE = 80


@dataclass(frozen=True, slots=True)
class _Line:
    """The source of a file that is not TOML: it has lines, and no keys yet."""

    name: str
    number: int

    def where(self, key: Key) -> str:
        """Name file and line."""
        return f"{self.name}, line {self.number}"


@dataclass(frozen=True, slots=True)
class _BadLine:
    """Where reading stopped: the line, what the reader of TOML said, the frame of what is above."""

    line: str
    reason: str
    above: str


def syntax_error(error: tomllib.TOMLDecodeError, source: CakeText) -> CakeError:
    """Return the error of a file that is not TOML, with the advice of the first clue that fits."""
    place = _PLACE.search(str(error))
    number = int(place[1]) if place and place[1] else source.text.rstrip().count("\n") + 1
    reason = _PLACE.sub("", str(error))
    line = source.lines[number - 1].strip()[:_LONGEST_LINE]
    bad = _BadLine(line, reason, "\n".join(source.lines[: number - 1]))
    advice = next(
        filter(None, (clue(bad) for clue in CLUES)),
        "check quotes, brackets and the equals sign on this line and the one above",
    )
    problem = Problem(
        (),
        f"{line} ({reason[:1].lower()}{reason[1:]})",
        'lines such as size = "8 in", [[tier]] or # a comment',
        advice,
    )
    return CakeError([problem], _Line(source.name, number))


def _old_line_ends(bad: _BadLine) -> str:
    return "save the file with the line ends LF or CRLF" if "\r" in bad.line else ""


def _odd_blank(bad: _BadLine) -> str:
    """Explain a blank that looks like a plain one, or a character that cannot be seen at all."""
    text = _CLOSED.sub("", bad.line).partition("#")[0]
    odd = next((char for char in text if not char.isprintable() and char != "\t"), "")
    if not odd.strip("\0\r"):
        return ""
    return f"the character {character_name(odd)} is not seen here: delete it, or type a plain blank"


_CLOSED = re.compile(r"\"[^\"]*\"|'[^']*'")
_CURLY = re.compile(r"[“”„«»]|(?<!\w)[‘’‚]|[‘’‚](?!\w)")


def _curly_quotes(bad: _BadLine) -> str:
    """Explain curly quotes, but for those within straight ones and an apostrophe in a word."""
    if not _CURLY.search(_CLOSED.sub("", bad.line)):
        return ""
    return "these are curly quotes: type straight ones, \" or ', in a plain text editor"


_SIGN_IN_ITS_QUOTES = re.compile(r"([\w.-]+)\s*=\s*([\"'])([^\"']*)\2\2\s*(?:#|$)")


def _inch_sign(bad: _BadLine) -> str:
    """Explain ``size = "8""``, where the inch sign closes the text."""
    found = _SIGN_IN_ITS_QUOTES.match(bad.line)
    return f"put the inch sign in single quotes: {found[1]} = '{found[3]}\"'" if found else ""


_TWICE = ("Cannot overwrite", "Cannot declare", "Cannot redefine", "Cannot mutate", "Duplicate")
_TIER = re.compile(r"\[+\s*tier\s*\]+")
_TABLE_OF_A_TIER = re.compile(r"^\s*\[\s*(tier\b[^\]\n]*?)\s*\]", re.MULTILINE)


def _tier_header(bad: _BadLine) -> str:
    """Explain a table of a tier above the first tier, or a tier in single brackets."""
    if not bad.reason.startswith(_TWICE) or not _TIER.match(bad.line):
        return ""
    above = _TABLE_OF_A_TIER.search(bad.above)
    if above and above[1] != "tier" and bad.line.startswith("[["):
        return f"write [{above[1]}] below the [[tier]] it belongs to"
    return "head every tier with [[tier]], in double brackets"


def _twice(bad: _BadLine) -> str:
    if not bad.reason.startswith(_TWICE):
        return ""
    return "this key stands in the file a second time: leave one of them out"


def _no_such_day(bad: _BadLine) -> str:
    if "date or datetime" not in bad.reason:
        return ""
    return "there is no such day or hour: write for example ready = 2027-06-19 14:00:00"


_BARE_LENGTH = re.compile(r"([\w.]+)\s*=\s*([^\"'#]*\d[^\"'#]*\S?)")


def _bare_length(bad: _BadLine) -> str:
    found = _BARE_LENGTH.match(bad.line)
    return f"put the length in quotes: {found[1]} = '{found[2].strip()}'" if found else ""


CLUES: tuple[Callable[[_BadLine], str], ...] = (
    _old_line_ends,
    _curly_quotes,
    _odd_blank,
    _inch_sign,
    _tier_header,
    _twice,
    _no_such_day,
    _bare_length,
)
"""What may be wrong, the surest first: each gives advice, or an empty text where it fits not."""
