"""Numbers without a unit in the data of a cake file, written out so that the unit may change."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.keys import KeyInfo, keys_of
from templates_gen.cakefile.lengths import BARE, UNITS

_BARE = re.compile(BARE)


def with_units(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return data in which each length that is a bare number has the unit of the file.

    Other values, and values that are wrong, are returned unchanged.
    """
    unit = data.get("unit")
    return _table(Cake, data, unit) if unit in UNITS else dict(data)


def _table(model: type[BaseModel], data: Mapping[str, Any], unit: str) -> dict[str, Any]:
    known = keys_of(model)
    return {
        name: _with_unit(known[name], value, unit) if name in known else value
        for name, value in data.items()
    }


def _with_unit(key: KeyInfo, value: Any, unit: str) -> Any:  # noqa: ANN401 (any TOML value)
    if isinstance(value, list):
        return [_with_unit(key, each, unit) for each in value]
    if key.table is not None:
        return _table(key.table, value, unit) if isinstance(value, Mapping) else value
    is_bare = isinstance(value, int | float) and not isinstance(value, bool)
    if isinstance(value, str):
        is_bare = bool(_BARE.fullmatch(value))
    return f"{value} {unit}" if key.kind == "length" and is_bare else value
