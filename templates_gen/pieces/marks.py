"""Marks that several kinds of piece share."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL
from templates_gen.geometry.areas.booleans import covers, region
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import Path, line
from templates_gen.guides.faces import faces

MARK = 10.0
"""Length of a mark at an edge, mm."""


def on_side(labels: Iterable[Label]) -> tuple[Label, ...]:
    """Return labels set with y up as labels of a side, whose v runs down."""
    return tuple(replace(label, at=(label.at[0], -label.at[1])) for label in labels)


def strokes(role: Role, *lines: tuple[Point, Point]) -> tuple[Stroke, ...]:
    """Return straight strokes of one role."""
    return tuple(Stroke(line(start, end), role) for start, end in lines)


QUARTERS = ((0.25, "left"), (0.5, "front"), (0.75, "right"))
"""Shares of the girth from the back join, and what stands there as seen from the front."""

Edge = Callable[[float], float]
"""An edge or line along a side: v at each u, mm."""


def level(v: float) -> Edge:
    """Return a line that is everywhere at one v."""
    return lambda u: v


def quarter_marks(girth: float, top: float, foot: Edge, text: Edge, edge: str = "") -> Drawing:
    """Mark front and quarters on a strip from v = ``top`` to its foot, with names along ``text``.

    The front is a centre line through the whole strip, the quarters are short marks at both edges.
    ``edge`` follows each name: which edge of the strip goes where.
    """
    drawn: list[Stroke] = []
    labels: list[Label] = []
    for share, name in QUARTERS:
        u = share * girth
        if name == "front":
            drawn += strokes(Role.CENTRE, ((u, top), (u, foot(u))))
        else:
            drawn += _edge_marks(Role.GUIDE, u, top, foot(u))
        words = f"{name} {edge}".strip()
        labels.append(Label(words, (u + 1.5, text(u)), SMALL, bold=name == "front"))
    return Drawing(tuple(drawn), tuple(labels))


def _edge_marks(role: Role, u: float, top: float, foot: float) -> tuple[Stroke, ...]:
    mark = min(MARK, (foot - top) / 3)
    return strokes(role, ((u, top), (u, top + mark)), ((u, foot - mark), (u, foot)))


def corner_marks(outline: Outline, top: float, foot: Edge) -> Drawing:
    """Mark the corners of a side on a strip from v = ``top`` to its foot.

    A fold line stands in the middle of each, and short marks where a rounded corner starts and
    ends. At front and back other lines stand already.
    """
    drawn: list[Stroke] = []
    for start, end in outline.corner_spans:
        u = (start + end) / 2 % outline.girth
        taken = (0.0, outline.girth / 2, outline.girth)
        if all(abs(u - place) > 0.5 for place in taken):
            drawn += strokes(Role.FOLD, ((u, top), (u, foot(u))))
        if end - start > 1.0:
            for edge in (start % outline.girth, end):
                drawn += _edge_marks(Role.NOTE, edge, top, foot(edge))
    return Drawing(tuple(drawn))


def corner_names(outline: Outline, text: Edge, others: Iterable[Label]) -> Drawing:
    """Name corners beside their fold lines and faces in their middle, where no words stand yet.

    Faces are numbered from the back join to the right, as corners are.
    """
    taken = [label.box for label in others]
    names = [(u + 1.5, "corner", Anchor.START) for u in outline.corners]
    names += [
        ((face.start + face.end) / 2 % outline.girth, f"face {number}", Anchor.MIDDLE)
        for number, face in enumerate(faces(outline), 1)
    ]
    labels: list[Label] = []
    for u, name, anchor in names:
        label = Label(name, (u, text(u)), SMALL, anchor)
        if not any(label.box.intersection(box) for box in taken):
            labels.append(label)
            taken.append(label.box)
    return Drawing(labels=tuple(labels))


def corner_values(outline: Outline) -> dict[str, tuple[float, ...]]:
    """Return where the corners stand, as a figure of a piece; nothing for a tier without."""
    return {"corner_positions_mm": outline.corners} if outline.corners else {}


def plan_quarters(outline: Outline) -> Drawing:
    """Mark front, left, right and back inside the rim of a disc of any shape."""
    radius = outline.across / 2
    size = max(min(SMALL, radius / 12), LEAST_TEXT)
    drawn: list[Stroke] = []
    labels: list[Label] = []
    for share, name in (*QUARTERS, (0.0, "back")):
        s = share * outline.girth
        # in a corner the word needs more room
        reach = min(MARK * (2 if _is_in_corner(outline, s) else 1), radius / 4)
        (x, y), inner = outline.at(s), inwards(outline, s, reach)
        drawn += strokes(Role.GUIDE, ((x, y), inner))
        labels.append(_quarter_label(name, inner, size))
    return Drawing(tuple(drawn), tuple(labels))


def _is_in_corner(outline: Outline, s: float) -> bool:
    turns = (-outline.girth, 0.0, outline.girth)
    return any(a - 1 < s + turn < b + 1 for a, b in outline.corner_spans for turn in turns)


def _quarter_label(name: str, inner: Point, size: float) -> Label:
    x, y = inner
    if name in ("left", "right"):
        return Label(name, (x, y + 1.4), size, Anchor.END if name == "left" else Anchor.START)
    raised = -size if name == "front" else size * 0.4
    return Label(name, (x + 4, y + raised), size, bold=name == "front")


def inwards(outline: Outline, s: float, by: float) -> Point:
    """Return the point ``by`` mm inside an outline, square to it at arc length ``s``."""
    (x, y), (nx, ny) = outline.at(s), outline.normal(s)
    return x - by * nx, y - by * ny


def centre_cross(arm: float) -> Drawing:
    """Draw a cross of centre lines at (0, 0)."""
    return Drawing(strokes(Role.CENTRE, ((-arm, 0), (arm, 0)), ((0, -arm), (0, arm))))


def axes_across(edge: Path) -> Drawing:
    """Draw both axes as centre lines as far as they lie inside a closed edge."""
    area, box = region(edge), edge.bounds
    across = spans_on(area, (box.x0, 0), (box.x1, 0))
    along = spans_on(area, (0, box.y0), (0, box.y1))
    return Drawing(strokes(Role.CENTRE, *across, *along))


def quadrant(outline: Outline, clear: float = 3.0) -> Box:
    """Return a box in the upper right quarter of a disc, ``clear`` of its lines and rim."""
    area, box = region(outline.path()), outline.bounds
    for share in (0.95, 0.9, 0.85, 0.8, 0.75, 0.68, 0.6, 0.5, 0.4):
        found = Box(clear, clear, box.x1 * share, box.y1 * share)
        if found.width > 0 < found.height and covers(area, found):
            return found
    return Box(clear, clear, max(box.x1 * 0.3, clear + 1), max(box.y1 * 0.3, clear + 1))
