"""A piece larger than a sheet is split into windows on a lattice that overlap each other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product

from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.booleans import Area, clipped_box
from templates_gen.geometry.box import Box, Span
from templates_gen.sheets.captions import Caption, full, least_strip, short, strip_width
from templates_gen.sheets.lattice import GAP, Cell, Lattice, part
from templates_gen.sheets.packing import Size, pack_sheets
from templates_gen.sheets.spans import OVERLAP, Axis, axes, fewest, spans
from templates_gen.sheets.within import captioned, without_use

NARROWEST = 20.0
"""A window narrower than this is only just bearable to tape, mm."""
WAYS = 3
"""How many more ways to split a piece are worth trying with all the others."""
EDGE = 0.5
"""Room for half the width of a line round what a window shows, mm."""
_NOTHING = 1e-6
"""A window that would show less of a piece than this is left out, mm²."""
LEAST_ROOM = 60.0
"""A caption beside a whole piece may reach beyond it, up to so much, mm."""
MANY = 10
"""Parts of a piece, for the width that their names take."""


def splits(piece: Piece, width: float, height: float) -> list[Lattice]:
    """Return ways to split a piece for a field of ``width`` by ``height``, the handiest first.

    A piece that fits, turned or not, stays whole, its caption along either side. For any other they
    are lattices that take the fewest sheets by themselves: the one with the fewest windows and the
    one with the least paper, both without slivers if there is such a one, then others with little
    paper whose windows are just bearable, and one without slivers.
    """
    box = piece.size.expanded(EDGE)
    wholes = _wholes(piece, box, width, height)
    if wholes:
        return wholes
    found = list(_lattices(piece, box, width, height))
    if all(lattice.is_misleading for lattice in found):
        found += _lattices(piece, box, width, height, extra=1)
    found = [lattice for lattice in found if not lattice.is_misleading] or found
    needed = [_sheets(lattice, width, height) for lattice in found]
    fewest = [
        lattice for lattice, sheets in zip(found, needed, strict=True) if sheets == min(needed)
    ]
    fewest = [each for each in fewest if not each.is_unnamed] or fewest
    bearable = [each for each in fewest if each.narrowest >= NARROWEST] or fewest
    handy = [each for each in bearable if not each.slivers] or bearable
    chosen = [min(handy, key=_awkwardness), min(handy, key=_paper)]
    chosen += sorted(bearable, key=_paper)[:WAYS]
    # one that takes a sheet more by itself may take none among others
    chosen += sorted((each for each in found if not each.slivers), key=_awkwardness)[:1]
    return captioned({each.cells: each for each in chosen}.values())


def _wholes(piece: Piece, box: Box, width: float, height: float) -> list[Lattice]:
    """Return a piece in one window, if it fits: its caption on it, or along either side.

    Of the sides the longer comes first. With the full caption, if it can be.
    """
    bare = Lattice(piece, (Cell(0, 0, box, upright=False, caption=()),), piece.drawing.labels)
    if not _fits((box.width + GAP, box.height + GAP), width, height):
        return []
    lengths = {upright: max(_length(box, upright), LEAST_ROOM) for upright in (False, True)}
    sides = sorted(lengths, key=lambda upright: -lengths[upright])
    in_full = [(upright, full(piece, "", lengths[upright])) for upright in sides]
    in_short = [(upright, short(piece, "", lengths[upright])) for upright in sides]
    for some in (
        [each for each in captioned([bare]) if each.cells[0].labels],
        [_beside(bare, *each) for each in in_full if each[1]],
        [_beside(bare, *each) for each in in_short],
    ):
        found = [each for each in some if _fits(each.cells[0].size, width, height)]
        if found:
            return found
    return []


def _beside(lattice: Lattice, upright: bool, caption: Caption) -> Lattice:
    """Return a piece in one window with a caption along one side."""
    (cell,) = lattice.cells
    return _said_once(replace(lattice, cells=(replace(cell, upright=upright, caption=caption),)))


def _said_once(lattice: Lattice) -> Lattice:
    """Return a lattice without the words of the piece that its caption has too."""
    if lattice.is_silent:
        return lattice
    return replace(lattice, words=without_use(lattice.piece, lattice.words))


def _fits(size: Size, width: float, height: float) -> bool:
    w, h = size
    return (w <= width and h <= height) or (h <= width and w <= height)


def _sheets(lattice: Lattice, width: float, height: float) -> int:
    sizes = [cell.size for cell in lattice.cells]
    order = sorted(range(len(sizes)), key=lambda item: -max(sizes[item]))
    return 1 + max(spot.sheet for spot in pack_sheets(sizes, order, width, height))


def _awkwardness(lattice: Lattice) -> tuple[int, bool, float]:
    return len(lattice.cells), lattice.is_silent, -round(lattice.narrowest, 3)


def _paper(lattice: Lattice) -> tuple[float, int]:
    area = sum(width * height for width, height in (cell.size for cell in lattice.cells))
    return round(area, 3), len(lattice.cells)


def _lattices(
    piece: Piece, box: Box, width: float, height: float, extra: int = 0
) -> Iterator[Lattice]:
    """Yield lattices of full and of equal windows, the caption on either side, turned and not.

    They have the fewest columns and rows, or some ``extra`` ones.
    """
    area, strip = piece.area, least_strip(piece)
    along_x, along_y = axes(piece, box)
    for wide, tall in ((width, height), (height, width)):
        for upright in (False, True):
            most_x = wide - GAP - (strip if upright else 0)
            most_y = tall - GAP - (0 if upright else strip)
            length = min(_length(box, upright), most_y if upright else most_x)
            more = max(strip_width(full(piece, part(MANY, MANY), length)) - strip, 0.0)
            columns = _ways(along_x, most_x, before=more if upright else 0.0, extra=extra)
            rows = _ways(along_y, most_y, after=0.0 if upright else more, extra=extra)
            for xs, ys in product(columns, rows):
                longest = max(end - start for start, end in (xs if upright else ys))
                depth = (wide if upright else tall) - GAP - longest
                found = _lattice(piece, area, xs, ys[::-1], upright, depth)
                near = any(map(along_x.is_near_line, found.lines_x)) or any(
                    map(along_y.is_near_line, found.lines_y)
                )
                yield _said_in_full(replace(found, is_misleading=near), width, height)


def _ways(
    axis: Axis, most: float, *, before: float = 0.0, after: float = 0.0, extra: int
) -> list[tuple[Span, ...]]:
    """Return the different ways to cover an axis: with intervals of full length, and of equal.

    The first or the last leaves room for more ``before`` or ``after`` it, if that takes no more.
    """
    longer = axis.extended(before, after)
    if fewest(longer, most) > fewest(axis, most):
        longer = axis
    # what fits one interval is not cut
    more = extra if fewest(longer, most) > 1 else 0
    ways = (spans(longer, most, equal=equal, more=more) for equal in (False, True))
    kept = (
        tuple((max(start, axis.start), min(end, axis.end)) for start, end in way) for way in ways
    )
    found = list(dict.fromkeys(kept))
    # with more intervals than it takes, some may be left with next to nothing
    return [way for way in found if all(b - a > NARROWEST for a, b in way)] if more else found


def _lattice(
    piece: Piece, area: Area, xs: Sequence[Span], ys: Sequence[Span], upright: bool, depth: float
) -> Lattice:
    """Make the windows that show what no other does, each no larger than what it shows.

    Captions are no deeper than ``depth``.
    """
    cells = []
    for row, column in _needed(area, xs, ys):
        (x0, x1), (y0, y1) = xs[column], ys[row]
        whole = Box(x0, y0, x1, y1)
        visible = clipped_box(area, whole)
        box = visible.expanded(EDGE).intersection(whole) if visible else None
        cells.append(Cell(row, column, box or whole, upright, ()))
    named = (
        replace(
            cell, caption=short(piece, part(number, len(cells)), _length(cell.box, upright), depth)
        )
        for number, cell in enumerate(cells, 1)
    )
    return Lattice(piece, tuple(named), piece.drawing.labels, area, _middles(xs), _middles(ys))


def _said_in_full(lattice: Lattice, width: float, height: float) -> Lattice:
    """Return a lattice with the full caption where the piece starts, if it has room there."""
    start, *others = lattice.cells
    caption = full(lattice.piece, lattice.part(start), _length(start.box, start.upright))
    first = replace(start, caption=caption)
    if not caption or not _fits(first.size, width, height):
        return lattice
    return _said_once(replace(lattice, cells=(first, *others)))


def _length(box: Box, upright: bool) -> float:
    return box.height if upright else box.width


def _needed(area: Area, xs: Sequence[Span], ys: Sequence[Span]) -> list[tuple[int, int]]:
    """Return the row and column of the windows that a piece needs, row by row.

    A window is left out if each part of the piece in it lies in another window that stays.
    """
    found = list(product(range(len(ys)), range(len(xs))))
    # a piece hangs together: in one row, or one column, each window shows something
    if len(xs) == 1 or len(ys) == 1:
        return found
    for row, column in list(found):
        parts = product(_shared(ys, row), _shared(xs, column))
        others = set(found) - {(row, column)}
        if not any(
            others.isdisjoint(product(rows, columns))
            and clipped_box(area, Box(x0, y0, x1, y1), _NOTHING) is not None
            for (rows, (y0, y1)), (columns, (x0, x1)) in parts
        ):
            found.remove((row, column))
    return found


def _shared(every: Sequence[Span], index: int) -> Iterator[tuple[set[int], Span]]:
    """Yield the parts of an interval: which intervals cover each, and where it starts and ends."""
    start, end = every[index]
    ends = [(other, max(start, a), min(end, b)) for other, (a, b) in enumerate(every)]
    overlaps = [(other, a, b) for other, a, b in ends if other != index and a < b]
    yield (
        {index},
        (
            max((b for _, a, b in overlaps if a == start), default=start),
            min((a for _, a, b in overlaps if b == end), default=end),
        ),
    )
    yield from (({index, other}, (a, b)) for other, a, b in overlaps)


def _middles(along: Sequence[Span]) -> tuple[float, ...]:
    """Return the middle of each overlap."""
    return tuple(start + OVERLAP / 2 for start, _ in sorted(along)[1:])
