"""Changes to the text of a cake file: what stays as it was keeps its comments and its form."""

from __future__ import annotations

import math
import tomllib
from collections.abc import Callable, Iterator, Mapping, MutableMapping
from datetime import date, time
from typing import Any

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.items import AoT, Table

from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.writing import cake_text
from templates_gen.errors import CakeError

Data = dict[str, Any]


def plain(value: Any) -> Any:  # noqa: ANN401 (any TOML value)
    """Return a TOML value as JSON has it: days, hours, nan and infinities as text."""
    if isinstance(value, Mapping):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, list):
        return [plain(each) for each in value]
    if isinstance(value, date | time) or (isinstance(value, float) and not math.isfinite(value)):
        return str(value)
    return value.unwrap() if hasattr(value, "unwrap") else value


def saved(data: Data, before: str = "") -> str:
    """Return the text of a cake file; what is as it was ``before`` keeps its comments and form.

    A cake that is wrong is written too, so that no work is lost.
    """
    kept = _kept(data, before) if before else None
    if kept is not None:
        return kept
    try:
        return cake_text(cake_from(data))
    except CakeError:
        return tomlkit.dumps(_filled(tomlkit.document(), data))


def _kept(data: Data, before: str) -> str | None:
    """Return the text before with the data in it, or None where that cannot be done."""
    try:
        text = tomlkit.dumps(_filled(tomlkit.parse(before), data))
        return text if plain(tomllib.loads(text)) == plain(data) else None
    except (TOMLKitError, ValueError, KeyError, IndexError, TypeError, AttributeError):
        return None


def _filled(table: Any, data: Mapping[str, Any]) -> Any:  # noqa: ANN401 (tomlkit's containers)
    """Return a table of a document with exactly this data; what is equal stays untouched."""
    for key in [key for key in table if key not in data]:
        del table[key]
    for key, value in data.items():
        old = table.get(key)
        if old is not None and plain(old) == value and type(plain(old)) is type(value):
            continue
        if isinstance(old, MutableMapping) and isinstance(value, dict):
            _filled(old, value)
        elif isinstance(old, AoT) and _are_tables(value):
            _refill(old, value)
        elif old is not None and hasattr(old, "trivia"):
            table[key] = _with_comment(tomlkit.item(_item(value)), old)
        else:
            table[key] = _item(value)
    return table


def _with_comment(new: Any, old: Any) -> Any:  # noqa: ANN401 (tomlkit's items)
    new.trivia.comment, new.trivia.comment_ws = old.trivia.comment, old.trivia.comment_ws
    return new


def _are_tables(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(each, dict) for each in value)


def _refill(tables: AoT, data: list[Data]) -> None:
    """Make an array hold these tables, each from the old table that is most like it."""
    old = list(tables.body)
    chosen = list(_matched(old, data))
    while len(tables):
        del tables[len(tables) - 1]
    for table, each in zip(chosen, data, strict=True):
        tables.append(_filled(_fresh() if table is None else table, each))


def _fresh() -> Table:
    """Return a new table for an array, with a blank line before it."""
    table = tomlkit.table()
    table.trivia.indent = "\n"
    return table


def _matched(old: list[Table], data: list[Data]) -> Iterator[Table | None]:
    """Yield for each entry the old table that is equal, or named alike, or in its place."""
    free = dict(enumerate(old))
    whole = [plain(table) for table in old]
    found: dict[int, int] = {}
    rules: tuple[Callable[[int, int], bool], ...] = (
        lambda entry, index: whole[index] == data[entry],
        lambda entry, index: (
            "name" in data[entry] and whole[index].get("name") == data[entry]["name"]
        ),
        lambda entry, index: entry == index and len(old) == len(data),
    )
    for rule in rules:
        for entry in (entry for entry in range(len(data)) if entry not in found):
            index = next((index for index in free if rule(entry, index)), None)
            if index is not None:
                found[entry] = index
                del free[index]
    for entry in range(len(data)):
        yield old[found[entry]] if entry in found else None


def _item(value: Any) -> Any:  # noqa: ANN401 (any JSON value)
    """Return a value as tomlkit writes it: a list of tables as [[...]]."""
    if isinstance(value, dict):
        return _filled(tomlkit.table(), value)
    if value and _are_tables(value):
        tables = tomlkit.aot()
        for each in value:
            tables.append(_item(each))
        return tables
    return value
