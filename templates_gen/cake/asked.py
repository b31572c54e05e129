"""What every table of the cake file is made of."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ConfigDict, Field


def about(text: str, example: str, default: Any = None) -> Any:  # noqa: ANN401 (as Field itself)
    """Declare a field: what it is, how a value is written, what it is when left out."""
    return Field(default=default, description=text, examples=[example], validate_default=False)


class Asked(BaseModel):
    """A table of the cake file: frozen, and strict about keys and values."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)
