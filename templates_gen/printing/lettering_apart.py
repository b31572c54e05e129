"""Lettering on a top too large for one sheet: its part of the top, and how far to the edges."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LOOSE, SMALL
from templates_gen.geometry.areas.booleans import Area, clipped_and_moved, covers, edge_of, region
from templates_gen.geometry.areas.lines import spans_on
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import line
from templates_gen.pieces.making import PRINT_UP
from templates_gen.plan import Plan
from templates_gen.printing.named import named
from templates_gen.units import in_both

SHEET = (190.0, 225.0)
"""A top up to this size goes on one page of A4 or Letter with its caption, mm."""
BESIDE, ABOVE = 32.0, 12.0
"""Paper beside the letters and above and below them, for marks and words, mm."""
MARK = 8.0
"""Length of a mark at the edge of the paper, mm."""
AT_EDGE = 0.5
"""Paper that ends so near the edge of the cake ends there, mm."""


@dataclass(frozen=True, slots=True)
class _Way:
    """From a mark at the ``edge`` of the paper, ``at`` its end, ``far`` to the same of the cake."""

    edge: str
    at: Point
    inner: Point
    far: float

    @property
    def is_there(self) -> bool:
        """Whether the paper ends at the edge of the cake."""
        return self.far <= AT_EDGE

    @property
    def words(self) -> str:
        """Say how far it is."""
        if self.is_there:
            return f"its {self.edge} edge at that of the cake"
        return f"its {self.edge} edge {in_both(self.far)} from that of the cake"


def lettering_apart(piece: Piece, plan: Plan) -> Piece | None:
    """Return the part of a top that letters lie on; None where that is no less paper."""
    short, long = sorted(piece.size.size)
    if piece.kind != "top-lettering" or (short <= SHEET[0] and long <= SHEET[1]):
        return None
    letters = [stroke for stroke in piece.drawing.strokes if stroke.role is Role.PIPE]
    drawn = union_box(stroke.path.bounds for stroke in letters)
    box = Box(drawn.x0 - BESIDE, drawn.y0 - ABOVE, drawn.x1 + BESIDE, drawn.y1 + ABOVE)
    top = region(piece.outline)
    paper = clipped_and_moved(top, box, Transform())
    ways = list(_ways(top, box))
    if paper is None or len(ways) < len(EDGES):
        return None
    marks = (Stroke(line(way.at, way.inner), Role.CENTRE) for way in ways)
    labels = (label for way in ways if not way.is_there for label in _labels(way))
    shown = tuple(label for label in labels if covers(paper, label.box))
    drawing = Drawing((*letters, *marks), shown)
    part = replace(
        piece,
        use=f"Lay it on the covered top, {PRINT_UP}, {', '.join(way.words for way in ways)},"
        " measured at its marks, and prick along the letters.",
        outline=edge_of(paper),
        drawing=drawing + named(piece.title, paper, drawing),
    )
    return words_apart(part.finished())


EDGES = ("front", "left", "right")


def _ways(top: Area, box: Box) -> Iterator[_Way]:
    """Yield the way from each edge of a box to that of the top: through its middle where it can."""
    x, y = _through(box.x0, box.x1), _through(box.y0, box.y1)
    low, high = box.y0 - 1e4, box.y1 + 1e4
    for start, end in spans_on(top, (x, low), (x, high)):
        if start[1] < box.centre[1] < end[1]:
            edge = max(start[1], box.y0)
            yield _Way("front", (x, edge), (x, edge + MARK), edge - start[1])
    for start, end in spans_on(top, (box.x0 - 1e4, y), (box.x1 + 1e4, y)):
        if start[0] < box.centre[0] < end[0]:
            left, right = max(start[0], box.x0), min(end[0], box.x1)
            yield _Way("left", (left, y), (left + MARK, y), left - start[0])
            yield _Way("right", (right, y), (right - MARK, y), end[0] - right)


def _through(low: float, high: float) -> float:
    """Return where marks stand: in the middle of the cake, else in that of the paper."""
    return 0.0 if low + MARK < 0.0 < high - MARK else (low + high) / 2


def _labels(way: _Way) -> Iterator[Label]:
    """Yield the words beside a mark, in one row at the front, in two beside the letters."""
    x, y = way.at
    far, edge = in_both(way.far), f"to the {way.edge} edge"
    if way.edge == "front":
        yield Label(f"{far} {edge}", (x + 2, y + 2), SMALL)
        return
    inwards, anchor = (2.0, Anchor.START) if way.edge == "left" else (-2.0, Anchor.END)
    yield Label(edge, (x + inwards, y - LOOSE * SMALL), SMALL, anchor)
    yield Label(far, (x + inwards, y - 2 * LOOSE * SMALL), SMALL, anchor)
