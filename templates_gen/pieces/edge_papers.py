"""Papers of torn edges: one for what is opened, one above it and one below, all of one edge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from templates_gen.drawing.designs import DESIGNS
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT, Line, text_block
from templates_gen.geometry.areas.booleans import region
from templates_gen.geometry.areas.lines import within
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import Path, backwards, closed, line, polyline
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.pieces.laid_flat import within_side
from templates_gen.pieces.making import PRINT_OUT
from templates_gen.pieces.marks import on_side, strokes
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer

LEAST = 5.0
"""A paper beside a band that is narrower than this tears, mm: common practice, no source."""
FOOT = 720
"""Places along the foot of a side under a sloped top: of a round 300 mm wide 0.01 mm true."""
INSIDE = 0.45
"""The part of the width of a geode that its words may take: its corners go in by a third."""
ROUND = f"Lay it round the finished side, {PRINT_OUT}, the centre line at the front"
USES = {
    "band": f"{ROUND}: what shows in the band goes up to its edges, under the pieces beside it.",
    "above": f"{ROUND}, smooth edge at the rim: cut the covering along its lower edge.",
    "below": f"{ROUND}, smooth edge on the board: cut the covering along its upper edge.",
    "geode": "Score round it where the collar marks it, cut that out of the covering and line it.",
}


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the papers of each design of edges."""
    for guide in tier.marked:
        if guide.key[2:3] != ("design",):
            continue
        number = int(guide.key[3])
        design = DESIGNS[tier.spec.design[number].kind]
        if design.edges and design.repeat is not None:
            yield _geode(tier, guide, number + 1)
        elif design.edges and not guide.on_collar:
            yield from _band(tier, guide, number + 1)


def _geode(tier: DecoratedTier, guide: Guide, number: int) -> Piece:
    """Return the paper of a geode, one for all places that have the same."""
    paths = [stroke.path for stroke in guide.drawing.strokes]
    x, y = paths[0].bounds.centre
    wide, tall = (size * INSIDE for size in paths[0].bounds.size)
    space = Box(x - wide / 2, -y - tall / 2, x + wide / 2, -y + tall / 2)
    return _paper(tier, guide, f"{number}-geode", paths[0], space, len(paths))


def _band(tier: DecoratedTier, guide: Guide, number: int) -> Iterator[Piece]:
    """Yield the paper of a band, and of what is above and below it."""
    upper, lower = (stroke.path for stroke in guide.drawing.strokes)
    side = guide.layer.side
    high, low, end = upper.bounds, lower.bounds, side.girth
    outlines = {
        "band": (closed(upper, backwards(lower)), high.y1, low.y0),
        "above": (closed(upper, line((end, 0.0), (0.0, 0.0))), 0.0, high.y0),
        "below": (closed(lower, polyline(_foot(side))), low.y1, side.least_depth),
    }
    for name, (outline, top, foot) in outlines.items():
        if foot - top >= LEAST:
            space = Box(34.0, -foot, side.girth / 2 - 4, -top)
            yield _paper(tier, guide, f"{number}-{name}", outline, space, 1)


def _foot(side: Side) -> list[Point]:
    """Return the foot of a side from its end back to its start; under a sloped top it waves."""
    if side.least_depth == side.depth:
        return [(side.girth, side.depth), (0.0, side.depth)]
    us = (side.girth * step / FOOT for step in range(FOOT, -1, -1))
    return [(u, side.foot_at(u)) for u in us]


def _paper(
    tier: DecoratedTier, guide: Guide, part: str, outline: Path, space: Box, places: int
) -> Piece:
    side, name = guide.layer.side, part.partition("-")[2]
    which = "" if name == "geode" else f", {name}"
    title = f"{tier.name}: {guide.name}{which}"
    words = on_side(text_block([Line(title, TEXT, bold=True), Line("↑ rim", SMALL)], space))
    drawing = Drawing(labels=words)
    if name != "geode":
        front = ((side.girth / 2, -space.y1), (side.girth / 2, -space.y0))
        drawing += Drawing(strokes(Role.CENTRE, front))
    flat = side.unrolled(outline)
    piece = Piece(
        owner=tier.owner,
        kind="edge-paper",
        title=title,
        surface=guide.layer.surface,
        use=USES[name],
        outline=flat,
        drawing=side.unroll(drawing) + _holes(tier, guide.layer, flat),
        values={"length_mm": side.girth, "places": places, **guide.values},
        part=part,
    )
    return within_side(piece, guide.layer, 0.0)


def _holes(tier: DecoratedTier, layer: Layer, paper: Path) -> Drawing:
    """Draw the hole through a tier where it crosses a paper, as the collar has it."""
    side = layer.side
    checks = tier.openings.to_check(layer, Box(0.0, 0.0, side.girth, side.depth))
    area = region(paper)
    return checks.cut(lambda path: within(path, area))
