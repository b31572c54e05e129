"""The name of a part of a piece, where it has room on it."""

from __future__ import annotations

from itertools import product

from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, TEXT
from templates_gen.geometry.areas.booleans import Area
from templates_gen.geometry.areas.placement import FreeSpace


def named(title: str, paper: Area, drawing: Drawing) -> Drawing:
    """Write the name of the part where it has room on it, level or upright."""
    taken = [label.box.expanded(1.0) for label in drawing.labels]
    free = FreeSpace(paper, taken, [stroke.path for stroke in drawing.strokes])
    for size, turn in product((TEXT, SMALL, LEAST_TEXT), (0, 90)):
        box = Label(title, (0.0, 0.0), size, bold=True, turn=turn).box.expanded(1.0)
        at = free.place(box.width, box.height)
        if at is not None:
            start = at[0] - box.x0, at[1] - box.y0
            return Drawing(labels=(Label(title, start, size, bold=True, turn=turn),))
    return Drawing()
