"""Wrap: the strip of paste that is laid round the coated side of a panelled tier."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

from templates_gen.cakefile.tier import Tier
from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, measure, text_block, title_lines
from templates_gen.errors import PlanWarning
from templates_gen.geometry.box import Box, Span, gaps
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.laid_flat import strip_edge, unevenness, within_side
from templates_gen.pieces.making import ROLLED_UP, fondant
from templates_gen.pieces.marks import (
    Edge,
    corner_marks,
    corner_names,
    corner_values,
    on_side,
    quarter_marks,
    strokes,
)
from templates_gen.tiers.side import Side
from templates_gen.tiers.solid import Layer
from templates_gen.units import in_both


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the wrap of a tier, unless one sheet of paste or panels cover its side.

    The strip closes at its length in mid-paste; it is cut longer and taller by the trim, of which
    half lies at either end, so that the front is in the middle.
    """
    spec = tier.spec
    if spec.cover != "panelled" or (spec.panels is not None and spec.panels.replace_wrap):
        return
    layer, trim = tier.wrapped, spec.trim.mm
    side = layer.side
    start, end = -trim / 2, side.girth + trim / 2
    sheet = Box(start, -trim, end, layer.depth)
    cut = tier.openings.laid_flat(layer, sheet) if cuts_first(spec) else ()
    drawing = _lines(tier) + _lettering(tier)
    drawing += corner_names(layer.rim, _foot_line(layer), drawing.labels)
    piece = Piece(
        owner=tier.owner,
        kind="wrap",
        title=f"{tier.name}: wrap",
        surface=layer.surface,
        use=_use(tier),
        outline=side.unrolled(strip_edge(-trim, side.foot_at, start, end)),
        drawing=side.unroll(drawing) + (Drawing() if cut else tier.openings.to_check(layer, sheet)),
        values={
            "finished_length_mm": side.girth,
            "depth_mm": side.depth,
            "trim_mm": trim,
            **corner_values(layer.rim),
            **side.figures,
            **tier.openings.values(layer),
        },
        warnings=_warnings(tier) + unevenness(tier, layer),
        openings=cut,
    )
    yield within_side(piece, layer, trim)


def _use(tier: DecoratedTier) -> str:
    order = (
        "the top disc goes on first, the wrap stands up to its upper face"
        if tier.spec.first == "top"
        else "the top disc goes on after it, over its edge"
    )
    return (
        f"Cut from {fondant(tier.spec, tier.spec.paste_side_mm)}, {ROLLED_UP}. Stand it round the"
        f" coated side, trim where it meets; {order}.{_cut_to_hole(tier.spec)}"
    )


def _cut_to_hole(spec: Tier) -> str:
    """Say what to do about the hole through a tier, if it has one."""
    if spec.opening is None:
        return ""
    if cuts_first(spec):
        return " Cut the hole out first."
    return " Then cut out the hole, the knife along the dummy: the outline here is to check."


def _lines(tier: DecoratedTier) -> Drawing:
    side, trim = tier.wrapped.side, tier.spec.trim.mm
    girth = side.girth
    marks = quarter_marks(girth, -trim, side.foot_at, _foot_line(tier.wrapped))
    marks += corner_marks(tier.wrapped.rim, -trim, side.foot_at)
    if not trim:
        return marks
    start, end, foot = -trim / 2, girth + trim / 2, side.foot_at(girth)
    ends = (((u, -trim), (u, foot)) for u in (0.0, girth))
    lines = (((start, 0.0), (end, 0.0)), *ends)
    return Drawing(strokes(Role.TRIM, *lines)) + marks


def _foot_line(layer: Layer) -> Edge:
    """Return the line on which words stand along the foot."""
    return lambda u: layer.side.foot_at(u) - 2


def _lettering(tier: DecoratedTier) -> Drawing:
    spec, side, trim = tier.spec, tier.wrapped.side, tier.spec.trim.mm
    girth = side.girth
    block = title_lines(
        f"{tier.name}: wrap",
        f"finished length {measure(girth)}",
        f"finished depth {measure(side.depth)}{_to_low(side)}",
        f"fondant {measure(spec.paste_side_mm)} thick, measured mid-thickness",
        *_strip_words(tier),
        *_opening_words(spec),
    )
    left, right = _clear_interval(tier)
    low = min(side.foot_at(left), side.foot_at(right)) - 6
    labels = on_side(text_block(block, Box(left + 12, -low, right - 8, -4)))
    labels += (Label("bottom edge", (4, side.foot_at(4) - 2), SMALL),)
    if not trim:
        return Drawing(labels=(*labels, Label("top edge", (4, 4), SMALL)))
    return Drawing(
        labels=(
            *labels,
            Label("top edge", (girth / 2 + 4, -2), SMALL),
            Label("the ends meet here", (girth - 2, side.foot_at(girth) - 4), SMALL, turn=90),
        )
    )


def cuts_first(spec: Tier) -> bool:
    """Tell whether the hole is cut out of the wrap before that goes on."""
    return spec.opening is not None and spec.opening.cut == "before"


def _opening_words(spec: Tier) -> list[str]:
    """Say when the hole is cut out of the wrap, if the tier has one."""
    if spec.opening is None:
        return []
    if cuts_first(spec):
        return ["cut the hole out before it goes on"]
    return ["wrap first, then cut to the edge of the hole"]


def _clear_interval(tier: DecoratedTier) -> Span:
    """Return the first of the widest intervals between upright lines and openings in one half."""
    rim = tier.wrapped.rim
    half = rim.girth / 2
    lines = sorted({0.0, half / 2, half, *(u for u in rim.corners if 1 < u < half - 1)})
    holes = [path.bounds for path in tier.openings.on(tier.wrapped)]
    taken = [(hole.x0, hole.x1) for hole in holes]
    intervals = (part for each in pairwise(lines) for part in gaps(*each, taken))
    return max(intervals, key=lambda interval: round(interval[1] - interval[0]))


def _to_low(side: Side) -> str:
    """Say how deep a sloped side is where it is least deep."""
    low = side.least_depth
    return f" to {measure(low)}" if low < side.depth - 0.05 else ""


def _strip_words(tier: DecoratedTier) -> list[str]:
    """Say how far a strip that the decorator means to use reaches, if there is one."""
    strip, girth = tier.spec.strip, tier.wrapped.side.girth
    if strip is None:
        return []
    spare = strip.mm - girth
    reach = f"{measure(spare)} to spare" if spare >= 0 else f"{measure(-spare)} short"
    yours = f"your {strip.text} strip"
    return [f"{yours} is {reach}" if spare < 0 else f"{yours}: {reach}"]


def _warnings(tier: DecoratedTier) -> tuple[PlanWarning, ...]:
    strip, girth, trim = tier.spec.strip, tier.wrapped.side.girth, tier.spec.trim.mm
    if strip is None or strip.mm >= girth + trim:
        return ()
    short = girth - strip.mm
    text = (
        f"a strip of {strip.text} will not meet: it is {in_both(short)} short of the"
        f" {in_both(girth)} that this side takes"
        if short > 0
        else f"a strip of {strip.text} meets with {in_both(-short)} to spare, less than the trim of"
        f" {tier.spec.trim.text}"
    )
    return (PlanWarning(tier.key("strip"), f"{tier.name}: {text}."),)
