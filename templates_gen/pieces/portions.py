"""Portion guide: a disc for each tier of cake with the cuts that make portions of a size."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise

from templates_gen.cakefile.portions import Portions
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import text_block, title_lines
from templates_gen.geometry.areas.booleans import (
    Area,
    area_in_box,
    buffered,
    clipped_box,
    edge_of,
    is_mirrored,
    region,
)
from templates_gen.geometry.areas.lines import cutter, spans_on
from templates_gen.geometry.areas.placement import (
    bounds_of,
    deepest,
    from_edge,
    is_seen_from,
    paired,
)
from templates_gen.geometry.areas.sampling import signed_area
from templates_gen.geometry.box import Box, Point, between
from templates_gen.geometry.mirror import Mirror
from templates_gen.geometry.path import rectangle
from templates_gen.pieces.marks import plan_quarters, quadrant, strokes
from templates_gen.tiers.solid import Solid

HAIR = 0.05
"""What lies no farther in a cell than this is no piece, mm."""
CRUMB = 1e-4
"""The share of its size that a whole portion may lack, as at a rounded corner: our choice."""
CORE = 1.5
"""A middle less than this many portions wide is not cut into another ring."""
STEP = 1.0
"""How far apart the places are at most at which a cut across a ring is looked for, mm."""
SURE = 1e-3
"""By which share the area of a ring may be off its parts."""
FOR_WHOM = "For whoever cuts the cake: lift the tier off its dowels, clear it of decorations"


def build(tier: Solid, portions: Portions | None) -> Iterable[Piece]:
    """Yield the guide of a tier that is eaten, if portions are given.

    It counts whole portions only; in a grid, pieces at the edge come on top.
    """
    if portions is not None and not tier.spec.dummy:
        yield guide(tier, portions, cuts_of(tier, portions), worded)


Cuts = tuple[int, int, Drawing]
"""Whole portions, smaller pieces at the edge, and the cuts."""
Set = Callable[[Drawing, tuple[Label, ...]], Drawing]
"""Sets words on cuts."""


def cuts_of(tier: Solid, portions: Portions) -> Cuts:
    """Return the cuts that make portions of a tier, about its middle."""
    cut = _grid if portions.cuts == "grid" else _rings
    return cut(region(tier.bare.rim.path()), portions.width.mm, portions.length.mm)


def guide(tier: Solid, portions: Portions, cuts: Cuts, words_on: Set) -> Piece:
    """Return the guide of a tier with some cuts, and its words set on them by ``words_on``."""
    outline = tier.bare.rim
    whole, edge, drawing = cuts
    title = f"{tier.name}: portion guide"
    size = f"{portions.width.text} × {portions.length.text}"
    words = title_lines(title, f"{whole} portions of {size}")
    if edge:
        words += title_lines(title, f"and {edge} smaller pieces at the edge")[1:]
    return Piece(
        owner=tier.owner,
        kind="portions",
        title=title,
        surface="bare",
        use=f"{FOR_WHOM}, and hold the guide above it or copy the cuts; the paper does not touch"
        " the cake.",
        outline=outline.path(),
        drawing=words_on(drawing, text_block(words, quadrant(outline))) + plan_quarters(outline),
        values={
            "portion_count": whole,
            "edge_pieces": edge,
            "portion_width_mm": portions.width.mm,
            "portion_length_mm": portions.length.mm,
        },
    )


def worded(drawing: Drawing, labels: tuple[Label, ...]) -> Drawing:
    """Set words over cuts, which stop short of them."""
    taken = [region(rectangle(label.box.expanded(1.0))) for label in labels]
    return replace(drawing.cut(cutter(taken)), labels=labels)


def _grid(area: Area, width: float, length: float) -> Cuts:
    """Cut in a grid from the middle: of the ways to centre it, the one with most whole portions."""
    box = bounds_of(area)
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
    """Count the cells that lie in an area but for a crumb, and those that lie in it in part."""
    whole = parts = 0
    for x0, x1 in pairwise(xs):
        for y0, y1 in pairwise(ys):
            cell = Box(x0, y0, x1, y1)
            if area_in_box(area, cell) >= (1 - CRUMB) * cell.width * cell.height:
                whole += 1
            elif clipped_box(area, cell.expanded(-HAIR)) is not None:
                parts += 1
    return whole, parts


def _rings(outer: Area, width: float, length: float) -> Cuts:
    """Cut rings as wide as a portion, each across into parts of one area; the middle too."""
    portion = width * length
    whole, drawn = 0, list[Stroke]()
    for inner, pairs in _inwards(outer, width, portion):
        count = max(1, math.floor((outer.area - inner.area) / portion + 1e-9))
        drawn.append(Stroke(edge_of(inner), Role.GUIDE))
        drawn += strokes(Role.GUIDE, *_evened(_evenly(pairs, count), outer))
        whole, outer = whole + count, inner
    middle, edge, cuts = _middle(outer, width, length)
    return whole + middle, edge, Drawing(tuple(drawn)) + cuts


Cut = tuple[Point, Point]
"""A cut across a ring, or to the middle, from its outer end."""
Pairs = Sequence[Cut]
"""Points on the outer edge of a ring, each with one on its inner edge, once round."""


def _inwards(outer: Area, width: float, portion: float) -> Iterator[tuple[Area, Pairs]]:
    """Yield areas one portion further in each time, while a middle of one piece is left.

    With each come places to cut across the ring between it and the area before.
    """
    ring = buffered(outer, -width)
    while ring is not None and ring.area >= portion:
        box = bounds_of(ring)
        pairs = paired(outer, ring, STEP)
        between = sum(_areas(pairs))
        # an arm that is longer than the rest cannot be followed round
        if min(box.width, box.height) < CORE * width or not math.isclose(
            between, outer.area - ring.area, rel_tol=SURE
        ):
            return
        yield ring, pairs
        outer, ring = ring, buffered(ring, -width)


def _areas(pairs: Pairs) -> list[float]:
    """Return the area between each pair and the next, mm2."""
    turned = [*pairs[1:], *pairs[:1]]
    return [signed_area((p, a, b, q)) for (p, q), (a, b) in zip(pairs, turned, strict=True)]


def _evenly(pairs: Pairs, count: int) -> Iterator[Cut]:
    """Yield the cuts that part what lies between pairs of points into parts of one area."""
    areas = _areas(pairs)
    part = sum(areas) / count
    done, cut = 0.0, 0
    for (p, q), (a, b), area in zip(pairs, [*pairs[1:], *pairs[:1]], areas, strict=True):
        while area > 0 and count > 1 and cut < count and cut * part < done + area:
            share = max(0.0, (cut * part - done) / area)
            yield between(p, a, share), between(q, b, share)
            cut += 1
        done += area


def _middle(area: Area, width: float, length: float) -> Cuts:
    """Cut what is left in the middle: from one point, or in a grid where that is not seen."""
    count = max(1, math.floor(area.area / (width * length) + 1e-9))
    centre, _ = deepest(area)
    for mirror in _mirrors(area):
        if abs(mirror.across(centre)) < STEP:
            centre = between(centre, mirror.transform.transformPoint(centre), 0.5)
    if not is_seen_from(area, centre):
        return _grid(area, width, length)
    spokes = [(place, centre) for place, _ in paired(area, area, STEP)]
    return count, 0, Drawing(strokes(Role.GUIDE, *_evened(_evenly(spokes, count), area)))


def _evened(cuts: Iterable[Cut], area: Area) -> Pairs:
    """Return cuts that are alike on both sides of the middle of an area exactly alike.

    They were found in steps, which may differ from side to side.
    """
    found: Pairs = tuple(cuts)
    for mirror in _mirrors(area):
        made = _mirrored(found, mirror)
        # at a corner on the line a cut that was beside it would end inside
        found = made if from_edge(area, [start for start, _ in made]) < SURE else found
    return found


def _mirrors(area: Area) -> Iterator[Mirror]:
    """Yield the upright and the level line through the middle that mirror an area in itself."""
    x, y = bounds_of(area).centre
    tried = (Mirror("x", x), Mirror("y", y))
    yield from (mirror for mirror in tried if is_mirrored(area, mirror.transform))


def _mirrored(cuts: Sequence[Cut], mirror: Mirror) -> Sequence[Cut]:
    """Return cuts with those beyond a mirror line at the image of those before it, if all have."""
    images = [_image(cut, mirror) for cut in cuts]
    nearest = [min(images, key=partial(_apart, cut)) for cut in cuts]
    if any(_apart(*both) > STEP for both in zip(cuts, nearest, strict=True)):
        return cuts
    made = []
    for cut, image, other in zip(cuts, images, nearest, strict=True):
        if other == image:  # on the line
            (p, a), (q, b) = zip(cut, image, strict=True)
            made.append((between(p, a, 0.5), between(q, b, 0.5)))
        else:
            made.append(cut if mirror.keeps(cut) else other)
    return made


def _image(cut: Cut, mirror: Mirror) -> Cut:
    p, q = mirror.transform.transformPoints(cut)
    return p, q


def _apart(cut: Cut, other: Cut) -> float:
    """Return how far one end of a cut is from that of another, at most, mm."""
    return max(map(math.dist, cut, other))
