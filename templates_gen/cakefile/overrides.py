"""Values set beside a cake file: ``bottom.size = 9 in`` for the tier called bottom.

Where there is one tier, or one entry of a list, its name or number may be left out.
"""

from __future__ import annotations

import copy
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from templates_gen.cakefile.bare_numbers import with_units
from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.keys import key_at, keys_of
from templates_gen.cakefile.spelling import hint
from templates_gen.cakefile.tier import Tier
from templates_gen.errors import CakeError, Key, Problem

Data = dict[str, Any]
_EXAMPLE = "write for example bottom.size"
_QUOTED = re.compile(r"""(^|\.)(["'])(.+?)\2(?=\.|$)""")
"""A part of a name in quotes."""


@dataclass(frozen=True, slots=True)
class Override:
    """A name as it was typed, such as ``bottom.size``, and its value; empty takes the key away."""

    name: str
    value: str


def parse_override(text: str) -> Override:
    """Read ``NAME=VALUE``. Raises ValueError for a text without a name or an equals sign."""
    name, sign, value = text.partition("=")
    if not sign or not name.strip():
        raise ValueError("no NAME=VALUE")
    return Override(name.strip(), value.strip())


def overridden(data: Mapping[str, Any], overrides: Iterable[Override]) -> tuple[Data, list[Key]]:
    """Return the data of a cake file with values set, and the key of each.

    Where the unit is set, bare numbers of the file keep theirs; it holds for what is set later.

    Raises CakeError with every name that the cake does not have; the key of such a problem is the
    name.
    """
    made: Data = copy.deepcopy(dict(data))
    keys: list[Key] = []
    problems: list[Problem] = []
    for override in overrides:
        try:
            keys.append(_set(made, override))
        except CakeError as error:
            problems += error.problems
    if problems:
        raise CakeError(problems)
    return made, keys


def _set(data: Data, override: Override) -> Key:
    """Set one value, or take it away, and return its key."""
    key = _whole(data, _key(data, override.name))
    table: Any = data
    for part, after in pairwise(key):
        if isinstance(part, str) and part not in table and isinstance(after, str):
            table[part] = {}
        table = _entry(table, part, override.name)
    if isinstance(table, list):
        raise _one_of(override.name, len(table))
    if not isinstance(table, dict):
        raise _unknown(override.name, "this is no table", "the name of a key at its end", _EXAMPLE)
    if key == ("unit",):
        data |= with_units(data)
    if override.value:
        table[str(key[-1])] = _checked(key, override)
    else:
        table.pop(str(key[-1]), None)
    return key


def _whole(data: Data, key: Key) -> Key:
    """Return a key with the number that was left out of each list of one entry."""
    found: list[str | int] = []
    table: Any = data
    for part in key:
        if isinstance(table, list) and len(table) == 1 and isinstance(part, str):
            found.append(0)
            table = table[0]
        found.append(part)
        try:
            table = table[part]
        except (KeyError, TypeError, IndexError):
            table = None
    return tuple(found)


def _checked(key: Key, override: Override) -> Any:  # noqa: ANN401 (any TOML value)
    """Return a value as a cake file has it: of a key that takes a text, 60 is one too.

    Raises CakeError for a text in place of a table.
    """
    value, info = _value(override.value), key_at(key)
    if info is not None and info.kind == "text" and not info.several:
        return value if isinstance(value, str) else override.value
    if info is None or info.table is None or isinstance(value, dict | list):
        return value
    inner = f"{override.name}{'.1' * info.several}.{next(iter(keys_of(info.table)))}"
    found = f"“{override.name}” has keys of its own, and no value"
    advice = f"write for example {inner}"
    raise _unknown(override.name, found, "the name of one of its keys", advice)


def _one_of(name: str, count: int) -> CakeError:
    """Say that a name has to tell which table of a list it is of."""
    of, _, key = name.rpartition(".")
    found = f"“{of}”, of which there may be several" + (f": here {count}" if count else "")
    return _unknown(name, found, "its number too", f"write for example {of}.1.{key}")


