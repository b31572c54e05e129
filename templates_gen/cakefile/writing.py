"""From a Cake back to the text of a cake file, with what the decorator asked for and no more."""

from __future__ import annotations

from typing import Any

import tomli_w
from pydantic import BaseModel

from templates_gen.cakefile.attached import Attached
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.model import Cake


def cake_text(cake: Cake) -> str:
    """Return a cake file that reads back as an equal cake."""
    return tomli_w.dumps(_asked(cake))


def _asked(model: BaseModel) -> dict[str, Any]:
    """Return the fields that were given, in the order of the reference."""
    given = model.model_fields_set
    return {
        name: _plain(getattr(model, name)) for name in type(model).model_fields if name in given
    }


def _plain(value: object) -> Any:  # noqa: ANN401 (any TOML value)
    if isinstance(value, BaseModel):
        return _asked(value)
    if isinstance(value, tuple):
        return [_plain(part) for part in value]
    if isinstance(value, Attached):
        return value.name
    return value.text if isinstance(value, Length) else value
