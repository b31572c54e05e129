"""The cover: the large check, the list of pieces, how split pieces go together, cautions."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from fontTools.misc.transform import Transform

from templates_gen.cake.model import Cake
from templates_gen.drawing import lettering
from templates_gen.drawing.numbers import decimal, inch_fraction
from templates_gen.drawing.path import line, rectangle
from templates_gen.drawing.piece import Anchor, Drawing, Label, Piece, Stroke
from templates_gen.drawing.roles import Role
from templates_gen.pieces.cautions import cautions
from templates_gen.pieces.doubts import doubts
from templates_gen.sheets.frame import Frame
from templates_gen.sheets.furniture import check_bar, foot, large_check
from templates_gen.sheets.split import Lattice

BODY, SMALL, HEADING, TITLE = 3.2, 2.7, 4.6, 9.0
LEADING = 1.35
MAP_WIDTH, MAP_HEIGHT, MAP_LEAST, MAP_GAP = 42.0, 32.0, 7.0, 4.0
"""Room for the map of a split piece, the least height of a row of windows in it, the gap, mm."""
MAP_COLUMNS = 5
"""Columns of windows that this room holds; more get more room."""
LEGEND_WIDTH = 85.0
"""Room for a line of the legend, mm."""
FIT_TO_PAGE = (137 / 150, 146 / 150)
"""What is left of a length when a printer fits A4 or Letter to its margins: common practice."""

Places = Mapping[str, Mapping[str, int]]
"""For each piece and window code, the sheet it is on, counted from 0 after the cover."""


@dataclass(frozen=True, slots=True)
class _Block:
    """Something to put on the cover, drawn downwards from its left top at (0, 0)."""

    height: float
    drawing: Drawing


def cover_pages(
    cake: Cake, pieces: Sequence[Piece], frame: Frame, lattices: Sequence[Lattice], places: Places
) -> list[Drawing]:
    """Return what is drawn on each cover sheet.

    The sheet numbers on it depend on how many sheets the cover takes, which does not depend on
    the numbers; so it is set twice.
    """
    count = len(_flowed(_blocks(cake, pieces, lattices, places, 1, frame), frame))
    return _flowed(_blocks(cake, pieces, lattices, places, count + 1, frame), frame)


def _blocks(
    cake: Cake,
    pieces: Sequence[Piece],
    lattices: Sequence[Lattice],
    places: Places,
    first: int,
    frame: Frame,
) -> list[_Block]:
    width = frame.field.width - 4
    split_up = [lattice for lattice in lattices if len(lattice.cells) > 1]
    minded = doubts(cake, pieces)
    blocks = [
        _text(cake.title, width, TITLE, bold=True),
        *([_text(cake.note, width, BODY)] if cake.note else []),
        *_check(width),
        _heading("Lines"),
        _legend(width),
        _heading("Pieces"),
        *(_entry(piece, places.get(piece.id, {}), first, width) for piece in pieces),
    ]
    if minded:
        blocks += [_heading("Mind"), *(_text(doubt.text, width, BODY) for doubt in minded)]
    if split_up:
        blocks += [_heading("How split pieces go together"), *_maps(split_up, places, first, width)]
    blocks.append(_heading("Cautions"))
    return blocks + [_text(caution, width, SMALL) for caution in cautions(cake)]


def _flowed(blocks: Iterable[_Block], frame: Frame) -> list[Drawing]:
    """Put blocks one under another on as many sheets as they take."""
    field = frame.field
    left, bottom = field.x0 + 4, field.y0 + 2
    upright = large_check(frame.field.width - 4)
    pages = [check_bar((frame.area.x0 + 4, frame.area.y0 + 4), upright, upright=True)]
    y = field.y1
    for block in blocks:
        if y - block.height < bottom and y < field.y1:
            pages.append(foot(frame))
            y = field.y1
        pages[-1] += block.drawing.transformed(Transform(1, 0, 0, 1, left, y))
        y -= block.height
    return pages


def _text(text: str, width: float, size: float, *, bold: bool = False) -> _Block:
    lines = lettering.wrapped(text, width, size, bold=bold)
    labels = tuple(
        Label(entry, (0, -(index + 1) * size * LEADING + size * 0.3), size, bold=bold)
        for index, entry in enumerate(lines)
    )
    return _Block(len(lines) * size * LEADING + 1.2, Drawing(labels=labels))


def _heading(text: str) -> _Block:
    return _Block(9.0, Drawing(labels=(Label(text, (0, -6.6), HEADING, bold=True),)))


def _check(width: float) -> list[_Block]:
    length = large_check(width)
    low, high = (share * length for share in FIT_TO_PAGE)
    says = (
        f"Measure this bar and the upright one before you cut. If {length:.0f} mm reads {low:.0f}"
        f" to {high:.0f} mm, the printer was set to “fit to page”: print again at 100\u00a0%,"
        " actual size."
    )
    bar = check_bar((0, -8), length, upright=False)
    return [_Block(12.0, bar), _text(says, width, BODY)]


def _legend(width: float) -> _Block:
    """Show each kind of line with what it asks for, in as many columns as have room."""
    drawn: list[Stroke] = []
    labels: list[Label] = []
    columns = max(1, int(width // LEGEND_WIDTH))
    for index, role in enumerate(Role):
        x, y = index % columns * width / columns, -(index // columns + 0.6) * 5.0
        drawn.append(Stroke(line((x, y), (x + 22, y)), role))
        labels.append(Label(f"{role.word}: {role.meaning}", (x + 25, y - 1), SMALL))
    rows = math.ceil(len(Role) / columns)
    return _Block(rows * 5.0 + 1, Drawing(tuple(drawn), tuple(labels)))


def _entry(piece: Piece, places: Mapping[str, int], first: int, width: float) -> _Block:
    """List a piece: its name and sheets; below them how many to cut, its size, what to do."""
    numbers = sorted({place + first for place in places.values()})
    sheets = _ranges(numbers) if numbers else "swing strip"
    room = width - lettering.text_width(sheets, BODY, bold=True) - 4
    size = piece.size
    words = (
        f"cut {piece.copies} · {decimal(size.width, 1)} × {decimal(size.height, 1)} mm"
        f" ({inch_fraction(size.width)} × {inch_fraction(size.height)} in) · {piece.use}"
    )
    labels = [
        Label(lettering.fitted(piece.title, room, BODY, bold=True), (0, -4), BODY, bold=True),
        Label(sheets, (width, -4), BODY, Anchor.END, bold=True),
    ]
    lines = lettering.wrapped(words, width - 4, SMALL)
    for index, entry in enumerate(lines, 1):
        labels.append(Label(entry, (4, -4 - index * SMALL * LEADING), SMALL))
    return _Block(5.2 + len(lines) * SMALL * LEADING, Drawing(labels=tuple(labels)))


def _ranges(numbers: Sequence[int]) -> str:
    """Write sheet numbers with runs drawn together: ``2, 5–7``."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    texts = [f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs]
    return ("sheets " if len(numbers) > 1 else "sheet ") + ", ".join(texts)


