"""From pieces to a pack: split, nest, number, and give every sheet its words and marks."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fontTools.misc.transform import Transform

from templates_gen.cakefile.model import Cake
from templates_gen.cakefile.papers import Paper, parse_papers
from templates_gen.cover.cover import Cover
from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.flow import Front, nothing
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.box import Box, joined
from templates_gen.sheets import furniture
from templates_gen.sheets.captions import caption_drawing
from templates_gen.sheets.frame import Frame, Margins, frame_for
from templates_gen.sheets.labels import readable, shared_out
from templates_gen.sheets.pack import Mark, Pack, Sheet, Window
from templates_gen.sheets.pack_mark import pack_mark
from templates_gen.sheets.packing import Spot, nest
from templates_gen.sheets.register import grid_drawing, grid_of, join_drawing, joins
from templates_gen.sheets.tiling import GAP, WAYS, Cell, Lattice, splits

BATCH = 120
"""Items nested together, so that the work grows with their number and not with its square."""


@dataclass(frozen=True, slots=True)
class _Item:
    """A window with everything drawn over it, in the piece's frame."""

    lattice: Lattice
    cell: Cell
    over: Drawing
    marks: tuple[tuple[float, float], ...]


def lay_out(
    cake: Cake,
    pieces: Sequence[Piece],
    paper: Paper,
    *,
    shared: Sequence[Paper] = (),
    front: Front = nothing,
    tiers: bool = True,
) -> Pack:
    """Lay pieces out on sheets of ``paper``, within the area that all of ``shared`` can print.

    The pack starts with a cover: the large check, the lines, the blocks that ``front`` makes, the
    sizes of the tiers (with ``tiers``), the pieces. Raises CakeError when the margins of the cake
    leave no room.
    """
    mark = pack_mark(cake, pieces, [(paper, tuple(shared) or (paper,))])
    return _laid_out(cake, pieces, paper, shared, front, mark, tiers=tiers)


def _laid_out(
    cake: Cake,
    pieces: Sequence[Piece],
    paper: Paper,
    shared: Sequence[Paper],
    front: Front,
    mark: str,
    *,
    tiers: bool,
) -> Pack:
    margins = Margins(cake.margin_sides.mm, cake.margin_ends.mm)
    frame = frame_for(paper, shared, margins)
    field = frame.field
    printed = [piece for piece in pieces if piece.printed]
    ways = [splits(piece, field.width + GAP, field.height + GAP) for piece in printed]
    lattices, spots = min(
        (_nested([way[choice] for way in ways], field) for choice in range(WAYS)),
        key=lambda found: _sheet_count(found[1]),
    )
    items = [item for lattice in lattices for item in _items(lattice)]
    sheets = _numbered(spots)
    cover = Cover(cake, pieces, mark, lattices, _places(items, sheets), front, tiers)
    fronts = cover.pages(frame)
    total = len(fronts) + len(sheets)

    def head(number: int, advice: Sequence[str]) -> Drawing:
        return furniture.head(frame, f"Sheet {number} of {total}", mark, cake.title, advice)

    made = [
        Sheet(number, (), head(number, (furniture.REMINDER,)) + page)
        for number, page in enumerate(fronts, 1)
    ]
    for number, (members, spots) in enumerate(sheets, len(fronts) + 1):
        placed = [(items[member], spot) for member, spot in zip(members, spots, strict=True)]
        made.append(_sheet(frame, number, head(number, _advice(placed)), placed))
    return Pack(cake.title, mark, paper, frame.area, tuple(made))


def lay_out_each(
    cake: Cake,
    pieces: Sequence[Piece],
    papers: Iterable[str],
    *,
    front: Front = nothing,
    tiers: bool = True,
) -> list[Pack]:
    """Return a pack for each paper as a cake file names them: two for ``both``, laid out once.

    All have the same pack mark.

    Raises CakeError as ``lay_out`` does, and LengthError for a text that is no paper.
    """
    made: dict[tuple[Paper, ...], Pack] = {}
    packs = []
    asked = parse_papers(papers)
    mark = pack_mark(cake, pieces, asked)
    for paper, shared in asked:
        if shared not in made:
            made[shared] = _laid_out(cake, pieces, paper, shared, front, mark, tiers=tiers)
        packs.append(made[shared].on(paper))
    return packs


