"""Drape circle: the one sheet of paste that covers top and side of a draped tier."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.outline import Outline
from templates_gen.drawing.piece import Drawing, Piece
from templates_gen.pieces.disc import disc_drawing
from templates_gen.pieces.marks import measure, quadrant, text_block, title_lines
from templates_gen.tiers.solid import Solid


def drape_outline(tier: Solid) -> Outline:
    """Return the edge of the paste rolled out: across + 2 x depth + 2 x trim, coated."""
    coated = tier.coated
    return coated.rim.grown(coated.side.depth + tier.asked.trim.mm)


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the circle of a draped tier; printed when asked, else the swing strip gives it."""
    if tier.asked.cover != "drape":
        return
    outline = drape_outline(tier)
    title = f"{tier.name}: drape circle"
    block = title_lines(title, f"{measure(outline.across)} across")
    lettering = Drawing(labels=text_block(block, quadrant(outline.across / 2)))
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
    )
