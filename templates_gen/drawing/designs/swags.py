"""Swags: strings that hang from point to point."""

from __future__ import annotations

from typing import Literal

from templates_gen.drawing.designs.motif import Cell, Motif, within
from templates_gen.geometry.curves import Catenary
from templates_gen.geometry.path import Path

USUAL_DROP = 0.28
"""Drop over the width of a swag, where none is said: a fifth to a third, common practice."""
SECOND = 1.5
"""How much deeper the lower string of a double swag hangs."""


def swags(
    cell: Cell,
    *,
    drop: float | None = None,
    form: Literal["single", "overlapped", "double"] = "single",
) -> Motif:
    """Return the strings hung up at the sides of a repeat, ``drop`` mm deep in the middle.

    Overlapped: each string passes over the next point and ends at the one after it. Double: a
    second string hangs half as deep again below the first.
    """
    span = cell.width * (2 if form == "overlapped" else 1)
    depths = SECOND if form == "double" else 1.0
    sag = min(USUAL_DROP * span, cell.height / depths) if drop is None else drop
    within("drop", sag, cell.height / depths, "the band of the design")
    strings = [Catenary(span, sag)]
    if form == "double":
        strings.append(Catenary(span, sag * SECOND))
    paths = tuple(string.path() for string in strings)
    return Motif(paths, values=string_values(strings), lengths={"string_length_mm": paths})


def string_values(strings: list[Catenary]) -> dict[str, float | tuple[float, ...]]:
    """Return length and sag of one string, or of several."""
    if len(strings) == 1:
        return {"string_length_mm": strings[0].length, "sag_mm": strings[0].sag}
    return {
        "string_length_mm": tuple(string.length for string in strings),
        "sag_mm": tuple(string.sag for string in strings),
    }


def closed_above(path: Path) -> Path:
    """Return an open path with a straight line back to its start."""
    return Path((*path.commands[:-1], ("closePath", ())))
