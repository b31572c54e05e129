"""A tape: a narrow strip once round a tier, instead of a collar.

It serves where what repeats is known by its places and lengths alone, as drips and joins are. The u
of a tick is that of the collar, to the last digit; the tape closes at the girth.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.fonts import fitted
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, TEXT
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle, straights
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.pieces.collar import TAB
from templates_gen.pieces.marks import QUARTERS
from templates_gen.plan import Plan
from templates_gen.tiers.solid import Layer
from templates_gen.units import decimal, in_both

TALL = 22.0
"""Height of a tape, mm."""
TICK = 8.0
WORDS, LANE = 10.6, 2.0
"""How high over its lower edge the words of ticks stand, and those of the tape, mm."""
HAIR = 1e-6


@dataclass(frozen=True, slots=True)
class Tick:
    """A place of a tape: u in mm from the back join, and what stands at it."""

    u: float
    words: str


def tape(piece: Piece, plan: Plan) -> Piece | None:
    """Return a tape instead of a collar, or None where its marks are more than places."""
    tier = next((each for each in plan.stack.tiers if each.name == piece.tier), None)
    if tier is None or piece.kind not in ("collar", "inner-collar"):
        return None
    layer = tier.covered if piece.kind == "collar" else tier.coated
    guides = [
        guide
        for guide in tier.guides
        if guide.on_collar and not guide.strip and guide.layer.surface == layer.surface
    ]
    if not guides or tier.openings.on(layer) or not _is_upright(layer):
        return None
    found = [_ticks(guide, tier) for guide in guides]
    ticks = [tick for each in found if each for tick in each]
    return _tape(piece, layer, ticks) if all(found) else None


def _is_upright(layer: Layer) -> bool:
    return not layer.is_tapered and layer.fall is None


def _ticks(guide: Guide, tier: DecoratedTier) -> list[Tick]:
    """Return the ticks of a guide; none where it is more than drips or joins."""
    row = tier.drip_row
    if row is not None and guide.values.get("positions_mm") == row.positions:
        numbered = enumerate(zip(row.positions, row.lengths, strict=True), 1)
        return [Tick(u, f"{number}: {decimal(length, 0)}") for number, (u, length) in numbered]
    return _joins(guide) if tier.panel_row is not None else []


def _joins(guide: Guide) -> list[Tick]:
    """Return the upright lines of a guide that has no others but level ones."""
    levels, places = set[float](), dict[float, float]()
    for stroke in guide.drawing.strokes:
        for (x0, y0), (x1, y1) in straights(stroke.path):
            if abs(x0 - x1) < HAIR:
                u = x0 % guide.layer.side.girth
                places[u] = max(places.get(u, 0.0), y0, y1)
            elif abs(y0 - y1) < HAIR:
                levels.add(y0)
        if any(name == "curveTo" for name, _ in stroke.path.commands):
            return []
    if not places or not levels:
        return []
    lowest = max(places.values())
    rows = {u: "row 1" if foot > lowest - HAIR else "row 2" for u, foot in places.items()}
    several = len(set(rows.values())) > 1
    return [
        Tick(u, f"{number} {rows[u]}" if several else str(number))
        for number, u in enumerate(sorted(places), 1)
    ]


def _tape(piece: Piece, layer: Layer, ticks: Sequence[Tick]) -> Piece:
    girth = layer.side.girth
    title = f"{piece.tier}: tape{', before covering' if piece.kind == 'inner-collar' else ''}"
    drips = any(":" in tick.words for tick in ticks)
    use = (
        "Tape the strips end to end along a ruler. Lay it round with its upper edge at the rim,"
        " ends together at the back, and mark each tick"
        f"{'; the second number is how many mm long that drip is' if drips else ''}."
    )
    made = replace(
        piece,
        title=title,
        use=use,
        outline=rectangle(Box(0.0, 0.0, girth + TAB, TALL)),
        drawing=Drawing((Stroke(rectangle(Box(0.0, 0.0, girth + TAB, TALL)), Role.CUT),))
        + _marked(ticks, girth)
        + _turned(layer, girth)
        + Drawing(labels=tuple(_words(title, girth))),
        values=piece.values,
    )
    return words_apart(made)


def _marked(ticks: Sequence[Tick], girth: float) -> Drawing:
    """Draw each tick from the upper edge, with its words under it where they have room."""
    ordered = sorted(ticks, key=lambda tick: tick.u)
    room = min([b.u - a.u for a, b in pairwise(ordered)], default=girth)
    strokes = tuple(
        Stroke(line((tick.u, TALL), (tick.u, TALL - TICK)), Role.GUIDE) for tick in ticks
    )
    labels = []
    for tick in ordered:
        wide = Label(tick.words, (tick.u, WORDS), SMALL, Anchor.MIDDLE)
        turned = Label(tick.words, (tick.u + 1, TALL - TICK - 0.5), LEAST_TEXT, Anchor.END, turn=90)
        label = wide if wide.width < room - 1 and wide.width / 2 < tick.u else turned
        labels.append(label)
    return Drawing(strokes, tuple(labels))


def _turned(layer: Layer, girth: float) -> Drawing:
    """Mark front, quarters, corners and the join."""
    strokes = [Stroke(line((girth, 0.0), (girth, TALL)), Role.FOLD)]
    labels = [Label("back", (1.5, LANE), SMALL)]
    for share, name in QUARTERS:
        u = share * girth
        role, high = (Role.CENTRE, TALL) if name == "front" else (Role.GUIDE, TICK)
        strokes.append(Stroke(line((u, 0.0), (u, high)), role))
        labels.append(Label(name, (u + 1.5, LANE), SMALL, bold=name == "front"))
    for u in layer.rim.corners:
        strokes.append(Stroke(line((u, 0.0), (u, TICK)), Role.FOLD))
        labels.append(Label("corner", (u + 1.5, LANE + SMALL + 0.8), LEAST_TEXT))
    return Drawing(tuple(strokes), tuple(labels))


def _words(title: str, girth: float) -> Iterator[Label]:
    room = girth / 4 - 20
    yield Label(fitted(title, room, TEXT, bold=True), (14, LANE), TEXT, bold=True)
    long = f"closes at {in_both(girth)}"
    yield Label(fitted(long, room, SMALL), (girth / 4 + 14, LANE), SMALL)
    yield Label("↑ rim", (girth / 2 + 14, LANE), SMALL)
    yield Label("tape under", (girth + TAB / 2 + 1, TALL / 2), LEAST_TEXT, Anchor.MIDDLE, turn=90)
