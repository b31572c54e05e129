"""Scraper: a card whose edge shapes the coating of a side.

The card stands level. Its edge leans as the side does at the front, so only on an upright side is
its foot square to the edge.
"""

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
from templates_gen.tiers.side import Side
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
    lean = _lean(tier.coated.side)
    title = f"{tier.name}: scraper"
    teeth = "one contour" if found.count == 1 else f"{found.count} grooves"
    lines = title_lines(title, f"{teeth}, {measure(found.groove)} deep", "this edge to the cake →")
    space = _space(found.height, lean)
    levels = (("base of the tier", 0.0), ("top edge", found.height))
    marks = strokes(Role.GUIDE, *((_level(-WIDE, high, lean), (0.0, high)) for _, high in levels))
    turn = math.degrees(math.atan(lean))
    labels = tuple(
        Label(words, _level(2.0 - WIDE, high + 1.2, lean), SMALL, turn=turn)
        for words, high in levels
    )
    yield Piece(
        owner=tier.owner,
        kind="scraper",
        title=title,
        surface="coated",
        use="Trace it on acetate or food-safe plastic and cut it out; the card itself never touches"
        f" icing. Stand it upright on what the tier's board stands on{_stands(stand, lean)}, hold"
        " its edge square to the side, turn the cake against it; fill what tears and turn again.",
        outline=polyline(list(_edge(found, stand, lean)), closed=True),
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


def _lean(side: Side) -> float:
    """Return how far a side goes in at the front for each mm that it goes up."""
    front = side.girth / 2
    (_, rim, high), (_, foot, low) = (side.in_space(front, v) for v in (0.0, side.foot_at(front)))
    return (rim - foot) / (high - low)


def _level(x: float, y: float, lean: float) -> Point:
    """Return the place ``x`` mm beside the edge, on a level with ``y`` mm up the edge."""
    return x, y + lean * x


def _space(height: float, lean: float) -> Box:
    """Return the space for words, clear of the marks where they slant."""
    left, right = 3.0 - WIDE, -3.0
    low = max(height * 0.25, 2 * SMALL + max(lean * left, lean * right))
    return Box(left, low, right, height - 2 * SMALL + min(lean * left, lean * right))


def _stands(stand: float, lean: float) -> str:
    """Say how the foot of the card is cut."""
    longer = f"{in_both(stand)} longer for the board" if stand else ""
    aslant = "cut at an angle to match the side" if lean else ""
    says = " and ".join(filter(None, (longer, aslant)))
    return f": its foot is {says}" if says else ""


def _edge(found: Combed, stand: float, lean: float) -> Iterator[Point]:
    """Yield the edge of the card, its teeth on the right, the base of the tier at y = 0."""
    top, foot = found.height + ABOVE, -stand * math.hypot(1.0, lean)
    teeth = (
        (deep * found.groove, (number + share) * found.pitch)
        for number in range(found.count)
        for share, deep in found.tooth
    )
    corners = _level(-WIDE, foot, lean), (0.0, foot), (0.0, 0.0)
    last = (0.0, found.height), (0.0, top), _level(-WIDE, top, lean)
    before: Point | None = None
    for place in (*corners, *teeth, *last):
        if before is None or math.dist(place, before) > ROUNDING:
            yield place
            before = place
