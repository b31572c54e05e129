"""Scraper: a card whose edge shapes the coating of a side."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, measure, text_block, title_lines
from templates_gen.geometry.box import Box, Point
from templates_gen.geometry.path import polyline
from templates_gen.geometry.tolerances import ROUNDING
from templates_gen.guides.combed import Combed
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.marks import strokes
from templates_gen.units import in_both

WIDE = 60.0
"""Width of the card without its teeth, mm."""
ABOVE = 15.0
"""Card above the top edge of the tier, mm."""
MM3_PER_ML = 1000.0


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the scraper of a tier whose coating is combed."""
    found = tier.combed
    if found is None:
        return
    stand, across = tier.board_thickness, tier.coated.foot.across
    title = f"{tier.name}: scraper"
    teeth = "one contour" if found.count == 1 else f"{found.count} grooves"
    lines = title_lines(title, f"{teeth}, {measure(found.groove)} deep", "this edge to the cake →")
    space = Box(3.0 - WIDE, found.height * 0.25, -3.0, found.height - 2 * SMALL)
    marks = strokes(
        Role.GUIDE, ((-WIDE, 0.0), (0.0, 0.0)), ((-WIDE, found.height), (0.0, found.height))
    )
    labels = (
        Label("base of the tier", (2.0 - WIDE, 1.2), SMALL),
        Label("top edge", (2.0 - WIDE, found.height + 1.2), SMALL),
    )
    yield Piece(
        owner=tier.slug,
        kind="scraper",
        tier=tier.name,
        title=title,
        surface="coated",
        use="Trace it on acetate or food-safe plastic and cut it out; the card itself never touches"
        f" icing. Stand it upright on what the tier's board stands on{_stands(stand)}, hold its"
        " edge square to the side, turn the cake against it; fill what tears and turn again.",
        outline=polyline(list(_edge(found, stand)), closed=True),
        drawing=Drawing(marks, (*labels, *text_block(lines, space))),
        values={
            "grooves": found.count,
            "pitch_mm": found.pitch,
            "groove_depth_mm": found.groove,
            "base_allowance_mm": stand,
            "ridge_across_mm": across,
            "groove_across_mm": across - 2 * found.groove,
            "scraped_off_ml": found.scraped / MM3_PER_ML,
        },
    )


def _stands(stand: float) -> str:
    return f": its foot is {in_both(stand)} longer for the board" if stand else ""


def _edge(found: Combed, stand: float) -> Iterator[Point]:
    """Yield the edge of the card, its teeth on the right, the base of the tier at y = 0."""
    top = found.height + ABOVE
    teeth = (
        (deep * found.groove, (number + share) * found.pitch)
        for number in range(found.count)
        for share, deep in found.tooth
    )
    corners = (-WIDE, -stand), (0.0, -stand), (0.0, 0.0)
    last = (0.0, found.height), (0.0, top), (-WIDE, top)
    before: Point | None = None
    for place in (*corners, *teeth, *last):
        if before is None or math.dist(place, before) > ROUNDING:
            yield place
            before = place
