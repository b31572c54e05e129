"""From pieces to sheets: split, laid out, numbered, each sheet with its words and marks."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial

from fontTools.misc.transform import Offset, Transform

from templates_gen.drawing.apart import blocks
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.geometry.areas.booleans import clipped_and_moved
from templates_gen.geometry.areas.taken import Taken
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import line
from templates_gen.sheets import furniture
from templates_gen.sheets.arranging import Arrangement, arrange
from templates_gen.sheets.captions import beside
from templates_gen.sheets.drawn import Drawn, drawn_strokes
from templates_gen.sheets.frame import Frame
from templates_gen.sheets.grid import grid_drawing, grid_of
from templates_gen.sheets.labels import readable, shared_out
from templates_gen.sheets.lattice import GAP, Cell, Lattice
from templates_gen.sheets.line_words import line_words
from templates_gen.sheets.pack import Mark, Pack, Sheet, Window
from templates_gen.sheets.packing import Spot
from templates_gen.sheets.register import ARM, arrows_on, join_drawing, joins, overlap_of
from templates_gen.sheets.ruler import TO_ARROW
from templates_gen.sheets.tiling import splits

ASIDE = 4.0
"""Between windows and the words at the left of the field, where there is room, mm."""


@dataclass(frozen=True, slots=True)
class _Item:
    """A window, the part of the piece it shows, and all drawn over it, in the piece's frame.

    One that ``has_triangles`` is taped straight along a ruler, which its piece does not explain.
    """

    lattice: Lattice
    cell: Cell
    visible: tuple[Drawn, ...]
    over: Drawing
    marks: tuple[tuple[float, float], ...]
    overlaps: tuple[Box, ...]
    has_triangles: bool


@dataclass(frozen=True, slots=True)
class _Sheet:
    """A sheet of pieces before it has its number: each window with its place."""

    placed: tuple[tuple[_Item, Spot], ...]


@dataclass(frozen=True, slots=True)
class Layout:
    """Pieces laid out on sheets of a ``frame``, in the order of printing.

    ``lattices`` has the windows of each piece that is printed, in the order of the pieces.
    """

    frame: Frame
    lattices: tuple[Lattice, ...]
    sheets: tuple[_Sheet, ...]

    @property
    def places(self) -> dict[str, dict[str, int]]:
        """For each piece and window code, the sheet it is on, counted from 0."""
        places: dict[str, dict[str, int]] = defaultdict(dict)
        for number, sheet in enumerate(self.sheets):
            for item, _ in sheet.placed:
                places[item.lattice.piece.id][item.cell.code] = number
        return places

    @property
    def has_triangles(self) -> bool:
        """Whether some parts are taped straight along a ruler, which no piece explains."""
        return any(item.has_triangles for sheet in self.sheets for item, _ in sheet.placed)


def lay_out(pieces: Sequence[Piece], frame: Frame, *, by_tier: bool = False) -> Layout:
    """Lay the pieces that are printed out on as few sheets as can be found.

    ``by_tier`` starts each tier on a new sheet.
    """
    found = arranged(pieces, frame.field, by_tier=by_tier)
    items = [item for lattice in found.lattices for item in _items(lattice)]
    return Layout(
        frame, found.lattices, tuple(_by_sheet(items, found.spots, frame.field.width + GAP))
    )


def arranged(pieces: Sequence[Piece], field: Box, *, by_tier: bool = False) -> Arrangement:
    """Return how those of the pieces that are printed are split for a field, and where they lie."""
    printed = [piece for piece in pieces if piece.printed]
    ways = [splits(piece, field.width + GAP, field.height + GAP) for piece in printed]
    return arrange(ways, field, by_tier=by_tier)


def assemble(
    title: str, mark: str, cover: Sequence[Drawing], layout: Layout, on_cover: Frame
) -> Pack:
    """Return the pack of a layout behind the pages of its cover: every sheet with its words.

    The pages of the cover are on the frame ``on_cover``.
    """
    frame, total = layout.frame, len(cover) + len(layout.sheets)

    def head(number: int) -> Drawing:
        here = on_cover if number <= len(cover) else frame
        return furniture.head(here, f"Sheet {number} of {total}", mark, title)

    made = [Sheet(number, (), head(number) + page) for number, page in enumerate(cover, 1)]
    made += [
        _sheet(frame, number, head(number), sheet.placed)
        for number, sheet in enumerate(layout.sheets, len(cover) + 1)
    ]
    return Pack(title, mark, frame.paper, frame.area, tuple(made), frame.printer)


def _items(lattice: Lattice) -> list[_Item]:
    """Gather what is drawn over each window: marks, grid, the piece's labels, a caption."""
    strokes = drawn_strokes(lattice.piece.drawing.strokes)
    lines = Taken(each.stroke.path for each in strokes)
    found = joins(lattice, lines)
    arrows = [arrow for join in found for arrow in join.arrows]
    labels = shared_out(lattice, lines, arrows)
    grid = grid_of(lattice) if len(lattice.cells) > 1 else None
    items = []
    for cell in lattice.cells:
        mine = [join for join in found if cell in (join.first, join.second)]
        caption = () if cell.labels else beside(cell.caption, cell.box, upright=cell.upright)
        over = Drawing(labels=(*labels[cell.code], *caption))
        marks = tuple(mark for join in mine for mark in join.marks)
        crosses = [Box(*mark, *mark).expanded(ARM) for mark in marks]
        near = [*crosses, *(label.box for label in over.labels)]
        free_of = lines.also(near, [*arrows, *(line(join.start, join.end) for join in mine)])
        over += arrows_on(mine, cell, free_of, lattice.piece.use)
        for join in mine:
            taken = lines.also([label.box for label in over.labels])
            over += join_drawing(join, cell, lattice, taken)
        seen = tuple(each for each in strokes if each.bounds.meets(cell.box))
        marked = [stroke.path for stroke in over.strokes]
        taken = lines.also([label.box for label in over.labels], marked)
        over += line_words(seen, cell.box, taken)
        if grid:
            # of several lines what they take together: they may be turned about on the sheet
            words = [union_box(label.box for label in text) for text in blocks(over.labels)]
            marked = [stroke.path for stroke in over.strokes]
            over += grid_drawing(cell.box, grid, [*words, *crosses], lines.also((), marked))
        grey = tuple(overlap_of(join, cell) for join in mine)
        straight = TO_ARROW not in lattice.piece.use and any(join.tips for join in mine)
        items.append(_Item(lattice, cell, seen, over, marks, grey, straight))
    return items


