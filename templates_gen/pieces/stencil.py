"""Stencils: a design or a lettering to paint or to spread through, of which nothing falls out."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.stencils import Stencil
from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import SMALL, Line, text_block
from templates_gen.errors import CakeError, geometry_at
from templates_gen.geometry.arcs import circle
from templates_gen.geometry.areas.booleans import Area, filled, region
from templates_gen.geometry.areas.lines import clipped
from templates_gen.geometry.areas.placement import bounds_of
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.areas.stencil import cut_slots, kept_apart, openings_of
from templates_gen.geometry.box import Box, Point, union_box
from templates_gen.geometry.path import Path, rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.guide import Guide, Repeats
from templates_gen.guides.lettering import Lettered
from templates_gen.pieces.making import OUT
from templates_gen.tiers.side import Side

MARGIN = 15.0
"""Sheet round the openings, mm."""
WORDS = 14.0
"""More of it below, for words."""
LONGEST = 230.0
"""A strip has as many repeats as fit on this, mm, and one at the least."""
HOLE = 1.5
"""Radius of a register hole, mm."""
FROM_BAND = 6.0
"""From what is drawn to the register holes above and below it, mm."""
MADE_OF = f"Cut it from acetate or parchment, {OUT}"
ALLOWED = "openings with room for their bridges"
ADVICE = "use narrower bridges, or a larger design"


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield a stencil for each design and each lettering that has one."""
    for index, spec in enumerate(tier.spec.design if tier.lies_flat else ()):
        if spec.stencil is not None:
            with geometry_at((*tier.key("design"), index, "stencil"), ALLOWED, ADVICE):
                yield _of_design(tier, index, spec, spec.stencil)
    for index, lettered in (*tier.letterings_on_side.items(), *tier.letterings_on_top.items()):
        if lettered.spec.stencil is not None:
            with geometry_at((*tier.key("lettering"), index, "stencil"), ALLOWED, ADVICE):
                yield _of_lettering(tier, index, lettered, lettered.spec.stencil)


def _of_lettering(tier: DecoratedTier, index: int, lettered: Lettered, spec: Stencil) -> Piece:
    areas = [filled(path) for path in lettered.outlines]
    title = f"{tier.name}: stencil of {tier.spec.lettering_name(index)}"
    use = f"{MADE_OF}. Lay it on, and paint or spread through it."
    return _stencil(tier, f"lettering-{index + 1}", (title, use), areas, (), spec)


def _of_design(tier: DecoratedTier, index: int, design: Design, spec: Stencil) -> Piece:
    """Return a strip of repeats, with holes that a step round the tier brings on each other."""
    side = tier.covered.side
    guide = next(each for each in tier.marked if each.key == (*tier.key("design"), index))
    repeats = _alike(tier, index, design, guide)
    available = min(LONGEST, side.girth - repeats.places[0])
    count = max(1, int(available / repeats.width + 1e-6))
    paths = list(_on_strip(guide, repeats, count, spec, side))
    closed = [region(path) for path in paths if all(closed for _, closed in sampled(path))]
    areas = [*kept_apart(closed, spec.bridge.mm), *cut_slots(paths, spec.slot.mm)]
    step = count * repeats.width
    beside = (guide.top - FROM_BAND, guide.foot + FROM_BAND)
    levels = [v for v in beside if HOLE < v < side.least_depth - HOLE] or beside
    ends = [(repeats.places[0] + u, v) for u in (0.0, step) for v in levels]
    title = f"{tier.name}: stencil of {tier.spec.design_name(index)}"
    use = (
        f"{MADE_OF}. Prick through the holes at its right, then move its left holes onto the"
        f" pricks: {count} of {len(repeats.places)} repeats at a time, all round."
    )
    holes = [side.flat(*end) for end in ends]
    return _stencil(tier, f"design-{index + 1}", (title, use), areas, holes, spec, step)


def _alike(tier: DecoratedTier, index: int, design: Design, guide: Guide) -> Repeats:
    """Return the repeats of a design, or equal parts of level lines.

    Raises CakeError where they differ.
    """
    girth = tier.covered.side.girth
    if DESIGNS[design.kind].repeat is None:
        parts = math.ceil(girth / LONGEST)
        return Repeats(tuple(step * girth / parts for step in range(parts)), girth / parts)
    if guide.repeats is not None:
        return guide.repeats
    key = (*tier.key("design"), index, "stencil")
    found = "a stencil of repeats that differ from face to face"
    advice = "leave per out, or the stencil"
    raise CakeError.at(key, found, "repeats that are alike all round", advice)


def _on_strip(
    guide: Guide, repeats: Repeats, count: int, spec: Stencil, side: Side
) -> Iterator[Path]:
    """Yield what ``count`` repeats draw, flat; lines end half a bridge before the next repeat."""
    first, bridge = repeats.places[0], spec.bridge.mm
    ends = pairwise(first + step * repeats.width for step in range(count + 1))
    boxes = [Box(start, guide.top - 1, end, guide.foot + 1) for start, end in ends]
    for stroke in guide.drawing.strokes:
        bounds = stroke.path.bounds
        is_closed = all(closed for _, closed in sampled(stroke.path))
        for box in boxes:
            if is_closed and box.x0 <= bounds.centre[0] < box.x1:
                yield side.unrolled(stroke.path)
            elif not is_closed:
                inner = Box(box.x0 + bridge / 2, box.y0, box.x1 - bridge / 2, box.y1)
                if bounds.expanded(1).intersection(inner) is not None:  # a level line has no height
                    yield side.unrolled(clipped(stroke.path, inner))


def _stencil(
    tier: DecoratedTier,
    part: str,
    words: tuple[str, str],
    areas: Sequence[Area],
    holes: Sequence[Point],
    spec: Stencil,
    step: float | None = None,
) -> Piece:
    """Return the sheet with these openings and register holes, and its words below them."""
    title, use = words
    drawn = union_box([*map(bounds_of, areas), *(Box(*hole, *hole) for hole in holes)])
    sheet = drawn.expanded(MARGIN)._replace(y0=drawn.y0 - MARGIN - WORDS)
    edge = rectangle(sheet)
    openings = openings_of(region(edge), areas, spec.bridge.mm, spec.bridges)
    space = Box(sheet.x0 + 3, sheet.y0 + 2, sheet.x1 - 3, sheet.y0 + WORDS + MARGIN - 4)
    labels = text_block([Line(title, bold=True), Line(use, SMALL)], space)
    return Piece(
        owner=tier.owner,
        kind="stencil",
        title=title,
        surface="flat",
        use=use,
        outline=edge,
        drawing=Drawing(labels=labels),
        openings=(*openings, *(circle(hole, HOLE) for hole in holes)),
        values={
            "openings": len(openings),
            "bridge_mm": spec.bridge.mm,
            **({} if step is None else {"step_mm": step}),
        },
        part=part,
    )
