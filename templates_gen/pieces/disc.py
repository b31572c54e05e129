"""Top disc: the paste for the top of a panelled tier."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.outline import Outline
from templates_gen.drawing.piece import Drawing, Piece
from templates_gen.drawing.roles import Role
from templates_gen.pieces.marks import (
    MARK,
    centre_cross,
    measure,
    plan_quarters,
    quadrant,
    strokes,
    text_block,
    title_lines,
)
from templates_gen.tiers.solid import Solid


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the top disc of a panelled tier.

    Top first: the coated outline. Side first: the covered outline, over the edge of the wrap.
    """
    if tier.asked.cover != "panelled":
        return
    top = tier.top
    goes = "before the side" if tier.asked.first == "top" else "after the side, over its edge"
    across = top.rim.across
    title = f"{tier.name}: top disc"
    block = title_lines(title, f"{measure(across)} across", f"goes on {goes}")
    yield Piece(
        owner=tier.slug,
        kind="disc",
        tier=tier.name,
        title=title,
        surface=top.surface,
        copies=1,
        use=f"Cut from rolled paste, lay it on the top {goes}; fold the paper to find its middle.",
        outline=top.rim.path(),
        drawing=disc_drawing(top.rim) + Drawing(labels=text_block(block, quadrant(across / 2))),
        values={"across_mm": across},
    )


def disc_drawing(outline: Outline) -> Drawing:
    """Draw what a disc carries: centre cross, quarter marks and the two folds that halve it."""
    reach = outline.across / 2
    inner, outer = min(12.0, reach / 4), reach - min(MARK, reach / 4)
    folds = strokes(
        Role.FOLD,
        ((-outer, 0.0), (-inner, 0.0)),
        ((inner, 0.0), (outer, 0.0)),
        ((0.0, -outer), (0.0, -inner)),
        ((0.0, inner), (0.0, outer)),
    )
    return Drawing(folds) + centre_cross(inner) + plan_quarters(reach)
