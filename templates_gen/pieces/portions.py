"""Portion guide: a disc for each tier of cake with the cuts that make portions of a size."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

from templates_gen.cake.portions import Portions
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.path import Box, Point, rectangle
from templates_gen.drawing.piece import Drawing, Label, Piece, Stroke
from templates_gen.drawing.polygons import Area, covers, part_in, region, spans_on, uncovered
from templates_gen.drawing.roles import Role
from templates_gen.errors import GeometryError
from templates_gen.pieces.marks import plan_quarters, quadrant, strokes, text_block, title_lines
from templates_gen.tiers.solid import Solid

HAIR = 0.05
"""What a portion may lack at its edges, mm."""
CORE = 1.5
"""A middle less than this many portions wide is not cut into another ring."""


def build(tier: Solid, portions: Portions | None) -> Iterable[Piece]:
    """Yield the guide of a tier that is eaten, where portions are asked for.

    It counts whole portions only; in a grid, pieces at the edge come on top.
    """
    if portions is None or tier.asked.dummy:
        return
    outline = tier.bare.rim
    cut = _grid if portions.cuts == "grid" else _rings
    whole, edge, drawing = cut(outline, portions.width.mm, portions.length.mm)
    title = f"{tier.name}: portion guide"
    words = title_lines(title, f"{whole} portions of {portions.width} × {portions.length}")
    if edge:
        words += title_lines(title, f"and {edge} smaller pieces at the edge")[1:]
    yield Piece(
        owner=tier.slug,
        kind="portions",
        tier=tier.name,
        title=title,
        surface="bare",
        copies=1,
        use="For whoever cuts the cake: take the tier off its dowels and decorations, hold the"
        " guide above it or copy the cuts; the paper does not touch the cake.",
        outline=outline.path(),
        drawing=_worded(drawing, text_block(words, quadrant(outline))) + plan_quarters(outline),
        values={
            "portion_count": whole,
            "edge_pieces": edge,
            "portion_width_mm": portions.width.mm,
            "portion_length_mm": portions.length.mm,
        },
    )


def _worded(drawing: Drawing, labels: tuple[Label, ...]) -> Drawing:
    """Set words over cuts, which stop short of them."""
    taken = [region(rectangle(label.box.grown(1.0))) for label in labels]
    cut = (Stroke(uncovered(each.path, taken), each.role) for each in drawing.strokes)
    return Drawing(tuple(each for each in cut if each.path.commands), labels)


Cuts = tuple[int, int, Drawing]
"""Whole portions, smaller pieces at the edge, and the cuts."""


def _grid(outline: Outline, width: float, length: float) -> Cuts:
    """Cut in a grid from the middle: of the ways to centre it, the one with most whole portions."""
    area, box = region(outline.path()), outline.bounds
    ways = [
        (_lines(box.x0, box.x1, width, start), _lines(box.y0, box.y1, length, other))
        for start in (0.0, width / 2)
        for other in (0.0, length / 2)
    ]
    counted = [(_cells(area, xs, ys), xs, ys) for xs, ys in ways]
    (whole, edge), xs, ys = max(counted, key=lambda found: found[0][0])
    drawn = [each for x in xs[1:-1] for each in spans_on(area, (x, box.y0), (x, box.y1))]
    drawn += [each for y in ys[1:-1] for each in spans_on(area, (box.x0, y), (box.x1, y))]
    return whole, edge, Drawing(strokes(Role.GUIDE, *drawn))


def _lines(low: float, high: float, step: float, start: float) -> list[float]:
    """Return where lines of a grid lie: one at ``start``, and one beyond each end."""
    first = math.floor((low - start) / step)
    last = math.ceil((high - start) / step)
    return [start + index * step for index in range(first, last + 1)]


def _cells(area: Area, xs: list[float], ys: list[float]) -> tuple[int, int]:
    """Count the cells that lie wholly in an area, and those that lie in it in part."""
    whole = parts = 0
    for x0, x1 in pairwise(xs):
        for y0, y1 in pairwise(ys):
            cell = Box(x0, y0, x1, y1).grown(-HAIR)
            if covers(area, cell):
                whole += 1
            elif part_in(area, cell) is not None:
                parts += 1
    return whole, parts


def _rings(outline: Outline, width: float, length: float) -> Cuts:
    """Cut rings as wide as a portion, each across evenly; what is left in the middle too."""
    whole, drawn = 0, list[Stroke]()
    outer = outline
    for inner in _inwards(outline, width):
        count = max(1, math.floor(outer.grown(-width / 2).girth / length + 1e-9))
        drawn.append(Stroke(inner.path(), Role.GUIDE))
        drawn += strokes(Role.GUIDE, *_across(outer, inner, count))
        whole, outer = whole + count, inner
    middle = max(1, math.floor(outer.area / (width * length) + 1e-9))
    if middle > 1:
        drawn += strokes(Role.GUIDE, *_spokes(outer, middle))
    return whole + middle, 0, Drawing(tuple(drawn))


def _inwards(outline: Outline, width: float) -> Iterator[Outline]:
    """Yield outlines one portion further in each time, while there is a middle left."""
    for ring in range(1, 1000):
        try:
            inner = outline.grown(-ring * width)
        except GeometryError:
            return
        box = inner.bounds
        if min(box.width, box.height) < CORE * width or not covers(region(inner.path()), POINT):
            return
        yield inner


POINT = Box(-0.01, -0.01, 0.01, 0.01)
"""The middle, which the spokes of the last piece start from."""


def _across(outer: Outline, inner: Outline, count: int) -> Iterator[tuple[Point, Point]]:
    for index in range(count if count > 1 else 0):
        yield outer.at(index * outer.girth / count), inner.at(index * inner.girth / count)


def _spokes(outline: Outline, count: int) -> Iterator[tuple[Point, Point]]:
    for index in range(count):
        yield (0.0, 0.0), outline.at(index * outline.girth / count)
