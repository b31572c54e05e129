"""What every key of the cake file is for, table by table: for the screen, and as data."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.keys import KeyInfo, keys_of, tables
from templates_gen.units import capital

TOP = "top"
"""The name of the keys outside all tables."""
Data = dict[str, Any]


def reference() -> list[Data]:
    """Return every table of the cake file, in the order of a file: its name, what it is, its keys.

    ``heading`` is how the file writes it, such as ``[[tier.design]]``.
    """
    found = [("", TOP, Cake), *((each, each.strip("[]"), model) for each, model in tables())]
    return [
        {
            "table": name,
            "heading": heading,
            "about": " ".join((model.__doc__ or "").split()),
            "keys": [_key(info) for info in keys_of(model).values()],
        }
        for heading, name, model in found
    ]


def named(tables: list[Data], name: str) -> list[Data]:
    """Return the tables of a name: in full, with its brackets or not, or its last part alone."""
    wanted = name.strip("[] ").lower()
    whole = [each for each in tables if each["table"] == wanted]
    return whole or [each for each in tables if each["table"].split(".")[-1] == wanted]


def _key(info: KeyInfo) -> Data:
    plain = info.default is not None and not isinstance(info.default, BaseModel)
    flag = isinstance(info.default, bool)
    default = info.default if flag else str(info.default) if plain else None
    return {
        "key": info.name,
        "example": info.example,
        "about": info.description,
        "kind": info.kind,
        "several": info.several,
        "required": info.required,
        "default": None if info.required or default in ("", "()") else default,
        "choices": list(info.words),
    }


def lines(table: Data) -> Iterator[tuple[int, str]]:
    """Yield the lines of one table, each with how far it is indented, in steps."""
    yield 0, table["heading"] or "Keys at the top of the file"
    yield 0, table["about"]
    for key in table["keys"]:
        example = key["example"]
        yield 1, example if key["kind"] == "table" else f"{key['key']} = {example}"
        yield 2, _sentence(key)


def _sentence(key: Data) -> str:
    """Return what a key is for, the words it takes, and what holds without it."""
    about, choices = key["about"], key["choices"] if key["kind"] == "words" else []
    parts = [f"{capital(about)}."]
    if not all(word in about for word in choices):
        parts.append(f"One of: {', '.join(choices)}.")
    if key["required"]:
        parts.append("Required.")
    elif key["default"] is not None and "default:" not in about:
        default = key["default"]
        parts.append(f"Default: {str(default).lower() if default in (True, False) else default}.")
    return " ".join(parts)
