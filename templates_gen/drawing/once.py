"""Lines of a drawing that lie on each other: the one that matters most is drawn, and it alone."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.drawing import Stroke
from templates_gen.drawing.roles import Role
from templates_gen.geometry.areas.once import drawn_once

_RANKS = {role: rank for rank, role in enumerate(Role)}


def lines_once(strokes: Iterable[Stroke]) -> tuple[Stroke, ...]:
    """Return strokes of which none lies on another: guides give way to cut and fold."""
    ordered = sorted(strokes, key=lambda stroke: _RANKS[stroke.role])
    paths = drawn_once([stroke.path for stroke in ordered])
    return tuple(
        # a cut edge stays closed
        stroke if path is stroke.path or stroke.role is Role.CUT else Stroke(path, stroke.role)
        for stroke, path in zip(ordered, paths, strict=True)
        if path.commands or stroke.role is Role.CUT
    )