def _items(lattice: Lattice) -> list[_Item]:
    """Gather what is drawn over each window: marks, grid, the piece's labels, a caption."""
    found = joins(lattice)
    labels = shared_out(lattice)
    grid = grid_of(lattice) if len(lattice.cells) > 1 else None
    items = []
    for cell in lattice.cells:
        mine = [join for join in found if cell in (join.first, join.second)]
        over = Drawing(labels=tuple(labels[cell.code])) + caption_drawing(
            cell.caption, cell.box, upright=cell.upright
        )
        for join in mine:
            over += join_drawing(join, cell, lattice.piece.title)
        if grid:
            # of several lines what they take together: they may be turned about on the sheet
            words = [joined(label.box for label in lines) for lines in blocks(over.labels)]
            over += grid_drawing(cell.box, grid, words)
        items.append(
            _Item(lattice, cell, over, tuple(mark for join in mine for mark in join.marks))
        )
    return items


def _nested(lattices: Sequence[Lattice], field: Box) -> tuple[Sequence[Lattice], list[Spot]]:
    """Lay windows on sheets batch by batch, each in the order that takes the fewest sheets."""
    sizes = [cell.size for lattice in lattices for cell in lattice.cells]
    # half the gap lies outside the field on every side
    width, height = field.width + GAP, field.height + GAP
    spots: list[Spot] = []
    sheets = 0
    for start in range(0, len(sizes), BATCH):
        batch = sizes[start : start + BATCH]
        tries = [nest(batch, order, width, height) for order in _orders(batch)]
        best = min(tries, key=_sheet_count)
        spots += [replace(spot, sheet=spot.sheet + sheets) for spot in best]
        sheets = _sheet_count(spots)
    return lattices, spots


def _sheet_count(spots: Iterable[Spot]) -> int:
    return 1 + max((spot.sheet for spot in spots), default=-1)


def _orders(sizes: Sequence[tuple[float, float]]) -> list[list[int]]:
    """Return orders worth trying: longest side, largest area, largest girth first."""
    every = range(len(sizes))
    by_side = sorted(every, key=lambda item: (-max(sizes[item]), -min(sizes[item])))
    by_area = sorted(every, key=lambda item: -sizes[item][0] * sizes[item][1])
    by_girth = sorted(every, key=lambda item: -sizes[item][0] - sizes[item][1])
    return [by_side, by_area, by_girth]


_Sheet = tuple[list[int], list[Spot]]


def _numbered(spots: Sequence[Spot]) -> list[_Sheet]:
    """Put sheets in the order of the first item each holds."""
    held: dict[int, list[int]] = defaultdict(list)
    for item, spot in enumerate(spots):
        held[spot.sheet].append(item)
    return [(members, [spots[item] for item in members]) for members in sorted(held.values())]


def _places(items: Sequence[_Item], sheets: Iterable[_Sheet]) -> dict[str, dict[str, int]]:
    """Return for each piece and window code the sheet it is on, counted from 0 after the cover."""
    places: dict[str, dict[str, int]] = defaultdict(dict)
    for number, (members, _) in enumerate(sheets):
        for member in members:
            item = items[member]
            places[item.lattice.piece.id][item.cell.code] = number
    return places


def _advice(placed: Sequence[tuple[_Item, Spot]]) -> Sequence[str]:
    """Return what to do with a sheet, at full length and shorter."""
    taped = any(len(item.lattice.cells) > 1 for item, _ in placed)
    return furniture.TO_TAPE if taped else furniture.TO_CUT


def _sheet(frame: Frame, number: int, head: Drawing, placed: Sequence[tuple[_Item, Spot]]) -> Sheet:
    drawing = head + furniture.foot(frame)
    windows = []
    for item, spot in placed:
        to_sheet = _map(item.cell, spot, frame.field)
        marks = tuple(Mark(mark, to_sheet.transformPoint(mark)) for mark in item.marks)
        windows.append(Window(item.lattice.piece, item.cell.code, item.cell.box, to_sheet, marks))
        drawing += readable(item.over.transformed(to_sheet))
    return Sheet(number, tuple(windows), drawing)


def _map(cell: Cell, spot: Spot, field: Box) -> Transform:
    """Return the map from the piece's frame to the sheet.

    A turned window is turned so that its caption reads from below or from the left.
    """
    x, y = field.x0 + spot.x - GAP / 2, field.y0 + spot.y - GAP / 2
    left = (cell.lane if cell.upright else 0) + GAP / 2
    below, above = GAP / 2, (0 if cell.upright else cell.lane) + GAP / 2
    box = cell.box
    if not spot.turned:
        return Transform(1, 0, 0, 1, x + left - box.x0, y + below - box.y0)
    if cell.upright:
        # clockwise: what was left comes to the top
        return Transform(0, -1, 1, 0, x + below - box.y0, y + GAP / 2 + box.x1)
    # counter-clockwise: what was above comes to the left
    return Transform(0, 1, -1, 0, x + above + box.y1, y + GAP / 2 - box.x0)
