"""Numbers without a unit in the data of a cake file, written out so that the unit may change."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

from templates_gen.cakefile.keys import KeyInfo, changed
from templates_gen.cakefile.lengths import BARE, UNITS


def with_units(data: Mapping[str, Any]) -> dict[str, Any]:
    """Return data in which each length that is a bare number has the unit of the file.

    Other values, and values that are wrong, are returned unchanged.
    """
    unit = data.get("unit")

    def with_unit(key: KeyInfo, value: Any) -> Any:  # noqa: ANN401 (any TOML value)
        return f"{value} {unit}" if key.kind == "length" and is_bare(value) else value

    return changed(data, with_unit) if unit in UNITS else dict(data)


def is_bare(value: object) -> bool:
    """Tell whether a value is a number without a unit, written as a text or not."""
    if isinstance(value, str):
        return re.fullmatch(BARE, value) is not None
    return isinstance(value, int | float) and not isinstance(value, bool)
