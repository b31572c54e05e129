"""The words people read that differ by place: one table, and the texts of a cake put into them.

Texts are written in UK English. A word for another place is never longer on paper, so that what was
laid out has room for it.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace

from templates_gen.errors import CakeError, Problem

UK = "uk"
US = {
    "fondant (sugar paste)": "fondant",
    "colour": "color",
    "centre": "center",
    "mould": "mold",
    "panelled": "paneled",
}
PLACES = {UK: {}, "us": US}
"""What a place says in place of the UK's words. Both spellings are in any dictionary."""
CURRENCIES = {UK: "£", "us": "$"}
"""The sign of prices in each place."""
KEYS = frozenset({"colour", "mould"})
"""Words of the table that are keys of the cake file, which messages name as the file has them."""


@dataclass(frozen=True, slots=True)
class Terms:
    """The words of a place; texts that are ``kept`` are the decorator's own and stay.

    Of a cake file in ``inches`` these come first in every length, the mm after it in brackets.
    """

    place: str = UK
    kept: tuple[str, ...] = ()
    inches: bool = False

    @property
    def is_plain(self) -> bool:
        """Whether texts stay as they are written."""
        return self.place == UK and not self.inches

    def text(self, text: str) -> str:
        """Return a text in the words of the place; what stands in quotation marks stays."""
        return self._said(self._ordered(text), PLACES[self.place])

    def _ordered(self, text: str) -> str:
        return inches_first(text) if self.inches else text

    def problem(self, problem: Problem) -> Problem:
        """Return a problem in the words of the place, with keys as the file has them."""
        words = {uk: other for uk, other in PLACES[self.place].items() if uk not in KEYS}
        said = (problem.found, problem.allowed, problem.advice)
        found, allowed, advice = (self._said(self._ordered(text), words) for text in said)
        return replace(problem, found=found, allowed=allowed, advice=advice)

    @contextmanager
    def problems(self) -> Iterator[None]:
        """Put the problems of a CakeError raised within the block into the words of the place."""
        try:
            yield
        except CakeError as error:
            if self.is_plain:
                raise
            raise CakeError(map(self.problem, error.problems), error.source) from None

    def _said(self, text: str, words: dict[str, str]) -> str:
        if not any(word in text.lower() for word in words):
            return text
        stays = "|".join([r"“[^”]*”", r'"[^"]*"', *(re.escape(own) for own in self.kept if own)])
        known = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
        pattern = rf"(?P<stays>{stays})|(?<!\w)(?P<word>{known})(?!\w)"
        return re.sub(pattern, _in(words), text, flags=re.IGNORECASE)


_BOTH = re.compile(
    r"(?P<mm>-?\d[\d.]*)(?P<a>[ \u00a0])mm(?P<b>[ \u00a0])"
    r"\((?P<inches>[^().]*?)(?P<c>[ \u00a0])in\)"
)
"""A length as ``units.in_both`` writes it: of a check bar, in decimals, the mm stay first."""


def inches_first(text: str) -> str:
    """Return a text with its lengths in inches first: ``8¼ in (209.6 mm)``; no wider."""
    return _BOTH.sub(r"\g<inches>\g<c>in\g<b>(\g<mm>\g<a>mm)", text)


def _in(words: dict[str, str]) -> Callable[[re.Match[str]], str]:
    """Return what takes the place of a match, with its capital or in capitals."""

    def said(match: re.Match[str]) -> str:
        if match["stays"] is not None:
            return match[0]
        word = words[match["word"].lower()]
        if match[0].isupper():
            return word.upper()
        return word[:1].upper() + word[1:] if match[0][:1].isupper() else word

    return said


UK_TERMS = Terms()
"""Texts stay as they are written."""


def place_of(value: object) -> str:
    """Return the place that a value names, or the usual one."""
    return value if isinstance(value, str) and value in PLACES else UK
