"""On the fold: a piece that is its own mirror image printed as a half, or as a quarter.

Baking parchment is folded in two or four, the part laid on the folds, all layers cut at once. The
mirror lines are found from the lines of the piece, whatever its kind.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import replace

from fontTools.misc.transform import Transform

from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece, Unfolding
from templates_gen.drawing.text_block import measure
from templates_gen.errors import GeometryError
from templates_gen.geometry.areas.booleans import clipped_area
from templates_gen.geometry.mirror import Mirror, edges_of, half_of, half_outline, mirrored_edges
from templates_gen.geometry.path import Path
from templates_gen.geometry.tolerances import MIRRORED
from templates_gen.printing.fold_marks import edges_marked, folded_words, how_it_opens

LEAST = 110.0
"""A piece no longer than this is not folded that way, mm: it is small enough."""
MOST_COPIES = 2
"""Cut from more, a piece is handier whole."""
_LAYERS = {1: ("half", "two", "both layers"), 2: ("quarter", "four", "all four layers")}


Give = Callable[[Drawing], Drawing]
"""Lets lines give way to the words on them."""


def on_fold(
    piece: Piece, then: str = "", give_way: Give = lambda drawn: drawn, sheet: str = "parchment"
) -> Piece | None:
    """Return a piece as its part on the fold, or None where it is not its own mirror image.

    ``then`` says what is done through all layers after cutting them, ``sheet`` what is folded. Its
    lines ``give_way`` to its words, once these are on the part.
    """
    mirrors = folds_of(piece)
    part = _part(piece, mirrors, give_way) if mirrors else None
    if part is None:
        return None
    _, number, layers = _LAYERS[len(mirrors)]
    folds = "fold" if len(mirrors) == 1 else "folds"
    how = f"Fold {sheet} in {number}, lay this on the {folds}, cut {layers}{then}, unfold."
    return replace(part, use=f"{how} {piece.use}")


def folds_of(piece: Piece) -> list[Mirror]:
    """Return the mirror lines of a piece on which it is folded."""
    if piece.copies > MOST_COPIES:
        return []
    long = {"x": piece.size.width, "y": piece.size.height}
    return [mirror for mirror in mirrors_of(piece) if long[mirror.axis] > LEAST]


def mirrors_of(piece: Piece) -> tuple[Mirror, ...]:
    """Return the upright and the level line through the middle that mirror a piece in itself.

    Its edge and every stroke, each among those of its role, and the lengths written on it.
    """
    lines: dict[Hashable, list[Path]] = defaultdict(list)
    lines["edge"] = [piece.outline]
    for stroke in piece.drawing.strokes:
        lines[stroke.role].append(stroke.path)
    x, y = piece.outline.bounds.centre
    tried = (Mirror("x", x), Mirror("y", y))
    said = tuple(mirror for mirror in tried if _says_the_same(piece, mirror))
    edges = [edges_of(paths) for paths in lines.values()] if said else []
    return tuple(mirror for mirror in said if mirrored_edges(edges, mirror))


def _says_the_same(piece: Piece, mirror: Mirror) -> bool:
    """Tell whether the lengths written at the marks of a piece are their own mirror image."""
    lengths = piece.values.get("lengths_mm")
    if not isinstance(lengths, tuple) or len(set(lengths)) <= 1:
        return True
    # they run round from the back, so only the line from back to front turns them about
    return mirror.axis == "x" and all(
        abs(one - other) <= MIRRORED for one, other in zip(lengths, lengths[::-1], strict=True)
    )


def _part(piece: Piece, mirrors: Sequence[Mirror], give_way: Give) -> Piece | None:
    """Return the part of a piece on the kept side of some mirrors, which go through (0, 0)."""
    try:
        outline, drawing = _kept(piece, mirrors)
    except GeometryError:
        return None
    at = {mirror.axis: mirror.at for mirror in mirrors}
    origin = at.get("x", 0.0), at.get("y", 0.0)
    move = Transform(1, 0, 0, 1, -origin[0], -origin[1])
    here = tuple(Mirror(mirror.axis, 0.0) for mirror in mirrors)
    name, *_ = _LAYERS[len(mirrors)]
    edge = outline.transformed(move)
    holes = (clipped_area(path.transformed(move), edge.bounds) for path in piece.openings)
    part = replace(
        piece,
        title=f"{piece.title}, {name} on the fold",
        outline=edge,
        openings=tuple(hole for hole in holes if hole.commands),
        drawing=drawing.transformed(move),
        unfolding=Unfolding(here, origin, piece.size.size),
    )
    return _marked(part, here, give_way)


def _kept(piece: Piece, mirrors: Sequence[Mirror]) -> tuple[Path, Drawing]:
    outline, strokes = piece.outline, piece.drawing.strokes
    for mirror in mirrors:
        outline = half_outline(outline, mirror)
        halves = (Stroke(half_of(each.path, mirror), each.role) for each in strokes)
        strokes = tuple(half for half in halves if half.path.commands)
    return outline, Drawing(strokes, piece.drawing.labels)


def _marked(part: Piece, mirrors: Sequence[Mirror], give_way: Give) -> Piece:
    """Return a part with its words set within it, its fold edges marked, and how it opens."""
    labels = folded_words(part.drawing.labels, mirrors)
    drawn = give_way(Drawing(part.drawing.strokes, labels))
    part = edges_marked(replace(part, drawing=drawn), mirrors, drawn.labels)
    return replace(part, drawing=part.drawing + how_it_opens(part, _says(part, mirrors)))


def _says(part: Piece, mirrors: Sequence[Mirror]) -> tuple[str, ...]:
    width, height = part.full_size
    opened = f"opens to {measure(width)} × {measure(height)}"
    return f"fold parchment in {2 ** len(mirrors)}", opened
