"""Wrap: the strip of paste that is laid round the coated side of a panelled tier."""

from __future__ import annotations

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.path import Box, rectangle
from templates_gen.drawing.piece import Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import Doubt
from templates_gen.pieces.marks import (
    SMALL,
    on_side,
    quarter_marks,
    strokes,
    text_block,
    title_lines,
)
from templates_gen.tiers.solid import Solid


def build(tier: Solid) -> Piece | None:
    """Return the wrap of a tier, or None where one sheet of paste or panels cover the side.

    The strip closes at its length in mid-paste; it is cut longer and taller by the trim.
    """
    asked = tier.asked
    if asked.cover != "panelled" or (asked.panels is not None and asked.panels.covering):
        return None
    layer = tier.wrapped
    trim = asked.trim.mm
    cut = rectangle(Box(0, -trim, layer.side.girth + trim, layer.depth))
    drawing = Drawing((Stroke(cut, Role.CUT),)) + _lines(tier) + _lettering(tier)
    flat = layer.side.unroll(drawing)
    return Piece(
        id=f"{tier.slug}/wrap",
        tier=tier.name,
        title=f"{tier.name}: wrap",
        surface=layer.surface,
        copies=1,
        use=_use(tier),
        outline=flat.strokes[0].path,
        drawing=flat,
        values={
            "meeting_length_mm": layer.side.girth,
            "depth_mm": layer.depth,
            "trim_mm": trim,
        },
        doubts=_doubts(tier),
    ).framed()


def _use(tier: Solid) -> str:
    stands = (
        "top disc first, the wrap stands up to its upper face"
        if (tier.asked.first == "top")
        else "wrap first, the top disc goes over it"
    )
    return f"Cut from rolled paste, stand it round the side, trim where it meets; {stands}."


def _lines(tier: Solid) -> Drawing:
    layer, trim = tier.wrapped, tier.asked.trim.mm
    girth, depth = layer.side.girth, layer.depth
    marks = quarter_marks(girth, -trim, depth, depth - 2)
    if not trim:
        return marks
    lines = (((0.0, 0.0), (girth + trim, 0.0)), ((girth, -trim), (girth, depth)))
    return Drawing(strokes(Role.TRIM, *lines)) + marks


def _lettering(tier: Solid) -> Drawing:
    layer, trim = tier.wrapped, tier.asked.trim.mm
    girth, depth = layer.side.girth, layer.depth
    block = title_lines(
        f"{tier.name}: wrap",
        f"meets at {in_both(girth)}",
        f"finished depth {in_both(depth)}",
        f"paste {in_both(tier.asked.paste_mm)} thick, measured at its middle",
    )
    labels = on_side(text_block(block, Box(12, -depth + 6, girth / 4 - 8, -4)))
    if not trim:
        labels += (Label("top edge", (4, 4), SMALL),)
    else:
        labels += (
            Label("top edge: trim to this line once the strip stands", (girth / 2 + 4, -1), SMALL),
            Label("the ends meet here: trim", (girth - 1, depth - 4), SMALL, turn=90),
        )
    return Drawing(labels=(*labels, Label("bottom edge", (4, depth - 2), SMALL)))


def _doubts(tier: Solid) -> tuple[Doubt, ...]:
    strip, girth = tier.asked.strip, tier.wrapped.side.girth
    if strip is None or strip.mm >= girth:
        return ()
    text = (
        f"{tier.name}: a strip of {strip} will not meet: it is {in_both(girth - strip.mm)} short of"
        f" the {in_both(girth)} that this side takes."
    )
    return (Doubt(tier.key("strip"), text),)
