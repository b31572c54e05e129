"""Strips set round a side: how long they are before they are gathered, and how many one rolls."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.cakefile.designs import Design
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.designs.motif import Motif
from templates_gen.drawing.piece import Value
from templates_gen.geometry.areas.sampling import path_length
from templates_gen.geometry.path import line
from templates_gen.tiers.side import Side


@dataclass(frozen=True, slots=True)
class Strip:
    """So many strips of one size, lengths in mm: what they are, as they are cut, before gathering.

    Of mats the last is cut shorter: what is ``left`` of it.
    """

    name: str
    count: int
    length: float
    width: float
    left: float = 0.0


def level_length(side: Side, v: float) -> float:
    """Return the true length once round a side at v, mm."""
    return path_length(side.unrolled(line((0.0, v), (side.girth, v))))


def strips(
    side: Side, spec: Design, drawn: Sequence[Motif], counts: Sequence[int], top: float
) -> tuple[Strip, ...]:
    """Return the strips of a design whose band starts at v = ``top``, row by row.

    ``counts`` says how many repeats each of the motifs has.
    """
    hung = drawn[0].hung
    rows = [
        _row(
            spec,
            level_length(side, top + each.level),
            each.height,
            f"row {number}" if hung[1:] else "",
        )
        for number, each in enumerate(hung, 1)
    ]
    flats = (
        Strip(flat.name, count * flat.number, flat.length, flat.width)
        for motif, count in zip(drawn, counts, strict=True)
        for flat in motif.flats
    )
    return (*rows, *flats)


def _row(spec: Design, finished: float, width: float, name: str) -> Strip:
    """Return the strips of one row: as few of one length as one can roll, or whole mats.

    Strips laid end to end round a tier join as often as there are strips, each join a lap.
    """
    cut = DESIGNS[spec.kind].strip
    if cut is None:
        raise AssertionError("only designs that are cut in strips hang them")
    fullness = cut.fullness if spec.fullness is None else spec.fullness
    flat, longest = finished * fullness, spec.strip.mm
    count = max(1, math.ceil(flat / (longest - cut.lap) - 1e-9))
    if cut.is_mat:
        return Strip(name, count, longest, width, count * longest - flat)
    return Strip(name, count, flat / count + cut.lap, width)


def strip_values(found: Sequence[Strip]) -> dict[str, Value]:
    """Return strips as figures of a piece, by row; nothing for none."""
    if not found:
        return {}
    values: dict[str, Value] = {
        "strip_count": tuple(each.count for each in found),
        "strip_length_mm": tuple(each.length for each in found),
        "strip_width_mm": tuple(each.width for each in found),
    }
    if any(each.left for each in found):
        values["left_over_mm"] = tuple(each.left for each in found)
    return values
