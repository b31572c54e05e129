"""The pack mark: five characters on every sheet, which tell the sheets of two versions apart."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from typing import Any

from pydantic import BaseModel

import templates_gen
from templates_gen.cakefile.attached import Attached
from templates_gen.cakefile.lengths import Length
from templates_gen.cakefile.model import Cake
from templates_gen.cakefile.papers import Paper
from templates_gen.drawing.piece import Piece

CHARACTERS = "CDFHJKMNPRTWXY34679"
"""No two look alike in print or handwriting, and without vowels they spell no word."""
PLACES = 5
NOT_HEEDED = {"paper", "unit"}
"""Keys of the cake that change no sheet: the papers are given, and every length has its unit."""


def pack_mark(
    cake: Cake, pieces: Sequence[Piece], papers: Sequence[tuple[Paper, tuple[Paper, ...]]]
) -> str:
    """Return the pack mark of a cake's pieces on papers, such as ``K7RW3``.

    It comes from what was asked: the cake with its attached files, which of its pieces, the
    papers with those they share a layout with, and the version of the program. Two versions
    have the same mark by chance once in about 2.5 million (19 to the power of 5).
    """
    asked = {
        "version": templates_gen.__version__,
        "cake": {key: value for key, value in _plain(cake).items() if key not in NOT_HEEDED},
        "pieces": [piece.id for piece in pieces],
        "papers": list(papers),
    }
    text = json.dumps(asked, sort_keys=True, default=str)
    digest = hashlib.sha256(text.encode()).digest()
    return "".join(CHARACTERS[place % len(CHARACTERS)] for place in digest[:PLACES])


def _plain(value: object) -> Any:  # noqa: ANN401 (any JSON value)
    """Return what was understood as JSON values: of a length its mm, of a file its digest."""
    if isinstance(value, BaseModel):
        return {name: _plain(getattr(value, name)) for name in type(value).model_fields}
    if isinstance(value, tuple):
        return [_plain(each) for each in value]
    if isinstance(value, Length):
        return value.mm
    if isinstance(value, Attached):
        return [value.name, hashlib.sha256(value.content).hexdigest()]
    return value
