"""The strokes of a piece, prepared once for all its windows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from templates_gen.drawing.drawing import Stroke
from templates_gen.geometry.areas.lines import Line, sampled_lines
from templates_gen.geometry.box import Box


@dataclass(frozen=True, slots=True)
class Drawn:
    """A stroke, the box round it, and its line as points: worked out once for all windows."""

    stroke: Stroke
    bounds: Box
    line: Line


def drawn_strokes(strokes: Iterable[Stroke]) -> tuple[Drawn, ...]:
    """Return strokes prepared for windows."""
    return tuple(Drawn(each, each.path.bounds, sampled_lines(each.path)) for each in strokes)
