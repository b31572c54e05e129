"""Wrap: the strip of paste that is laid round the coated side of a panelled tier."""

from __future__ import annotations

from collections.abc import Iterable

from templates_gen.drawing.numbers import in_both
from templates_gen.drawing.path import Box, rectangle
from templates_gen.drawing.piece import Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.errors import Doubt
from templates_gen.pieces.marks import (
    SMALL,
    measure,
    on_side,
    quarter_marks,
    strokes,
    text_block,
    title_lines,
)
from templates_gen.tiers.solid import Solid


def build(tier: Solid) -> Iterable[Piece]:
    """Yield the wrap of a tier, unless one sheet of paste or panels cover its side.

    The strip closes at its length in mid-paste; it is cut longer and taller by the trim.
    """
    asked = tier.asked
    if asked.cover != "panelled" or (asked.panels is not None and asked.panels.covering):
        return
    layer, trim = tier.wrapped, asked.trim.mm
    side = layer.side
    sheet = rectangle(Box(0, -trim, side.girth + trim, side.depth))
    edge = side.unroll(Drawing((Stroke(sheet, Role.CUT),))).strokes[0].path
    yield Piece(
        owner=tier.slug,
        kind="wrap",
        tier=tier.name,
        title=f"{tier.name}: wrap",
        surface=layer.surface,
        copies=1,
        use=_use(tier),
        outline=edge,
        drawing=side.unroll(_lines(tier) + _lettering(tier)),
        values={
            "meeting_length_mm": side.girth,
            "depth_mm": side.depth,
            "trim_mm": trim,
        },
        doubts=_doubts(tier),
    )


def _use(tier: Solid) -> str:
    order = (
        "the top disc goes on first and the wrap stands up to its upper face"
        if tier.asked.first == "top"
        else "the top disc goes on after it, over its edge"
    )
    return f"Cut from rolled paste, stand it round the side, trim where it meets; {order}."


def _lines(tier: Solid) -> Drawing:
    side, trim = tier.wrapped.side, tier.asked.trim.mm
    girth, depth = side.girth, side.depth
    marks = quarter_marks(girth, -trim, depth, depth - 2)
    if not trim:
        return marks
    lines = (((0.0, 0.0), (girth + trim, 0.0)), ((girth, -trim), (girth, depth)))
    return Drawing(strokes(Role.TRIM, *lines)) + marks


def _lettering(tier: Solid) -> Drawing:
    side, trim = tier.wrapped.side, tier.asked.trim.mm
    girth, depth = side.girth, side.depth
    block = title_lines(
        f"{tier.name}: wrap",
        f"meets at {measure(girth)}",
        f"finished depth {measure(depth)}",
        f"paste {measure(tier.asked.paste_mm)} thick, measured at its middle",
        *_strip_words(tier),
        _use(tier),
    )
    labels = on_side(text_block(block, Box(12, -depth + 6, girth / 4 - 8, -4)))
    labels += (Label("bottom edge", (4, depth - 2), SMALL),)
    if not trim:
        return Drawing(labels=(*labels, Label("top edge", (4, 4), SMALL)))
    return Drawing(
        labels=(
            *labels,
            Label("top edge: trim to this line once the strip stands", (girth / 2 + 4, -2), SMALL),
            Label("the ends meet here: trim", (girth - 2, depth - 4), SMALL, turn=90),
        )
    )


def _strip_words(tier: Solid) -> list[str]:
    """Say how far a strip that the decorator means to use reaches, if there is one."""
    strip, girth = tier.asked.strip, tier.wrapped.side.girth
    if strip is None:
        return []
    spare = strip.mm - girth
    reach = f"{measure(spare)} to spare" if spare >= 0 else f"{measure(-spare)} short"
    return [f"your strip of {strip}: {reach}"]


def _doubts(tier: Solid) -> tuple[Doubt, ...]:
    strip, girth, trim = tier.asked.strip, tier.wrapped.side.girth, tier.asked.trim.mm
    if strip is None or strip.mm >= girth + trim:
        return ()
    short = girth - strip.mm
    text = (
        f"a strip of {strip} will not meet: it is {in_both(short)} short of the {in_both(girth)}"
        " that this side takes"
        if short > 0
        else f"a strip of {strip} meets with {in_both(-short)} to spare, less than the trim of"
        f" {tier.asked.trim}"
    )
    return (Doubt(tier.key("strip"), f"{tier.name}: {text}."),)
