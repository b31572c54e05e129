"""Drape circle: the one sheet of paste that covers top and side of a draped tier."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.piece import Drawing, Piece
from templates_gen.drawing.shapes.round import circle
from templates_gen.pieces.disc import disc_drawing
from templates_gen.pieces.marks import measure, quadrant, text_block, title_lines
from templates_gen.tiers.solid import Solid


def drape_outline(tier: Solid) -> Outline:
    """Return the edge of the paste rolled out: the coated rim grown by depth and trim."""
    coated = tier.coated
    if tier.ball is not None:
        return circle(2 * (tier.ball.grown(tier.asked.coating_mm).meridian + tier.asked.trim.mm))
    return coated.rim.grown(coated.side.depth + tier.asked.trim.mm)


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the circle of a draped tier; printed when asked, else the swing strip gives it."""
    if tier.asked.cover != "drape":
        return
    outline = drape_outline(tier)
    title = f"{tier.name}: drape {'circle' if outline.radius else 'sheet'}"
    block = title_lines(title, f"{measure(outline.across)} across")
    lettering = Drawing(labels=text_block(block, quadrant(outline)))
    yield Piece(
        owner=tier.slug,
        kind="drape",
        tier=tier.name,
        title=title,
        surface="coated",
        copies=1,
        use=f"Roll paste {in_both(tier.asked.paste_mm)} thick to this size; trim at the foot.",
        outline=outline.path(),
        drawing=disc_drawing(outline) + lettering,
        values={"across_mm": outline.across, "trim_mm": tier.asked.trim.mm},
        printed=tier.asked.drape_circle,
        instead="swing strip" if outline.radius else "sizes only",
    )
