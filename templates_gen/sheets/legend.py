"""The legend of a sheet: the kinds of line that are on it, each with its name."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.box import Point
from templates_gen.geometry.path import line

SAMPLE, GAP, BETWEEN_ENTRIES = 6.0, 1.2, 3.0
"""Length of a line that is shown, before its name, and between two entries, mm."""
RAISED = 0.95
"""How high a line is shown over the foot of its name, mm."""

Slot = tuple[Point, float]
"""Where upright words start, and how far they may reach, mm."""


def legend(roles: Iterable[Role], slots: Sequence[Slot]) -> Drawing:
    """Show some kinds of line in upright slots: as many as have room, in their order."""
    drawing = Drawing()
    rest = [(at, at[1] + length) for at, length in slots]
    for role in sorted(roles, key=list(Role).index):
        name = Label(role.brief, (0.0, 0.0), LEAST_TEXT, turn=90)
        long = SAMPLE + GAP + name.width
        for index, ((x, y), end) in enumerate(rest):
            if y + long <= end:
                drawing += _entry(role, (x, y))
                rest[index] = (x, y + long + BETWEEN_ENTRIES), end
                break
    return drawing


def _entry(role: Role, at: Point) -> Drawing:
    x, y = at
    sample = Stroke(line((x - RAISED, y), (x - RAISED, y + SAMPLE)), role)
    name = Label(role.brief, (x, y + SAMPLE + GAP), LEAST_TEXT, turn=90)
    return Drawing((sample,), (name,))