def _entry(table: Any, part: str | int, name: str) -> Any:  # noqa: ANN401 (any TOML value)
    """Return what a table or a list holds under one part of a key."""
    if isinstance(part, int) and isinstance(table, list) and part >= len(table):
        allowed = f"1 to {len(table)}" if table else "no number: there is none"
        raise _unknown(name, f"number {part + 1}", allowed, "count from 1, as the cake file does")
    try:
        return table[part]
    except (KeyError, TypeError, IndexError):
        is_known = part in keys_of(Cake) or part in keys_of(Tier)
        advice = "put it on the cake first: then it can be changed" if is_known else _EXAMPLE
        found = f"“{part}”, which this cake does not have"
        raise _unknown(name, found, "keys of the cake file", advice) from None


def _key(data: Data, name: str) -> Key:
    """Return the key that a name stands for: of a tier by its name or number, or of the cake.

    A tier may stand in quotes, as a cake file has it, and one with a name be called ``tier 1`` too.
    """
    typed, name = name, _unquoted(name)
    first, *rest = name.split(".")
    if first.casefold() in keys_of(Cake):
        return _numbered([first.casefold(), *rest])
    tiers = tier_names(data)
    for tier_index, tier in sorted(enumerate(tiers), key=lambda each: -len(each[1])):
        if name.casefold().startswith(f"{tier.casefold()}."):
            return ("tier", tier_index, *_numbered(name[len(tier) + 1 :].split(".")))
    if len(tiers) == 1 and first.casefold() in keys_of(Tier):
        return ("tier", 0, *_numbered([first.casefold(), *rest]))
    number = first.casefold().removeprefix("tier ")
    if number.isdecimal() and 1 <= int(number) <= len(tiers) and rest:
        return ("tier", int(number) - 1, *_numbered(rest))
    raise _no_key(typed, tiers)


def _unquoted(name: str) -> str:
    return _QUOTED.sub(r"\1\3", name)


def _no_key(typed: str, tiers: Sequence[str]) -> CakeError:
    """Return the error of a name that stands for no key of the cake or of one of its tiers."""
    name = _unquoted(typed)
    for tier in tiers:
        if name.casefold() == tier.casefold():
            found, advice = f"“{tier}”, a tier without its key", f"write for example {tier}.size"
            return _unknown(typed, found, "a tier and its key", advice)
    allowed = f"a tier ({', '.join(tiers)}) and its key, or a key of the cake"
    if not tiers:
        allowed = "a key of a cake without tiers"
    found = f"“{name.split('.')[0]}” is neither a tier nor a key"
    return _unknown(typed, found, allowed, _meant(name, tiers))


def _meant(name: str, tiers: Sequence[str]) -> str:
    """Return what may be meant by a name whose first part no tier and no key has."""
    first = name.split(".")[0]
    if tiers and first.casefold() in keys_of(Tier):
        return f"of which tier? Write for example {tiers[0]}.{name.casefold()}"
    for tier in tiers:
        if found := re.match(rf"{re.escape(tier)}[ _-](.+)", name, re.IGNORECASE):
            return f"did you mean “{tier}.{found[1].strip().replace(' ', '_')}”?"
    example = f"{tiers[0]}.size" if tiers else "letter_cake.1.cap_height"
    is_number = first.casefold().removeprefix("tier ").isdecimal()
    known = tiers if is_number else [*tiers, *keys_of(Cake)]
    return hint(first, known) or f"write for example {example}"


def _numbered(parts: Sequence[str]) -> Key:
    """Return a key: a number in a name counts the entries of a list from 1."""
    first, *rest = parts
    return (first, *(int(part) - 1 if part.isdecimal() and part != "0" else part for part in rest))


def tier_names(data: Mapping[str, Any]) -> list[str]:
    """Return what each tier is called in data that may be wrong: its name, or its place."""
    tiers = data.get("tier")
    if not isinstance(tiers, list):
        return []
    named = [tier.get("name") if isinstance(tier, dict) else None for tier in tiers]
    return [
        name if isinstance(name, str) and name else f"tier {number}"
        for number, name in enumerate(named, 1)
    ]


def _value(text: str) -> Any:  # noqa: ANN401 (any TOML value)
    """Read a value as a cake file has it; the quotes of a text may be left off."""
    try:
        return tomllib.loads(f"value = {text}")["value"]
    except (ValueError, RecursionError):
        return text


def _unknown(name: str, found: str, allowed: str, advice: str) -> CakeError:
    return CakeError.at((name,), found, allowed, advice)
