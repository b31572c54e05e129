"""What stands upright through a paper, dowels and pillars: their crosses, and room for words."""

from __future__ import annotations

from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Value
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import TEXT
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.pieces.marks import quadrant, strokes
from templates_gen.tiers.dowels import Support
from templates_gen.tiers.pose import Pose

CROSS = 5.0
"""Half the length of a cross to prick, mm, where the dowel is no thicker."""


def upright_marks(support: Support, thick: float) -> Drawing:
    """Draw a numbered cross for each dowel, in a ring ``thick`` mm wide; T for the one through all.

    The ring is as wide as the dowel, or as the pillar over it.
    """
    named = [(str(number), place, thick) for number, place in enumerate(support.places, 1)]
    if support.through is not None:
        named.append(("T", support.through, support.thickness))
    drawn: list[Stroke] = []
    labels: list[Label] = []
    for name, (x, y), wide in named:
        half = wide / 2
        arm = max(half, CROSS)
        drawn += strokes(Role.SCORE, ((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm)))
        drawn.append(Stroke(circle((x, y), half), Role.GUIDE))
        labels.append(Label(name, (x + half + 1, y + half * 0.5), TEXT, bold=True))
    return Drawing(tuple(drawn), tuple(labels))


def upright_places(support: Support, noun: str) -> dict[str, Value]:
    """Return where dowels or pillars stand, right of and behind the middle, as values in mm."""
    right, back = zip(*support.places, strict=True) if support.places else ((), ())
    return {f"{noun}s_right_mm": right, f"{noun}s_back_mm": back}


def free_space(
    area: Outline, place: Pose, support: Support | None, thick: float, taken: tuple[Box, ...] = ()
) -> Box:
    """Return a quarter round the middle of a board free of what stands there, or one within it.

    The first of the quarters right and back, left and back, left and front, right and front of
    where the board's ``place`` is, free of what is ``taken`` too.
    """
    places = support.places if support else ()
    across = thick / 2 + 2 if support else 0.0
    quarter = quadrant(area, across + 6 if places else 3.0)
    boxes = [
        Box.round([(sx * quarter.x0, sy * quarter.y0), (sx * quarter.x1, sy * quarter.y1)])
        for sx, sy in ((1, 1), (-1, 1), (-1, -1), (1, -1))
    ]
    boxes = [box.moved(place.right, place.back) for box in boxes]
    standing = [Box(x, y, x, y).expanded(across) for x, y in places]
    closed = (*standing, *taken)
    free = (box for box in boxes if not any(box.intersection(each) for each in closed))
    within = quadrant(area.scaled(0.5)) if places else quarter
    return next(free, within.moved(place.right, place.back))
