"""What every table of the cake file is made of: a frozen model of fields that explain themselves.

Each field's description, example and bounds are the one source for the command ``keys``, the page,
the options of the one-off commands and the messages about a cake file. Modules of models do not
postpone annotations: pydantic would have to compile them from text at every start.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel, ConfigDict, Field

from templates_gen.errors import Key


class Table(BaseModel):
    """A table of the cake file."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, defer_build=True)


def values_in(value: object, key: Key = ()) -> Iterator[tuple[Key, object]]:
    """Yield each value of a table and of all within it, with its key."""
    if isinstance(value, BaseModel):
        for name, each in value:
            yield from values_in(each, (*key, name))
    elif isinstance(value, tuple):
        for index, each in enumerate(value):
            yield from values_in(each, (*key, index))
    else:
        yield key, value


def about(text: str, example: str, default: Any = None) -> Any:  # noqa: ANN401 (as Field itself)
    """Declare a field: what it is, how a value is written, what it is when left out.

    One that must not be left out has ``...`` there.
    """
    return Field(default=default, description=text, examples=[example], validate_default=False)


MOST = 50
"""Tables of one kind in a table."""


def tables(text: str, example: str, most: int = MOST) -> Any:  # noqa: ANN401 (as Field itself)
    """Declare a field of up to ``most`` tables."""
    return Field(default=(), description=text, examples=[example], strict=False, max_length=most)
