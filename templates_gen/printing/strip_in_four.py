"""A strip folded in two and in two again: a quarter of it is printed.

The two ends and the first fold, at the front, come to lie on one edge, the other folds on the
opposite one. What is cut is alike on all four layers. A line to mark that is not is drawn where it
lies on one pair of layers, and says on which.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from dataclasses import replace

from fontTools.misc.transform import Transform

from templates_gen.drawing import fonts
from templates_gen.drawing.apart import OFF_LINES, frame
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece, Unfolding
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, measure
from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box
from templates_gen.geometry.mirror import (
    Mirror,
    edges_of,
    half_of,
    half_outline,
    is_same,
    mirrored_edges,
)
from templates_gen.geometry.path import Path
from templates_gen.printing.fold_marks import edges_marked, folded_words, how_it_opens
from templates_gen.printing.on_fold import mirrors_of

LONG = 400.0
"""A shorter strip is not folded twice, mm: its half is short enough."""
MOST_ALONG = 0.8
"""The part of the edge on which the ends lie that words along it may take."""
_UP_THE_EDGE = (0.55, 0.5, 0.45, 0.6, 0.4, 0.65, 0.35)
"""Where along that edge their middle may be, over its length."""
EACH = 4.0
"""Places along a line for the words that say on which layers it is are tried so far apart, mm."""
LOW = 6.2
"""How high over its lower edge a low strip says what lies at its end, mm."""
ENDS, FRONT = "on the two end layers", "on the two front layers"


def strip_in_four(piece: Piece, cut: str = "Cut the long edges") -> Piece | None:
    """Return a quarter of a long strip, or None where a piece is no strip that folds so.

    ``cut`` says what is cut through all layers.
    """
    if piece.size.width < LONG or piece.copies > 1 or piece.openings:
        return None
    front = next((mirror for mirror in mirrors_of(piece) if mirror.axis == "x"), None)
    if front is None:
        return None
    fold = Mirror("x", front.at + piece.size.width / 4)
    try:
        half = half_outline(piece.outline, front)
        outline = half_outline(half, fold)
    except GeometryError:
        return None
    if not mirrored_edges([edges_of([half])], fold):
        return None
    strokes = [Stroke(half_of(each.path, front), each.role) for each in piece.drawing.strokes]
    alike, ends, fronts = _sorted(strokes, half, fold)
    if any(each.role is Role.CUT or _crosses(each, fold) for each in (*ends, *fronts)):
        return None
    return _quarter(piece, fold, outline, (alike, ends, fronts), cut)


def _sorted(
    strokes: Iterable[Stroke], half: Path, fold: Mirror
) -> tuple[list[Stroke], list[Stroke], list[Stroke]]:
    """Return strokes that are alike on all layers, then those on the end and front layers only."""
    # the ends come to lie on the front fold, which is an edge of the half but no line of it
    by_role: dict[Hashable, list[Path]] = defaultdict(list, {Role.CUT: [half]})
    for stroke in strokes:
        by_role[stroke.role].append(stroke.path)
    alike, ends, fronts = [], [], []
    for stroke in (each for each in strokes if each.path.commands):
        others = edges_of(by_role[stroke.role])
        if is_same(edges_of([stroke.path]), others, fold.transform):
            alike.append(stroke)
        elif fold.across(stroke.path.bounds.centre) >= 0:
            ends.append(stroke)
        else:
            fronts.append(stroke)
    return alike, ends, fronts


def _crosses(stroke: Stroke, fold: Mirror) -> bool:
    box = stroke.path.bounds
    return fold.across((box.x0, box.y0)) < 0 < fold.across((box.x1, box.y1))


def _quarter(
    piece: Piece,
    fold: Mirror,
    outline: Path,
    strokes: tuple[Sequence[Stroke], Sequence[Stroke], Sequence[Stroke]],
    cut: str,
) -> Piece:
    """Return the quarter of a strip between its fold, which goes to x = 0, and its end."""
    alike, ends, fronts = strokes
    move = Transform(1, 0, 0, 1, -fold.at, 0)
    kept = [Stroke(half_of(each.path, fold), each.role) for each in alike]
    drawn = [stroke.transformed(move) for stroke in kept if stroke.path.commands]
    on_ends = [stroke.transformed(move) for stroke in ends]
    on_front = [stroke.transformed(move.transform(fold.transform)) for stroke in fronts]
    mirrors = (Mirror("x", 0.0), Mirror("x", -piece.size.width / 4))
    long = measure(piece.size.width)
    part = replace(
        piece,
        title=f"{piece.title}, quarter on the fold",
        use=f"Fold a strip of parchment {long} long in two, and in two again: the ends and the"
        f" front fold lie on one edge, two folds on the other. {cut} through four layers, unfold."
        f" {piece.use}",
        outline=outline.transformed(move),
        drawing=Drawing((*drawn, *on_ends, *on_front), piece.drawing.labels),
        unfolding=Unfolding(mirrors, (fold.at, 0.0), piece.size.size),
    )
    return _marked(part, on_ends, on_front)


def _marked(part: Piece, ends: Iterable[Stroke], fronts: Iterable[Stroke]) -> Piece:
    """Return a quarter strip with its words, its edges named, and how it opens."""
    if part.unfolding is None:
        return part
    fold, front = part.unfolding.mirrors
    words = (
        label.transformed(Transform(1, 0, 0, 1, -part.unfolding.origin[0], 0))
        for label in part.drawing.labels
    )
    labels = folded_words(words, (front, fold))
    on_layers = _on_layers(part, ends, ENDS, labels)
    on_layers += _on_layers(part, fronts, FRONT, (*labels, *on_layers))
    part = edges_marked(part, (fold,), (*labels, *on_layers, _ends_here(part)))
    long, tall = map(measure, part.full_size)
    says = ("fold parchment in 2, and again in 2", f"cut it {long} long first", f"{tall} tall")
    return replace(part, drawing=part.drawing + how_it_opens(part, says))


def _ends_here(part: Piece) -> Label:
    """Name the edge on which the ends lie: along it, or with an arrow where that is too short."""
    box = part.outline.bounds
    here = Label("both ends and the front fold here", (0.0, 0.0), SMALL, Anchor.MIDDLE, turn=90)
    if here.width > MOST_ALONG * box.height:
        at = box.x1 - 1.5, box.y0 + LOW
        return replace(here, text=f"{here.text} →", at=at, anchor=Anchor.END, turn=0.0)
    lines = Taken((stroke.path for stroke in part.drawing.strokes), part.area)
    tries = [
        replace(here, at=(box.x1 - 1.5, box.y0 + box.height * share)) for share in _UP_THE_EDGE
    ]
    free = lines.free([frame(each, OFF_LINES) for each in tries])
    return next((each for each, is_free in zip(tries, free, strict=True) if is_free), tries[0])


def _on_layers(
    part: Piece, strokes: Iterable[Stroke], words: str, said: Iterable[Label]
) -> list[Label]:
    """Say beside each line that is not on all layers on which it is; of a curve, at its side.

    Beside a straight line it stands clear of what is ``said``, the farthest from any curve. What
    lies on an edge of the quarter is a fold or an end there.
    """
    marks = [each for each in strokes if each.role is not Role.NOTE]
    boxes = {round(each.path.bounds.x0, 2): each.path.bounds for each in marks}
    drawn = [each.path for each in part.drawing.strokes]
    lines = Taken(drawn, part.area).also([label.box for label in said])
    curves = Taken(path for path in drawn if min(path.bounds.size) > 1)
    return [
        _along(box, words, lines, curves)
        if box.width < 1
        else Label(words, (box.x0 - 1, box.centre[1]), SMALL, Anchor.MIDDLE, turn=90)
        for box in boxes.values()
        if 1 < box.x0 < part.outline.bounds.x1 - 1
    ]


def _along(box: Box, words: str, lines: Taken, curves: Taken) -> Label:
    """Return words along an upright line, at either side of it, where nothing else is near."""
    first = Label(words, (box.x0 - 1, box.y0 + 12), SMALL, turn=90)
    sides = (box.x0 - 1, box.x1 + 1 + SMALL * fonts.CAP_HEIGHT)
    room = max(0, int((box.height - 16 - first.width) / EACH))
    tries = [
        replace(first, at=(x, box.y0 + 12 + step * EACH)) for step in range(room + 1) for x in sides
    ]
    is_free = lines.free([frame(each, OFF_LINES) for each in tries])
    free = [each for each, one in zip(tries, is_free, strict=True) if one]
    away = [min(curves.clearances(each.box.corners)) for each in free]
    return free[away.index(max(away))] if free else first
