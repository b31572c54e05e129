"""A tape: a narrow strip once round a tier, with a tick at the place of each thing.

The u of a tick is that of the collar, to the last digit; the tape closes at the girth. Where ticks
are alike on all layers of a folded strip, a quarter of it serves, or a half.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from fontTools.misc.transform import Transform

from templates_gen.drawing.apart import words_apart
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.fonts import CAP_HEIGHT, DESCENT, fitted, text_width
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, TEXT, measure
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.pieces.collar import TAB
from templates_gen.pieces.making import PRINT_OUT
from templates_gen.pieces.marks import QUARTERS
from templates_gen.printing.on_fold import on_fold
from templates_gen.printing.strip_in_four import LONG, strip_in_four
from templates_gen.tiers.solid import Layer
from templates_gen.units import decimal, in_both

TALL = 22.0
"""Height of a tape, mm."""
TICK = 8.0
WORDS, UP, BASELINE = 10.6, TALL - TICK - 0.5, 2.0
"""How high over its lower edge the words of ticks stand, end where they are turned up a tick, and
those of the tape stand, mm."""
APART = 10.0
"""Between fuller words of two ticks at the least, mm: there the tape can be in two parts."""
FEW = 3
"""Ticks of more kinds are read off the tape itself: the strip that is cut by it has no words."""
LINE = 1.05 * LEAST_TEXT * (CAP_HEIGHT + DESCENT)
"""From the words of a tick to those of the next, where they are turned, mm."""
BESIDE = 1 + LEAST_TEXT * CAP_HEIGHT
"""Where turned words stand beside the end of the tape, mm."""
POINTER = 3.0
"""How much of a tick is a pointer to its words, where they stand aside, mm."""
SAME = 1e-6
"""Ticks no farther apart stand at one place, mm."""


@dataclass(frozen=True, slots=True)
class Tick:
    """A place of a tape: u in mm from the back join, and what stands at it.

    ``words`` name it by its number, ``kind`` is what it has in common with others. Where all ticks
    have room, the first of ``fuller`` words stands in their place.
    """

    u: float
    words: str
    kind: str
    fuller: tuple[str, ...] = ()

    @property
    def ways(self) -> tuple[str, ...]:
        """Its words, the fullest first."""
        return (*self.fuller, self.words)


def tape_of(
    piece: Piece,
    tier: DecoratedTier,
    layer: Layer,
    ticks: Sequence[Tick],
    edge: str,
    says: str,
    key: str,
) -> Piece:
    """Return a tape with these ticks in place of a collar; it ``says`` what to do at them.

    ``edge`` is where it lies. The ``key`` to the words of ticks stands on it, as what it says may
    be on the cover alone.
    """
    girth = layer.side.girth
    straight = (
        "end to end, with a ruler from triangle to triangle" if layer.side.is_level else "together"
    )
    paper = Box(0.0, 0.0, girth + TAB, TALL)
    title = _title(piece)
    drawing = _marked(_merged(ticks), girth) + _turned(layer, girth)
    drawing += Drawing(labels=tuple(_words(title, girth, key)))
    outline = Stroke(rectangle(paper), Role.CUT)
    made = replace(
        piece,
        title=title,
        use=f"Tape the strips {straight}. Lay the tape round, {PRINT_OUT}, its {edge}, ends"
        f" together at the back, and mark each tick{says}.",
        outline=layer.side.unroll(_on_side(Drawing((outline,)))).strokes[0].path,
        drawing=layer.side.unroll(_on_side(drawing)) + tier.openings.to_check(layer, paper),
    )
    return words_apart(made.finished())


def tape_on_fold(
    piece: Piece,
    tier: DecoratedTier,
    layer: Layer,
    ticks: Sequence[Tick],
    edge: str,
    says: str,
) -> Piece | None:
    """Return a quarter of a tape, or a half, to lay on a folded strip, or None if that is no use.

    Its ticks have no numbers: each stands for one on every layer. An even number of repeats is
    alike on four layers, an odd one on two.
    """
    girth = layer.side.girth
    merged = _merged(ticks)
    if girth < LONG or tier.openings.on(layer) or not layer.side.is_level:
        return None
    if _alike_on_layers(merged, girth, (girth, girth / 2)):
        whole = _to_fold(piece, layer, merged, edge, says, 0.75)
        return strip_in_four(whole, "Cut the long edges and snip each tick")
    if len({tick.kind for tick in merged}) <= FEW and _alike_on_layers(merged, girth, (girth,)):
        whole = _to_fold(piece, layer, merged, edge, says, 0.5)
        strip = f"a strip of parchment {measure(girth)} long"
        return on_fold(whole, " and snip each tick", sheet=strip)
    return None


def _to_fold(
    piece: Piece, layer: Layer, ticks: Sequence[Tick], edge: str, says: str, share: float
) -> Piece:
    """Return a whole tape with its words on what is left of it from a ``share`` of it on."""
    girth, title = layer.side.girth, _title(piece)
    start = share * girth
    # what stands at the join is at both ends
    closing = [replace(tick, u=girth) for tick in ticks[:1] if tick.u < SAME]
    plain = [replace(tick, words=tick.kind, fuller=()) for tick in (*ticks, *closing)]
    named = [tick for tick in plain if tick.kind and tick.u > start - SAME]
    sides = [QUARTERS[0][0], QUARTERS[2][0]] if share < QUARTERS[2][0] else []
    front = "the fold at the front, " if sides else ""
    turned = (Stroke(line((at * girth, 0.0), (at * girth, TICK)), Role.GUIDE) for at in sides)
    strokes = (*_marked(plain, girth).strokes, *_corners(layer).strokes, *turned)
    labels = (
        *_marked(named, girth).labels,
        *(each for each in _corners(layer).labels if each.at[0] > start),
        *(Label("left / right", (at * girth + 1.5, BASELINE), SMALL) for at in sides[1:]),
        *_words_from(start, title, girth, ticks),
    )
    made = replace(
        piece,
        title=title,
        use=f"Lay it round, either side out, {front}its {edge}, ends together at the"
        f" back, and mark each tick{says}.",
        outline=rectangle(Box(0.0, 0.0, girth, TALL)),
        drawing=Drawing(strokes, labels),
    )
    return made.finished()


def _words_from(start: float, title: str, girth: float, ticks: Sequence[Tick]) -> Iterator[Label]:
    """Yield the words of a tape from ``start`` on; a tick on an edge of that is said in words."""
    available = girth / 4 - 40
    yield Label(fitted(title, available, TEXT, bold=True), (start + 14, BASELINE), TEXT, bold=True)
    yield Label("↑ rim", (girth - 16, BASELINE), SMALL)
    for u, at, anchor in ((start, start + 9, Anchor.START), (girth, girth - 9, Anchor.END)):
        if any(abs((tick.u - u + 1) % girth - 1) < SAME for tick in ticks):
            yield Label("snip this corner", (at, TALL - 4), SMALL, anchor)


def _title(piece: Piece) -> str:
    before = ", before covering" if piece.kind == "marking-band" else ""
    return f"{piece.tier}: tape{f' {piece.part}' if piece.part else ''}{before}"


def _alike_on_layers(ticks: Sequence[Tick], girth: float, sums: Iterable[float]) -> bool:
    """Tell whether ticks of each kind come to lie on each other where a tape is folded.

    Of places on two layers that lie on each other u add up to one of the ``sums``, mm.
    """
    places: dict[str, list[float]] = defaultdict(list)
    for tick in ticks:
        places[tick.kind].append(tick.u)
    return all(
        any(abs((image - other + girth / 2) % girth - girth / 2) < SAME for other in same)
        for same in places.values()
        for u in same
        for image in (each - u for each in sums)
    )


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
            one = merged[-1]
            kind = ", ".join(filter(None, (one.kind, tick.kind)))
            *fuller, words = (f"{a}, {b}" for a, b in _same_way((one, tick)))
            merged[-1] = Tick(one.u, words, kind, tuple(fuller))
        else:
            merged.append(tick)
    return merged


def _marked(ticks: Sequence[Tick], girth: float) -> Drawing:
    """Draw each tick from the upper edge, with its words under it where they have room.

    Of ticks too near each other for that the words stand apart, and pointers lead to them.
    """
    labels: list[Label] = []
    for words in _same_way(ticks):
        same = [replace(tick, words=said) for tick, said in zip(ticks, words, strict=True)]
        gaps = _gaps(same, girth)
        labels = [_named(tick, gap) for tick, gap in zip(same, gaps, strict=True)]
        wide = zip(labels, gaps, strict=True)
        if all(label.turn == 0 and label.width < gap - APART for label, gap in wide):
            break
    moved = _spread(labels)
    strokes = (
        stroke
        for tick, old, new in zip(ticks, labels, moved, strict=True)
        for stroke in _tick(tick.u, new.at[0] - old.at[0])
    )
    return Drawing(tuple(strokes), tuple(moved))


def _gaps(ticks: Sequence[Tick], girth: float) -> list[float]:
    """Return how far each tick is from the next to it, on either side."""
    between = [girth, *(b.u - a.u for a, b in pairwise(ticks)), girth]
    return [min(pair) for pair in pairwise(between)]


def _tick(u: float, aside: float) -> Iterator[Stroke]:
    """Yield the line of a tick, and a pointer to its words where they were moved ``aside``."""
    low = TALL - TICK
    if abs(aside) > SAME:
        yield Stroke(line((u, low + POINTER), (u + aside, low)), Role.NOTE)
        low += POINTER
    yield Stroke(line((u, TALL), (u, low)), Role.GUIDE)


def _named(tick: Tick, gap: float) -> Label:
    """Return the words of a tick, under it, or turned where the next is too near.

    The end of the tape is itself the tick at the join: they stand beside it, with an arrow to it.
    """
    if tick.u > SAME:
        wide = Label(tick.words, (tick.u, WORDS), SMALL, Anchor.MIDDLE)
        turned = Label(tick.words, (tick.u + 1, UP), LEAST_TEXT, Anchor.END, turn=90)
        return wide if wide.width < gap - 1 and wide.width / 2 < tick.u else turned
    wide = Label(f"← {tick.words}", (1.0, WORDS), SMALL)
    turned = Label(tick.words, (BESIDE, UP), LEAST_TEXT, Anchor.END, turn=90)
    return wide if 1.5 * wide.width + 2 < gap else turned


def _spread(labels: Sequence[Label]) -> list[Label]:
    """Return labels of which those that are turned are moved, no more than sets them apart."""
    groups: list[list[float]] = []  # where the first of a group would stand for each of it
    for label in labels:
        if label.turn:
            groups.append([label.at[0]])
        while len(groups) > 1 and _start(groups[-2]) + len(groups[-2]) * LINE > _start(groups[-1]):
            last = groups.pop()
            groups[-1] += [place - len(groups[-1]) * LINE for place in last]
    places = iter([_start(each) + n * LINE for each in groups for n in range(len(each))])
    return [
        replace(label, at=(next(places), label.at[1])) if label.turn else label for label in labels
    ]


def _start(group: Sequence[float]) -> float:
    return max(sum(group) / len(group), BESIDE)


def _same_way(ticks: Sequence[Tick]) -> Iterator[tuple[str, ...]]:
    """Yield the words of ticks, as full as each other, the fullest first."""
    for way in range(max((len(tick.ways) for tick in ticks), default=0)):
        yield tuple(tick.ways[min(way, len(tick.fuller))] for tick in ticks)


def _turned(layer: Layer, girth: float) -> Drawing:
    """Mark front, quarters, the join and corners."""
    strokes = [Stroke(line((girth, 0.0), (girth, TALL)), Role.FOLD)]
    labels = [Label("back", (1.5, BASELINE), SMALL)]
    for share, name in QUARTERS:
        u = share * girth
        role, high = (Role.CENTRE, TALL) if name == "front" else (Role.GUIDE, TICK)
        strokes.append(Stroke(line((u, 0.0), (u, high)), role))
        labels.append(Label(name, (u + 1.5, BASELINE), SMALL, bold=name == "front"))
    return Drawing(tuple(strokes), tuple(labels)) + _corners(layer)


def _corners(layer: Layer) -> Drawing:
    """Mark where the tape turns a corner."""
    at = layer.rim.corners
    high = BASELINE + SMALL + 0.8
    return Drawing(
        tuple(Stroke(line((u, 0.0), (u, TICK)), Role.FOLD) for u in at),
        tuple(Label("corner", (u + 1.5, high), LEAST_TEXT) for u in at),
    )


def _words(title: str, girth: float, key: str) -> Iterator[Label]:
    available = girth / 4 - 20
    yield Label(fitted(title, available, TEXT, bold=True), (14, BASELINE), TEXT, bold=True)
    if key and text_width(key, SMALL) <= available:
        yield Label(key, (14, BASELINE + SMALL + 0.8), SMALL)
    ways = (f"closes at {mm}" for mm in (in_both(girth), f"{decimal(girth, 1)} mm"))
    closes = next((text for text in ways if text_width(text, SMALL) <= available), None)
    if closes:
        # over the name of the quarter, or both would read as one: “left closes at”
        yield Label(closes, (girth / 4 + 14, BASELINE + SMALL + 0.8), SMALL)
    yield Label("↑ rim", (girth / 2 + 14, BASELINE), SMALL)
    yield Label("tape under", (girth + TAB / 2 + 1, TALL / 2), LEAST_TEXT, Anchor.MIDDLE, turn=90)
