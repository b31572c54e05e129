"""Collars: paper round the side of a tier, with every guide at its true place."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from templates_gen.drawing.drawing import Drawing, Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, TEXT, Line, text_block
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.guides.keep_clear import visible_parts
from templates_gen.guides.overlaps import overlaps
from templates_gen.pieces.collar_paper import (
    WORD_STRIP,
    Band,
    band_of,
    drawn_on,
    drawn_round,
    edge_name,
)
from templates_gen.pieces.laid_flat import strip_edge, unevenness, within_side
from templates_gen.pieces.making import PRINT_OUT
from templates_gen.pieces.marks import (
    corner_marks,
    corner_names,
    corner_values,
    on_side,
    quarter_marks,
    strokes,
)
from templates_gen.terms import in_one_unit
from templates_gen.tiers.solid import Layer

TAB = 15.0
"""Paper beyond the join, to tape the ends together, mm."""
NOTES = 3
"""Quarters that have room for a note; the first has the title."""
STRIP = "design-strip"
"""The kind of a collar for one guide alone."""
FINISHED = "finished side, once the icing is firm"


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the collar for the finished side, no taller than its guides and one strip of words."""
    marked = [guide for guide in tier.guides if guide.layer.surface == tier.covered.surface]
    found = [guide for guide in marked if guide.on_collar and not guide.strip]
    then = "mark through it" if found else "mark front and quarters"
    made = _collar(tier, "collar", tier.covered, found, FINISHED, then)
    yield replace(made, warnings=(*made.warnings, *overlaps(tier, marked)))


def build_inner(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the marking band, if anything is marked on the coating before the paste goes on."""
    found = _on(tier, tier.coated)
    if found:
        then = "mark the joins, then set the panels"
        yield _collar(tier, "marking-band", tier.coated, found, "coated side, chilled", then)


def build_strips(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield a strip for each guide that is printed by itself: a collar for it alone."""
    for guide in _on(tier, tier.covered):
        if guide.strip:
            where, then = FINISHED, "mark through it"
            strip = _collar(tier, STRIP, tier.covered, [guide], where, then)
            yield replace(strip, part=guide.strip)


def _on(tier: DecoratedTier, layer: Layer) -> list[Guide]:
    """Return the guides of collars measured on a surface."""
    on_collar = (guide for guide in tier.guides if guide.on_collar)
    return [guide for guide in on_collar if guide.layer.surface == layer.surface]


def _collar(
    tier: DecoratedTier, kind: str, layer: Layer, found: Sequence[Guide], where: str, then: str
) -> Piece:
    """Return paper round a surface with some guides, said where it goes and what then to do."""
    side, holes = layer.side, tier.openings.on(layer)
    band = band_of(found, side, max((path.bounds.y1 for path in holes), default=0.0))
    sheet = strip_edge(band.top, band.foot, 0.0, side.girth + TAB)
    named = f"strip for {found[0].name}" if kind == STRIP else kind.replace("-", " ")
    title = f"{tier.name}: {named}"
    hole = ", outline of the hole over its edge" if holes else ""
    laid = f"{band.edge}, ends together at the back{hole}"
    use = f"Lay it round the {where}, {PRINT_OUT}, {laid}; {then}."
    drawing = _drawn(tier, layer, found, band, sheet, title)
    piece = Piece(
        owner=tier.owner,
        kind=kind,
        title=title,
        surface=layer.surface,
        use=use,
        outline=side.unrolled(sheet),
        drawing=side.unroll(drawing) + tier.openings.to_check(layer, sheet.bounds),
        warnings=(
            *unevenness(tier, layer),
            *(warning for guide in found for warning in guide.warnings),
        ),
        values={
            "length_mm": side.girth,
            "tab_mm": TAB,
            **corner_values(layer.rim),
            **side.figures,
            **tier.openings.values(layer),
            **{name: value for guide in found for name, value in guide.values.items()},
        },
    )
    return within_side(piece, layer, TAB)


def _drawn(
    tier: DecoratedTier, layer: Layer, found: Sequence[Guide], band: Band, sheet: Path, title: str
) -> Drawing:
    """Draw a collar in side coordinates: its guides, what finds its place, its words."""
    girth, top, foot, stands = layer.side.girth, band.top, band.foot, band.stands
    # a long line of words would leave a strip that bends
    notes = _notes(found) if layer.side.is_level else []
    # once round and on over the join, as far as paper and side go
    paper = sheet.bounds
    lines = drawn_on(layer, drawn_round(visible_parts(found), girth, paper.x0, paper.x1), sheet)
    own = tuple(label for guide in found for label in guide.drawing.labels)
    drawing = (
        Drawing((*lines, *strokes(Role.FOLD, ((girth, top), (girth, foot(girth))))))
        + quarter_marks(girth, top, foot, band.words, edge_name(stands))
        + Drawing(labels=(*own, *_words(title, notes, girth, band, inches=tier.inches)))
        + corner_marks(
            layer.rim, top + WORD_STRIP * stands, lambda u: foot(u) - WORD_STRIP * (not stands)
        )
    )
    drawing += corner_names(layer.rim, band.words, drawing.labels)
    if top < 0:
        drawing += Drawing(strokes(Role.NOTE, ((0.0, 0.0), (girth + TAB, 0.0))))
    return drawing


def _notes(found: Sequence[Guide]) -> list[str]:
    """Return what the paper says of its guides, shared out to the quarters that have room."""
    notes = list(dict.fromkeys(guide.note for guide in found if guide.note))
    return ["; ".join(notes[start::NOTES]) for start in range(min(NOTES, len(notes)))]


def _words(
    title: str, notes: Sequence[str], girth: float, band: Band, *, inches: bool
) -> tuple[Label, ...]:
    """Write along the strip: the join, the title, a note to each further quarter, the tab.

    Where a note has no room for both units it is in one.
    """
    top, foot = -band.strip, -band.strip - WORD_STRIP
    tab = Box(girth + 1, foot, girth + TAB - 1, top)
    labels = on_side(
        (
            *text_block([Line(title, TEXT, bold=True)], Box(34, foot, girth / 4 - 4, top)),
            *text_block([Line("tape under", SMALL)], tab),
        )
    )
    for quarter, note in enumerate(notes, 1):
        start, end = girth * quarter / 4 + 22, girth * (quarter + 1) / 4 - 4
        box = Box(start, foot, end, top)
        ways = (note, in_one_unit(note, inches=inches))
        labels += on_side(
            next(filter(None, (text_block([Line(way, SMALL)], box) for way in ways)), ())
        )
    return (*labels, Label(f"back join {edge_name(band.stands)}", (1.5, band.words(1.5)), SMALL))
