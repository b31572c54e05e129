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
    "modelling": "modeling",
    "levelled": "leveled",
    "lustre": "luster",
    "vapour": "vapor",
    "vapours": "vapors",
}
PLACES = {UK: {}, "us": US}
"""What a place says in place of the UK's words. Both spellings are in any dictionary."""
CURRENCIES = {UK: "£", "us": "$"}
"""The sign of prices in each place."""
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
KEYS = frozenset({"colour", "mould", "modelling"})
"""Words of keys and values of the cake file, which messages name as the file has them."""


@dataclass(frozen=True, slots=True)
class Terms:
    """The words of a place; texts that are ``kept`` are the decorator's own and stay.

    Of a cake file in ``inches`` these come first in every length, the mm after it in brackets. In
    the US pounds come first in every weight, and days and hours are written as there.
    """

    place: str = UK
    kept: tuple[str, ...] = ()
    inches: bool = False

    @property
    def unit(self) -> str:
        """What lengths are in where there is room for one unit only."""
        return unit_of(inches=self.inches)

    @property
    def is_plain(self) -> bool:
        """Whether texts stay as they are written."""
        return self.place == UK and not self.inches

    def text(self, text: str) -> str:
        """Return a text in the words of the place; what stands in quotation marks stays."""
        text = self.spelled(self._ordered(text))
        return text if self.place == UK else self._replaced(_WHEN, _when_in_us, text)

    def spelled(self, text: str) -> str:
        """Return a text in the words of the place alone, its amounts, days and hours as written."""
        return self._said(text, PLACES[self.place])

    def _ordered(self, text: str) -> str:
        text = inches_first(text) if self.inches else text
        return text if self.place == UK else pounds_first(text)

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
        known = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
        return self._replaced(rf"(?<!\w)(?P<word>(?i:{known}))(?!\w)", _in(words), text)

    def _replaced(self, pattern: str, said: _Said, text: str) -> str:
        """Replace what a pattern finds, outside quotation marks and the decorator's own words."""
        stays = [r"“[^”]*”", r'"[^"]*"']
        stays += [rf"(?<!\w)(?i:{re.escape(own)})(?!\w)" for own in self.kept if own]
        return re.sub(
            rf"(?P<stays>{'|'.join(stays)})|{pattern}",
            lambda found: found[0] if found["stays"] is not None else said(found),
            text,
        )


def unit_of(*, inches: bool) -> str:
    """Return what numbers alone are in."""
    return "inches" if inches else "mm"


_BOTH = re.compile(
    r"(?P<mm>-?\d[\d.]*)(?P<a>[ \u00a0])mm(?P<b>[ \u00a0])"
    r"\((?P<inches>[^().]*?)(?P<c>[ \u00a0])in\)"
)
"""A length as ``units.in_both`` writes it: of a check bar, in decimals, the mm stay first."""


_LONG = re.compile(
    r"(?P<metric>\d[\d.]*[ \u00a0]m)(?P<blank>[ \u00a0])\((?P<imperial>[^()]*?[ \u00a0](?:yd|in))\)"
)
"""A long length as ``units.metres`` and ``units.about_metres`` write it."""


def inches_first(text: str) -> str:
    """Return a text with inches and yards first: ``8¼ in (209.6 mm)``; no wider."""
    text = _LONG.sub(r"\g<imperial>\g<blank>(\g<metric>)", text)
    return _BOTH.sub(r"\g<inches>\g<c>in\g<b>(\g<mm>\g<a>mm)", text)


def in_one_unit(text: str, *, inches: bool) -> str:
    """Return a text with each of its lengths in one unit alone, for where there is little room."""
    return _BOTH.sub(r"\g<inches>\g<c>in" if inches else r"\g<mm>\g<a>mm", text)


_MASS = re.compile(
    r"(?P<metric>\d[\d.]*[ \u00a0]k?g)(?P<blank>[ \u00a0])"
    r"\((?P<imperial>[^()]*?[ \u00a0](?:oz|lb))\)"
)
"""A mass as ``bench.amounts`` writes it."""


def pounds_first(text: str) -> str:
    """Return a text with pounds or ounces first: ``2 lb 11 oz (1.23 kg)``."""
    return _MASS.sub(r"\g<imperial>\g<blank>(\g<metric>)", text)


_WHEN = (
    rf"(?P<weekday>{'|'.join(DAYS)}) (?=\d)"
    rf"|(?<!\d)(?P<day>\d\d?) (?P<month>{'|'.join(MONTHS)}|(?:{'|'.join(m[:3] for m in MONTHS)})\b)"
    r"(?P<year> \d{4})?"
    r"|(?<![\d:])(?<!-\d\d )(?P<hour>[01]\d|2[0-3]):(?P<minute>[0-5]\d)(?![\d:]| [ap]m)"
)
"""A day or an hour as lists have it in the UK; not one as it is typed into a cake file."""


def _when_in_us(found: re.Match[str]) -> str:
    """Write a part of a day and an hour as in the US: ``Saturday, June 19, 2027``, ``4:50 pm``."""
    if found["weekday"]:
        return f"{found['weekday']}, "
    if found["day"]:
        year = f",{found['year']}" if found["year"] else ""
        return f"{found['month']} {found['day']}{year}"
    half, hour = divmod(int(found["hour"]), 12)
    return f"{hour or 12}:{found['minute']} {'ap'[half]}m"


_Said = Callable[[re.Match[str]], str]
"""What takes the place of what is found."""


def _in(words: dict[str, str]) -> _Said:
    """Return what takes the place of a match, with its capital or in capitals."""

    def said(match: re.Match[str]) -> str:
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
