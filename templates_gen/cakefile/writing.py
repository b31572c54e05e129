"""From a Cake back to the text of a cake file, with what was written in it and no more."""

from __future__ import annotations

from typing import Any

import tomlkit
from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import Length
from templates_gen.drawing.attached import Attached


def cake_text(cake: Cake) -> str:
    """Return a cake file that reads back as an equal cake."""
    return tomlkit.dumps(_written(cake))


def _written(model: BaseModel) -> dict[str, Any]:
    """Return the fields that were given, in the order of the reference, tables last."""
    given = model.model_fields_set
    values = {
        name: _plain(getattr(model, name)) for name in type(model).model_fields if name in given
    }
    return dict(sorted(values.items(), key=lambda item: _is_table(item[1])))


def _is_table(value: object) -> bool:
    return isinstance(value, dict) or (
        isinstance(value, list) and any(isinstance(each, dict) for each in value)
    )


def _plain(value: object) -> Any:  # noqa: ANN401 (any TOML value)
    if isinstance(value, BaseModel):
        return _written(value)
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, Attached):
        return value.name
    return value.text if isinstance(value, Length) else value
