"""Drape circle: the one sheet of paste that covers top and side of a draped tier."""

from __future__ import annotations

import math
from collections.abc import Iterable

from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.shapes.round import circle
from templates_gen.drawing.text_block import measure, text_block, title_lines
from templates_gen.errors import geometry_at
from templates_gen.geometry.arc_fitting import from_path
from templates_gen.geometry.offset import offset
from templates_gen.geometry.outline import Outline
from templates_gen.pieces.disc import disc_drawing, on_slope
from templates_gen.pieces.marks import quadrant
from templates_gen.tiers.solid import Solid
from templates_gen.units import in_both


def drape_outline(tier: Solid) -> Outline:
    """Return the edge of the paste rolled out, to be laid with its middle on that of the top.

    The coated rim, as long as a slope makes it, grown by trim and by the longest way to the foot.
    Raises CakeError where it would close round a hole.
    """
    coated = tier.coated
    if tier.ball is not None:
        return circle(2 * (tier.ball.grown(tier.spec.coating_mm).meridian + tier.spec.trim.mm))
    top = coated.rim
    if coated.fall is not None:
        # a round one stays round, which takes a little more and can be drawn with the swing strip
        longer = math.hypot(1.0, coated.fall.rate)
        lies = top.path().transformed(on_slope(coated))
        top = top.scaled(longer) if top.radius else from_path(lies)
    allowed = "a plan that stays open when one sheet of paste goes down its side"
    with geometry_at(tier.key("cover"), allowed, 'write cover = "panelled"'):
        return offset(top, coated.side.longest + tier.spec.trim.mm)


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the circle of a draped tier; printed when asked, else the swing strip gives it."""
    if tier.spec.cover != "drape":
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
        use=f"Roll paste {in_both(tier.spec.paste_mm)} thick to this size; trim at the foot.",
        outline=outline.path(),
        drawing=disc_drawing(outline) + lettering,
        values={"across_mm": outline.across, "trim_mm": tier.spec.trim.mm},
        printed=tier.spec.drape_circle,
        instead="swing strip" if outline.radius else "sizes only",
    )
