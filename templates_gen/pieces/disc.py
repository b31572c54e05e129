"""Top disc: the paste for the top of a panelled tier."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import measure, text_block, title_lines
from templates_gen.geometry.outline import Outline
from templates_gen.pieces.making import OUT, fondant
from templates_gen.pieces.marks import (
    MARK,
    QUARTERS,
    centre_cross,
    inwards,
    plan_quarters,
    quadrant,
    strokes,
)
from templates_gen.tiers.solid import Solid
from templates_gen.tiers.widths import width_words

_ENDS = (*QUARTERS, (0.0, "back"))
_CLEAR = 2 * MARK
"""How far folds stay from the rim, mm."""


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the top disc of a panelled tier.

    Top first: the coated outline. Side first: the covered outline, over the edge of the wrap. On a
    taper either is that of the level where the disc lies.
    """
    if tier.spec.cover != "panelled":
        return
    top = tier.top
    goes = "before the side" if tier.spec.first == "top" else "after the side, over its edge"
    slope = top.on_slope
    across = max(top.rim.path().transformed(slope).bounds.size)
    title = f"{tier.name}: top disc"
    is_polygon = top.rim.across_flats is not None and top.fall is None
    wide = width_words(top.rim, measure) if is_polygon else f"{measure(across)} across"
    lines = [wide, f"goes on {goes}"]
    slanted = ""
    if top.is_tapered:
        below = "coated top" if tier.spec.first == "top" else "top edge of the side"
        slanted = f" It is as wide as the {below} under it: smooth its edge to the slope."
        lines.append("smooth its edge to the slope")
    block = title_lines(title, *lines)
    yield Piece(
        owner=tier.owner,
        kind="disc",
        title=title,
        surface=top.surface,
        use=f"Cut from {fondant(tier.spec, tier.spec.paste_top_mm)}, {OUT}; lay it on the top"
        f" {goes}.{slanted}",
        outline=top.rim.path().transformed(slope),
        drawing=(
            disc_drawing(top.rim) + Drawing(labels=text_block(block, quadrant(top.rim)))
        ).transformed(slope),
        values={"across_mm": across},
    )


def disc_drawing(outline: Outline) -> Drawing:
    """Draw what a disc carries: centre cross, quarter marks, and the folds that halve it."""
    inner = min(12.0, outline.across / 8)
    return Drawing(_folds(outline, inner)) + centre_cross(inner) + plan_quarters(outline)


def _folds(outline: Outline, inner: float) -> tuple[Stroke, ...]:
    """Draw folds on the axes that mirror the outline, clear of its cross and its marks."""
    sides, ends = outline.is_mirrored
    ends_of = {name: inwards(outline, share * outline.girth, _CLEAR) for share, name in _ENDS}
    lines = []
    if sides:
        lines += [((0.0, inner), ends_of["back"]), ((0.0, -inner), ends_of["front"])]
    if ends:
        lines += [((-inner, 0.0), ends_of["left"]), ((inner, 0.0), ends_of["right"])]
    return strokes(Role.FOLD, *lines)