def _by_sheet(items: Sequence[_Item], spots: Sequence[Spot], width: float) -> Iterator[_Sheet]:
    """Yield sheets in their order, each with what it holds.

    Where the ``width`` allows it, windows stand off the words beside the field.
    """
    held: dict[int, list[int]] = defaultdict(list)
    for item, spot in enumerate(spots):
        held[spot.sheet].append(item)
    for _, members in sorted(held.items()):
        placed = [(items[member], spots[member]) for member in members]
        aside = min(ASIDE, width - max(_right(item.cell, spot) for item, spot in placed))
        yield _Sheet(tuple((item, replace(spot, x=spot.x + aside)) for item, spot in placed))


def _right(cell: Cell, spot: Spot) -> float:
    """Return how far to the right a window reaches where it lies, mm."""
    return spot.x + cell.size[1 if spot.turned else 0]


def _sheet(frame: Frame, number: int, head: Drawing, placed: Sequence[tuple[_Item, Spot]]) -> Sheet:
    taped = any(len(item.lattice.cells) > 1 for item, _ in placed)
    straight = any(item.has_triangles for item, _ in placed)
    roles = {stroke.role for item, _ in placed for stroke in _strokes(item)}
    advice = furniture.to_tape(frame, roles, straight=straight) if taped else furniture.TO_CUT
    drawing = head + furniture.edges(frame, advice, roles=roles)
    windows = []
    for item, spot in placed:
        to_sheet = _map(item.cell, spot, frame.field)
        marks = tuple(Mark(mark, to_sheet.transformPoint(mark)) for mark in item.marks)
        cell = item.cell
        windows.append(
            Window(item.lattice.piece, cell.code, cell.box, to_sheet, marks, item.overlaps)
        )
        drawing += readable(
            item.over.transformed(to_sheet),
            partial(_taken_on_sheet, item, to_sheet),
            turned=0.0 if not spot.turned else -90.0 if cell.upright else 90.0,
        )
    return Sheet(number, tuple(windows), drawing)


def _strokes(item: _Item) -> Iterator[Stroke]:
    """Yield the strokes of a piece that a window shows, and what is drawn over it."""
    yield from (each.stroke for each in item.visible)
    yield from item.over.strokes


def _taken_on_sheet(item: _Item, to_sheet: Transform) -> Taken:
    """Return the lines of a window and all beside its piece, where they are on the sheet."""
    paths = (stroke.path.transformed(to_sheet) for stroke in _strokes(item))
    area = clipped_and_moved(item.lattice.piece.paper, item.cell.box, to_sheet)
    return Taken(paths, area)


def _map(cell: Cell, spot: Spot, field: Box) -> Transform:
    """Return the map from the piece's frame to the sheet.

    A turned window is turned so that its caption reads from below or from the left.
    """
    x, y = field.x0 + spot.x - GAP / 2, field.y0 + spot.y - GAP / 2
    left = (cell.strip_width if cell.upright else 0) + GAP / 2
    below, above = GAP / 2, (0 if cell.upright else cell.strip_width) + GAP / 2
    box = cell.box
    if not spot.turned:
        return Offset(x + left - box.x0, y + below - box.y0)
    if cell.upright:
        # clockwise: what was left comes to the top
        return Transform(0, -1, 1, 0, x + below - box.y0, y + GAP / 2 + box.x1)
    # counter-clockwise: what was above comes to the left
    return Transform(0, 1, -1, 0, x + above + box.y1, y + GAP / 2 - box.x0)
