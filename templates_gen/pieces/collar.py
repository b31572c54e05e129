"""Collar: paper round the finished side, with every guide at its true place."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.drawing.path import Box, rectangle
from templates_gen.drawing.piece import Drawing, Label, Piece, Stroke, Value
from templates_gen.drawing.polygons import clipped
from templates_gen.drawing.roles import Role
from templates_gen.pieces.drip_row import drip_row, drips_drawing
from templates_gen.pieces.marks import (
    SMALL,
    TEXT,
    Line,
    on_side,
    quarter_marks,
    strokes,
    text_block,
)
from templates_gen.pieces.panel_row import band, joins_drawing, panel_row
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Solid

TAB = 15.0
"""Paper beyond the join, to tape the ends together, mm."""
LANE = 6.0
"""A free strip of the collar for words, mm."""
LEAST_BAND = 20.0
"""Height of a collar that marks only front and quarters, mm."""


@dataclass(frozen=True, slots=True)
class _Guides:
    """What a collar carries: a drawing in side coordinates, from which v to which, its figures."""

    drawing: Drawing
    top: float
    foot: float
    values: dict[str, Value]


def build(tier: Solid) -> Piece | None:
    """Return the collar of a tier, no taller than its guides and one lane of words."""
    side = tier.covered.side
    guides = _guides(tier, side)
    top, foot, stands = _band(guides, side.depth)
    lane = top if stands else foot - LANE
    sheet = Box(0, top, side.girth + TAB, foot)
    drawing = (
        Drawing((Stroke(rectangle(sheet), Role.CUT),))
        + Drawing(strokes(Role.FOLD, ((side.girth, top), (side.girth, foot))))
        + _inside(guides.drawing, sheet)
        + quarter_marks(side.girth, top, foot, lane + LANE - 1.6)
        + Drawing(labels=_words(tier, side.girth, sheet, lane, stands))
    )
    if stands and top < 0:
        drawing += Drawing(strokes(Role.NOTE, ((0.0, 0.0), (side.girth + TAB, 0.0))))
    flat = side.unroll(drawing)
    edge = "foot on the board" if stands else "upper edge at the rim"
    return Piece(
        id=f"{tier.slug}/collar",
        tier=tier.name,
        title=f"{tier.name}: collar",
        surface="covered",
        copies=1,
        use=f"Lay it round the finished side, {edge}, ends together at the back; mark through it.",
        outline=flat.strokes[0].path,
        drawing=flat,
        values={"length_mm": side.girth, "tab_mm": TAB, **guides.values},
    ).framed()


def _guides(tier: Solid, side: Side) -> _Guides:
    """Gather what is drawn on the side."""
    end = side.girth + TAB
    drawing, bands, values = Drawing(), [], dict[str, Value]()
    panels, drips = tier.asked.panels, tier.asked.drips
    if panels is not None:
        row = panel_row(tier, panels)
        drawing += joins_drawing(row, panels, side.girth, side.depth, end)
        bands.append(band(row, panels, side.depth))
    if drips is not None and drips.marks != "rim ring":
        drops = drip_row(tier, drips)
        drawing += drips_drawing(drops, side.girth, TAB)
        bands.append((0.0, max(drops.lengths)))
        values.update(drops.values)
    if not bands:
        bands = [(0.0, min(LEAST_BAND, side.depth))]
    return _Guides(drawing, min(v for v, _ in bands), max(v for _, v in bands), values)


def _band(guides: _Guides, depth: float) -> tuple[float, float, bool]:
    """Return top and foot of the collar, and whether it stands on the board.

    A collar hangs from the rim with its words below the guides; one whose guides reach the foot of
    the tier stands on the board, with its words above them.
    """
    if guides.foot + LANE < depth:
        return min(guides.top, 0.0), guides.foot + LANE, False
    return guides.top - LANE, depth, True


def _inside(drawing: Drawing, sheet: Box) -> Drawing:
    """Cut off what reaches over the edges of the paper."""
    kept = (Stroke(clipped(stroke.path, sheet), stroke.role) for stroke in drawing.strokes)
    return Drawing(tuple(stroke for stroke in kept if stroke.path.commands), drawing.labels)


def _words(tier: Solid, girth: float, sheet: Box, lane: float, stands: bool) -> tuple[Label, ...]:
    edge = "stands on the board" if stands else "upper edge at the rim"
    title = [Line(f"{tier.name}: collar · {edge}", TEXT, bold=True)]
    labels = on_side(text_block(title, Box(18, -lane - LANE, girth / 4 - 4, -lane)))
    labels += (Label("back join", (1.2, lane + LANE - 1.6), SMALL),)
    tab = text_block(
        [Line("tape under", SMALL)], Box(girth + 1, -lane - LANE, girth + TAB - 1, -lane)
    )
    return labels + on_side(tab)
