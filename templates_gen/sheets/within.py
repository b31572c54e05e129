"""Captions on the piece itself, where there is room: they take no paper beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Label
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import inked_height
from templates_gen.geometry.areas.free_boxes import FreeBoxes
from templates_gen.geometry.box import Box
from templates_gen.sheets.captions import Caption, name, on_foot, on_piece, width
from templates_gen.sheets.lattice import Cell, Lattice

CLEAR = 2.5
"""What is left round a caption, for the words that lines have beside them too, mm."""
WIDTHS = (170.0, 140.0, 115.0, 95.0, 78.0, 64.0)
"""How wide a caption may be, mm: the first for which there is room."""
ARROWS = "←↑→↓"


@dataclass(frozen=True, slots=True)
class _Words:
    """The words of a piece: the ``facts`` that stand under its title, and all ``others``.

    ``free`` is what its lines and the others leave of the piece.
    """

    facts: tuple[Label, ...]
    others: tuple[Label, ...]
    free: FreeBoxes


def captioned(lattices: Iterable[Lattice]) -> list[Lattice]:
    """Return ways to split one piece, each with its captions on the piece where they have room.

    A piece that has its full caption on it needs no title among its other words.
    """
    ways = list(lattices)
    words = _words(ways[0].piece)
    return [_captioned(lattice, words) for lattice in ways]


def _words(piece: Piece) -> _Words:
    facts, others = list[Label](), list[Label]()
    for lines in blocks(without_use(piece, piece.drawing.labels)):
        bold = next((n for n, line in enumerate(lines) if not line.bold), len(lines))
        if " ".join(line.text for line in lines[:bold]) in (piece.title, name(piece)):
            rest = [replace(line, continues=n > 0) for n, line in enumerate(lines[bold:])]
            # what points somewhere stays where it is
            points = any(arrow in line.text for line in rest for arrow in ARROWS)
            (others if points else facts).extend(rest)
        else:
            others += lines
    drawn = [stroke.path for stroke in piece.drawing.strokes]
    free = FreeBoxes.between(drawn, piece.paper).without(label.box for label in others)
    return _Words(tuple(facts), tuple(others), free)


def without_use(piece: Piece, labels: Iterable[Label]) -> tuple[Label, ...]:
    """Return the words of a piece without what its caption says too: what to do with it."""
    return tuple(label for lines in blocks(labels) for label in _before_use(piece, lines))


def _before_use(piece: Piece, lines: Sequence[Label]) -> Sequence[Label]:
    bold = sum(line.bold for line in lines)
    is_use = " ".join(line.text for line in lines[bold:]) == piece.use
    return lines[:bold] if is_use else lines


def _captioned(lattice: Lattice, words: _Words) -> Lattice:
    """Return a lattice with its captions on the piece: of the first window, then of the others."""
    first, *others = lattice.cells
    around = words.free.without(label.box for label in words.facts)
    in_place = [(words.facts, around)] if words.facts else []
    for kept, free in (*in_place, ((), words.free)):
        joined = () if kept else _sentences(words.facts)
        cell = _set(first, _captions(lattice, first, joined), free, lattice.space_of(first))
        if cell.labels:
            free = free.without(label.box for label in cell.labels)
            # a sliver has no room for a caption
            own = ((each, [each.caption] if each.caption else []) for each in others)
            rest = (_set(each, some, free, lattice.space_of(each)) for each, some in own)
            return replace(lattice, cells=(cell, *rest), words=(*words.others, *kept))
    return lattice


def _sentences(lines: Iterable[Label]) -> list[str]:
    """Return the sentences that lines were broken from."""
    found = list[str]()
    for line in lines:
        if line.wraps and found:
            found[-1] += f" {line.text}"
        else:
            found.append(line.text)
    return found


def _captions(lattice: Lattice, cell: Cell, facts: Sequence[str]) -> Iterator[Caption]:
    """Yield the captions of a window with what to do that may have room on it."""
    part = lattice.part(cell) if len(lattice.cells) > 1 else ""
    longest = max(lattice.space_of(cell).size) - 2 * CLEAR
    widths = [each for each in WIDTHS if each <= longest]
    return on_piece(lattice.piece, part, widths, facts)


def _set(cell: Cell, captions: Iterable[Caption], free: FreeBoxes, space: Box) -> Cell:
    """Return a window with the first of some captions that has room on it, if one has."""
    turns = (False, True) if space.width >= space.height else (True, False)
    # not by product, which would have every caption broken into lines first
    for caption, upright in ((caption, upright) for caption in captions for upright in turns):
        size = width(caption) + 2 * CLEAR, inked_height(caption) + 2 * CLEAR
        place = free.nearest(*(size[::-1] if upright else size), space.centre, space)
        if place is not None:
            inner = place.expanded(-CLEAR)
            foot = (inner.x1 if upright else inner.x0, inner.y0)
            labels = on_foot(caption, foot, upright=upright)
            return replace(cell, upright=upright, caption=caption, labels=labels)
    return cell