def _maps(lattices: Sequence[Lattice], places: Places, first: int, width: float) -> list[_Block]:
    """Draw the maps of split pieces, as many beside each other as have room."""
    rows: list[tuple[Drawing, float]] = []
    x = width
    for lattice in lattices:
        room = min(MAP_WIDTH * math.ceil((len(lattice.lines_x) + 1) / MAP_COLUMNS), width)
        height, shown = _map(lattice, places[lattice.piece.id], first, room)
        if x + room > width:
            rows.append((Drawing(), 0.0))
            x = 0.0
        row, tall = rows[-1]
        rows[-1] = row + shown.transformed(Transform(1, 0, 0, 1, x, 0)), max(tall, height)
        x += room + MAP_GAP
    return [_Block(tall + 3, row) for row, tall in rows]


def _map(
    lattice: Lattice, places: Mapping[str, int], first: int, room: float
) -> tuple[float, Drawing]:
    """Return height and drawing of one map: windows with code and sheet, and the outline.

    Flat strips are drawn taller than to scale, so that the words have room.
    """
    size = lattice.piece.size
    rows = len(lattice.lines_y) + 1
    across = min(room / size.width, max(MAP_HEIGHT, rows * MAP_LEAST) / size.height)
    along = max(across, MAP_LEAST * rows / size.height)
    top = 5.0
    scaled = Transform(across, 0, 0, along, 0, -top - size.height * along)
    drawn = [Stroke(lattice.piece.outline.transformed(scaled), Role.GUIDE)]
    labels = [Label(lettering.fitted(lattice.piece.title, room, SMALL), (0, -3.6), SMALL)]
    for cell in lattice.cells:
        box = lattice.tile(cell).transformed(scaled)
        drawn.append(Stroke(rectangle(box), Role.NOTE))
        text = f"{cell.code}: {places[cell.code] + first}"
        fits = min(SMALL, SMALL * (box.width - 1) / lettering.text_width(text, SMALL))
        x, y = box.centre
        labels.append(Label(text, (x, y - fits / 3), max(fits, 1.6), Anchor.MIDDLE))
    return top + size.height * along, Drawing(tuple(drawn), tuple(labels))
