"""A tape: a narrow strip once round a tier, with a tick at the place of each thing.

The u of a tick is that of the collar, to the last digit; the tape closes at the girth.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.fonts import fitted
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, TEXT
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.collar import TAB
from templates_gen.pieces.marks import QUARTERS
from templates_gen.tiers.solid import Layer
from templates_gen.units import in_both

TALL = 22.0
"""Height of a tape, mm."""
TICK = 8.0
WORDS, BASELINE = 10.6, 2.0
"""How high over its lower edge the words of ticks stand, and those of the tape, mm."""
SAME = 1e-6
"""Ticks no farther apart stand at one place, mm."""


@dataclass(frozen=True, slots=True)
class Tick:
    """A place of a tape: u in mm from the back join, and what stands at it."""

    u: float
    words: str


def tape_of(
    piece: Piece, tier: DecoratedTier, layer: Layer, ticks: Sequence[Tick], says: str
) -> Piece:
    """Return a tape with these ticks in place of a collar; it ``says`` what to do at them."""
    girth = layer.side.girth
    before = ", before covering" if piece.kind == "marking-band" else ""
    title = f"{piece.tier}: tape{f' {piece.part}' if piece.part else ''}{before}"
    straight = (
        "end to end: lay a ruler along their upper edge from arrow to arrow"
        if layer.side.is_level
        else "together"
    )
    paper = Box(0.0, 0.0, girth + TAB, TALL)
    drawing = _marked(_merged(ticks), girth) + _turned(layer, girth)
    drawing += Drawing(labels=tuple(_words(title, girth)))
    edge = Stroke(rectangle(paper), Role.CUT)
    made = replace(
        piece,
        title=title,
        use=f"Tape the strips {straight}. Lay the tape round, print side out, its upper edge at the"
        f" rim, ends together at the back, and mark each tick{says}.",
        outline=layer.side.unroll(_on_side(Drawing((edge,)))).strokes[0].path,
        drawing=layer.side.unroll(_on_side(drawing)) + tier.openings.to_check(layer, paper),
    )
    return words_apart(made.finished())


def _on_side(drawing: Drawing) -> Drawing:
    """Return what is drawn on a tape, y up from its lower edge, in (u, v)."""
    down = Transform(1, 0, 0, -1, 0, TALL)
    return Drawing(
        tuple(stroke.transformed(down) for stroke in drawing.strokes),
        tuple(replace(each, at=(each.at[0], TALL - each.at[1])) for each in drawing.labels),
    )


def _merged(ticks: Sequence[Tick]) -> list[Tick]:
    """Return ticks in order, those at one place as one."""
    merged: list[Tick] = []
    for tick in sorted(ticks, key=lambda each: each.u):
        if merged and tick.u - merged[-1].u < SAME:
            merged[-1] = replace(merged[-1], words=f"{merged[-1].words}, {tick.words}")
        else:
            merged.append(tick)
    return merged


def _marked(ticks: Sequence[Tick], girth: float) -> Drawing:
    """Draw each tick from the upper edge, with its words under it where they have room."""
    gap = min([b.u - a.u for a, b in pairwise(ticks)], default=girth)
    strokes = tuple(
        Stroke(line((tick.u, TALL), (tick.u, TALL - TICK)), Role.GUIDE) for tick in ticks
    )
    labels = []
    for tick in ticks:
        wide = Label(tick.words, (tick.u, WORDS), SMALL, Anchor.MIDDLE)
        turned = Label(tick.words, (tick.u + 1, TALL - TICK - 0.5), LEAST_TEXT, Anchor.END, turn=90)
        label = wide if wide.width < gap - 1 and wide.width / 2 < tick.u else turned
        labels.append(label)
    return Drawing(strokes, tuple(labels))


def _turned(layer: Layer, girth: float) -> Drawing:
    """Mark front, quarters, corners and the join."""
    strokes = [Stroke(line((girth, 0.0), (girth, TALL)), Role.FOLD)]
    labels = [Label("back", (1.5, BASELINE), SMALL)]
    for share, name in QUARTERS:
        u = share * girth
        role, high = (Role.CENTRE, TALL) if name == "front" else (Role.GUIDE, TICK)
        strokes.append(Stroke(line((u, 0.0), (u, high)), role))
        labels.append(Label(name, (u + 1.5, BASELINE), SMALL, bold=name == "front"))
    for u in layer.rim.corners:
        strokes.append(Stroke(line((u, 0.0), (u, TICK)), Role.FOLD))
        labels.append(Label("corner", (u + 1.5, BASELINE + SMALL + 0.8), LEAST_TEXT))
    return Drawing(tuple(strokes), tuple(labels))


def _words(title: str, girth: float) -> Iterator[Label]:
    available = girth / 4 - 20
    yield Label(fitted(title, available, TEXT, bold=True), (14, BASELINE), TEXT, bold=True)
    long = f"closes at {in_both(girth)}"
    yield Label(fitted(long, available, SMALL), (girth / 4 + 14, BASELINE), SMALL)
    yield Label("↑ rim", (girth / 2 + 14, BASELINE), SMALL)
    yield Label("tape under", (girth + TAB / 2 + 1, TALL / 2), LEAST_TEXT, Anchor.MIDDLE, turn=90)
