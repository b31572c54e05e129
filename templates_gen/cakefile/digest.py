"""The digest of a cake: the same for cakes that are the same, however they are written."""

from __future__ import annotations

import hashlib
import json
from typing import Any

from pydantic import BaseModel

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.lengths import Length
from templates_gen.drawing.attached import Attached

LEFT_OUT = {"paper", "printer", "unit", "title"}
"""Keys that change no piece: paper and printer are given, every length has its unit, and a class
has the same cake under many titles."""


def digest(cake: Cake) -> str:
    """Return a digest of every value of a cake, its attached files included."""
    values = {key: value for key, value in cake if key not in LEFT_OUT}
    return hashlib.sha256(json.dumps(values, sort_keys=True, default=_plain).encode()).hexdigest()


def _plain(value: object) -> Any:  # noqa: ANN401 (any JSON value)
    """Return what was understood as JSON values: of a length its mm, of a file its digest."""
    if isinstance(value, BaseModel):
        return dict(value)
    if isinstance(value, Length):
        return value.mm
    if isinstance(value, Attached):
        return [value.name, hashlib.sha256(value.content).hexdigest()]
    return str(value)
