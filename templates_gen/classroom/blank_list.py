"""The list of a class to fill in: the headings for a cake, and rows with its own values."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from templates_gen.cakefile.keys import key_at
from templates_gen.cakefile.overrides import tier_names
from templates_gen.errors import Key
from templates_gen.spreadsheet import csv_bytes

ROWS = ("First person", "Second person")
"""Names to write over: whoever fills the list in copies a row for each person."""
USUAL = ("paper", "size", "depth", "text", "cap_height")
"""Keys of which a list has a column unasked, where the cake, a tier or its words have them."""


@dataclass(frozen=True, slots=True)
class Column:
    """What may differ from cake to cake: its key, its heading in the list, and its value."""

    key: Key
    heading: str
    value: str

    @property
    def is_usual(self) -> bool:
        """Whether a list has it unasked."""
        inner = [part for part in self.key if isinstance(part, str)]
        return inner[-1] in USUAL and not {*inner[:-1]} - {"tier", "lettering", "letter_cake"}


def blank_list(data: Mapping[str, Any], more: Collection[str], names: Collection[str]) -> bytes:
    """Return the list of a class for a cake, as CSV: a column for what often differs.

    ``data`` is that of a cake that can be made. Each row has its values, so the list as it comes
    makes the cake itself for everybody. ``more`` has the headings of other columns to add, and
    there is a row for each of the ``names``.
    """
    chosen = [each for each in columns(data) if each.is_usual or each.heading in more]
    rows = [[name, *(each.value for each in chosen)] for name in names]
    return csv_bytes([["name", *(each.heading for each in chosen)], *rows])


def columns(data: Mapping[str, Any]) -> Iterator[Column]:
    """Yield every column that the list of a cake can have: paper, and each value of the cake."""
    tiers = dict(enumerate(tier_names(data)))
    for key, value in _values({"paper": "a4", **data}, ()):
        if _is_column(key, value):
            yield Column(key, _heading(key, tiers), _text(value))


def _values(value: object, key: Key) -> Iterator[tuple[Key, object]]:
    """Yield what is set within a table, each with its key; a list of values is left out."""
    if isinstance(value, Mapping):
        for name, inner in value.items():
            yield from _values(inner, (*key, name))
    elif isinstance(value, list | tuple):
        for index, inner in enumerate(value):
            if isinstance(inner, Mapping):
                yield from _values(inner, (*key, index))
    else:
        yield key, value


def _is_column(key: Key, value: object) -> bool:
    """Tell whether a value can be set for a person: no name of a tier, and no file of one's own."""
    info = key_at(key)
    if info is None or (key[0] == "tier" and key[2:] == ("name",)):
        return False
    return info.kind != "file" or value in info.words


def _heading(key: Key, tiers: Mapping[int, str]) -> str:
    """Return the name of a key as the option ``--set`` takes it: numbers count from 1."""
    if key[0] == "tier" and isinstance(key[1], int):
        return ".".join((tiers[key[1]], *_words(key[2:])))
    return ".".join(_words(key))


def _words(key: Key) -> list[str]:
    return [str(part + 1) if isinstance(part, int) else part for part in key]


def _text(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)
