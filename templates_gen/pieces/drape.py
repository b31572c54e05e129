"""Rolling-out circle: the one sheet of fondant that covers top and side of a draped tier."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import measure, text_block, title_lines
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.disc import disc_drawing
from templates_gen.pieces.making import OUT
from templates_gen.pieces.marks import quadrant
from templates_gen.units import in_both


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the circle of a draped tier; the circle guide gives one that is not printed."""
    if tier.spec.cover != "drape":
        return
    outline = tier.drape
    title = f"{tier.name}: rolling-out {'circle' if outline.radius else 'sheet'}"
    block = title_lines(title, f"{measure(outline.across)} across")
    lettering = Drawing(labels=text_block(block, quadrant(outline)))
    yield Piece(
        owner=tier.owner,
        kind="rolling-out-circle",
        title=title,
        surface="coated",
        use=f"Roll {tier.spec.paste_colour} fondant (sugar paste) {in_both(tier.spec.paste_mm)}"
        f" thick to this size, {OUT}; trim at the bottom edge.",
        outline=outline.path(),
        drawing=disc_drawing(outline) + lettering,
        values={"across_mm": outline.across, "trim_mm": tier.spec.trim.mm},
        printed=tier.spec.rolling_out_circle,
        instead="circle guide" if outline.radius else "sizes only",
    )
