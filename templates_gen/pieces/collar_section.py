"""A section of a collar: what carries what stands at one place, or one repeat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.drawing import Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, Line, text_block
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import Path, line
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.pieces.collar_paper import (
    WORD_STRIP,
    Band,
    band_of,
    drawn_on,
    drawn_round,
    edge_name,
)
from templates_gen.pieces.laid_flat import strip_edge
from templates_gen.pieces.marks import QUARTERS, Edge, on_side, strokes
from templates_gen.tiers.solid import Layer

TICK = 4.0
"""Length of a mark where a repeat begins, mm."""


@dataclass(frozen=True, slots=True)
class CollarSection:
    """A part of a collar, from u = ``start`` to ``end``: its name, title and what to do with it.

    In ``use``, ``{edge}`` stands for which of its edges goes where. Short marks stand at each u of
    ``marks``. One that ``moves`` along the side has no front of its own.
    """

    start: float
    end: float
    part: str
    title: str
    use: str
    marks: tuple[float, ...] = ()
    moves: bool = False


def collar_section(
    tier: DecoratedTier, kind: str, layer: Layer, found: Sequence[Guide], section: CollarSection
) -> Piece:
    """Return a part of a collar with some guides, no taller than what they mark in it.

    It may reach over the join. Front, quarters and back join are marked where they lie in it.
    """
    side = layer.side
    holes = [path for path in tier.openings.repeated(layer) if _meets(path, section)]
    inside = [_inside(guide, section, side.girth) for guide in found]
    band = band_of(inside, side, max((hole.bounds.y1 for hole in holes), default=0.0))
    sheet = strip_edge(band.top, band.foot, section.start, section.end)
    title = text_block(
        [Line(section.title, SMALL, bold=True)],
        Box(section.start + 2, -band.strip - WORD_STRIP, section.end - 2, -band.strip),
    )
    drawing = (
        Drawing(tuple(drawn_on(layer, (s for each in inside for s in each.drawing.strokes), sheet)))
        + Drawing(labels=tuple(label for guide in inside for label in guide.drawing.labels))
        + _places(section, band, side.girth, band.words)
        + Drawing(labels=on_side(title))
    )
    if band.top < 0:
        drawing += Drawing(strokes(Role.NOTE, ((section.start, 0.0), (section.end, 0.0))))
    piece = Piece(
        owner=tier.owner,
        kind=kind,
        title=section.title,
        part=section.part,
        surface=layer.surface,
        use=section.use.format(edge=band.edge),
        outline=side.unrolled(sheet),
        drawing=side.unroll(drawing) + tier.openings.to_check(layer, sheet.bounds),
    )
    return words_apart(piece.finished())


def _meets(path: Path, section: CollarSection) -> bool:
    box = path.bounds
    return box.x1 > section.start and box.x0 < section.end


def _inside(guide: Guide, section: CollarSection, girth: float) -> Guide:
    """Return the lines of a guide that reach into a section, and its words there."""
    drawn = tuple(drawn_round([guide], girth, section.start, section.end))
    labels = [
        replace(label, at=(label.at[0] + turn, label.at[1]))
        for turn in (-girth, 0.0, girth)
        for label in guide.drawing.labels
        if section.start < label.at[0] + turn < section.end
    ]
    boxes = [stroke.path.bounds for stroke in drawn]
    return replace(
        guide,
        drawing=Drawing(drawn, tuple(labels)),
        top=min((box.y0 for box in boxes), default=0.0),
        foot=max((box.y1 for box in boxes), default=0.0),
    )


def _places(section: CollarSection, band: Band, girth: float, words: Edge) -> Drawing:
    """Mark front, quarters and back join in a section, and which edge goes where."""
    lines = []
    for u in section.marks:
        high = band.foot(u) - TICK if band.stands else band.top
        lines.append(Stroke(line((u, high), (u, high + TICK)), Role.NOTE))
    labels = [Label(edge_name(band.stands), (section.start + 1.5, words(section.start)), SMALL)]
    for share, name in () if section.moves else (*QUARTERS, (0.0, "back join")):
        for u in (share * girth + turn for turn in (-girth, 0.0, girth)):
            if section.start <= u <= section.end:
                lines.append(Stroke(line((u, band.top), (u, band.foot(u))), Role.CENTRE))
                labels.append(Label(name, (u + 1.5, words(u)), SMALL, bold=name == "front"))
    return Drawing(tuple(lines), tuple(labels))
