"""The cover: the large check, the tiers, the list of pieces, how split pieces go together."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial

from fontTools.misc.transform import Transform

from templates_gen.cakefile.model import Tier
from templates_gen.cakefile.printers import Printer
from templates_gen.drawing import fonts as lettering
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.flow import (
    SMALL,
    TITLE,
    Block,
    Section,
    flow,
    heading,
    table,
    text,
)
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.geometry.path import line, rectangle
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.plan import Plan
from templates_gen.sheets.frame import Frame
from templates_gen.sheets.furniture import MEASURE, REMINDER, edges, large_check
from templates_gen.sheets.layout import Layout
from templates_gen.sheets.tiling import Lattice
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.units import decimal, in_both

MAP_WIDTH, MAP_HEIGHT, MAP_LEAST, MAP_GAP = 42.0, 32.0, 9.0, 4.0
"""Room for the map of a split piece, the least height of a row of windows in it, the gap, mm."""
MAP_COLUMNS = 5
"""Columns of windows that this room holds; more get more room."""
MAP_SIZES = (SMALL, 2.7, 2.4, 2.2)
"""Em sizes of the words in a map; what has no room for the least stands upright."""
LEGEND_WIDTH, LEGEND_LINE = 85.0, 22.0
"""Room for an entry of the legend, and for the line it shows, mm."""
FIT_TO_PAGE = (128 / 150, 146 / 150)
"""What is left of a length when a printer fits A4 or Letter to its margins, of its own paper or of
the other: measured with the filter of CUPS and margins up to 6.4 by 12.7 mm (a test compares)."""
TIER_COLUMNS = (
    "tier",
    "bare, across",
    "bare, depth",
    "coating",
    "paste",
    "covered, across",
    "covered, girth",
    "covered, depth",
)
"""What is said of each tier."""
PIECE_COLUMNS = ("piece", "cut", "sheets")
"""What is said of each piece."""
LIST = 2.8
"""Em size of lists and of words below them, mm."""
SIDES = "Left and right are yours as you face the front of the cake."
ONE_PACK = (
    "All sheets of this pack carry the pack mark {}. A sheet with another mark belongs to another"
    " version of the cake: do not mix them."
)
TAPING = (
    "A match line runs between two round marks. Trim one of the two sheets at the match line, lay"
    " it on the other so that its cut half marks lie on the whole ones, tape, then cut."
)

Places = Mapping[str, Mapping[str, int]]
"""For each piece and window code, the sheet it is on, counted from 0 after the cover."""


def text_room(frame: Frame) -> Box:
    """Return the room for words on a page of a cover."""
    field = frame.field
    return Box(field.x0 + 2, field.y0 + 1, field.x1, field.y1)


def cover_pages(
    plan: Plan,
    pieces: Sequence[Piece],
    mark: str,
    layout: Layout,
    added: Sequence[Section],
    *,
    whole: bool,
) -> list[Drawing]:
    """Return what is drawn on each page of the cover of a pack with these pieces and pack mark.

    What is ``added`` follows the check and the lines; with ``whole`` the tiers are listed. The
    sheet numbers on it depend on how many pages the cover takes, which does not depend on the
    numbers; so it is set twice.
    """
    frame, room = layout.frame, text_room(layout.frame)
    length, roles = large_check(frame), _roles(layout)

    def pages(number: int) -> list[Drawing]:
        lists = _lists(plan, pieces, layout, number, whole=whole)
        return flow([*_head(plan, mark, length, roles, frame.printer), *added, *lists], room)

    start, *more = pages(len(pages(1)) + 1)
    return [
        start + edges(frame, REMINDER, length),
        *(each + edges(frame, MEASURE) for each in more),
    ]


def _head(
    plan: Plan, mark: str, length: float, roles: Sequence[Role], printer: Printer | None
) -> list[Section]:
    """Return what the first page starts with: title, note, check, lines."""

    def first(width: float) -> list[Block]:
        return [
            text(plan.title, width, TITLE, bold=True),
            *([text(plan.note, width)] if plan.note else []),
            text(ONE_PACK.format(mark), width, LIST),
            _check(width, length),
            *_for_printer(printer, width, length),
        ]

    return [first, lambda width: [heading("Lines"), _legend(roles, width)]]


def _lists(
    plan: Plan, pieces: Sequence[Piece], layout: Layout, first: int, *, whole: bool
) -> Iterator[Section]:
    """List tiers, pieces, warnings, maps and cautions; ``first`` is the first sheet of pieces."""
    places = layout.places
    if whole:
        yield partial(_tiers, plan.stack)
    if pieces:
        yield partial(_pieces, pieces, layout, first)
    warnings = plan.warnings(pieces)
    if warnings:
        yield partial(_paragraphs, "Please check", [each.text for each in warnings])
    split_up = [lattice for lattice in layout.lattices if len(lattice.cells) > 1]
    if split_up:
        # a strip needs no map: its windows follow each other
        mapped = [lattice for lattice in split_up if lattice.lines_x and lattice.lines_y]
        yield lambda width: [
            heading("How split pieces go together"),
            replace(text(TAPING, width, LIST), leads=bool(mapped)),
            *_maps(mapped, places, first, width),
        ]
    yield partial(_paragraphs, "Cautions", plan.cautions)


def _paragraphs(title: str, texts: Sequence[str], width: float) -> list[Block]:
    return [heading(title), *(text(each, width, LIST) for each in texts)]


def _pieces(pieces: Sequence[Piece], layout: Layout, first: int, width: float) -> list[Block]:
    """List pieces by tier with their sheets, and what to do with those whose sheets do not say."""
    places = layout.places
    rows = [PIECE_COLUMNS, *(_row(piece, places.get(piece.id, {}), first) for piece in pieces)]
    said = {
        lattice.piece.id
        for lattice in layout.lattices
        if lattice.piece.use in " ".join(lattice.cells[0].caption)
    }
    uses = [f"{piece.title}: {piece.use}" for piece in pieces if piece.id not in said and piece.use]
    return [
        heading("Pieces"),
        *table(rows, width, LIST),
        *(text(use, width, LIST) for use in uses),
    ]


def _row(piece: Piece, places: Mapping[str, int], first: int) -> tuple[str, ...]:
    """Return what is listed of a piece: its name, how many to cut, its sheets."""
    numbers = [place + first for place in places.values()]
    return piece.title, str(piece.copies), _ranges(numbers) if numbers else piece.instead


def _tiers(stack: DecoratedStack, width: float) -> list[Block]:
    """List each tier from the top down as it is bare and covered, and the whole cake."""
    height = _length(sum(tier.covered.depth for tier in stack.tiers))
    whole = f"The whole cake is {height} high, on a drum {_length(stack.drum.across)} across."
    rows = [TIER_COLUMNS, *map(_tier, reversed(stack.tiers))]
    return [heading("Tiers"), *table(rows, width, LIST), text(whole, width, LIST)]


def _tier(tier: Solid) -> tuple[str, ...]:
    bare, covered, spec = tier.bare, tier.covered, tier.spec
    return (
        tier.name,
        _at_both_ends(bare, lambda outline: outline.across),
        _length(bare.depth),
        _length(spec.coating_mm) if spec.coating_mm else "none",
        _paste(spec),
        _at_both_ends(covered, lambda outline: outline.across),
        _at_both_ends(covered, lambda outline: outline.girth),
        _length(covered.depth),
    )


def _paste(spec: Tier) -> str:
    """Write how thick the paste is, on top and side where they differ."""
    top, side = spec.paste_top_mm, spec.paste_side_mm
    if not spec.paste_mm:
        return "none"
    return _length(top) if top == side else f"top {_length(top)}, side {_length(side)}"


def _at_both_ends(layer: Layer, size: Callable[[Outline], float]) -> str:
    """Write a length round a surface; of a tapered one at its top and at its foot."""
    top = _length(size(layer.rim))
    return f"top {top}, foot {_length(size(layer.foot))}" if layer.is_tapered else top


def _length(mm: float) -> str:
    """Write a length in both units, which may only part between them."""
    return in_both(mm, "between units")


def _check(width: float, length: float) -> Block:
    low, high = (decimal(share * length, 0) for share in FIT_TO_PAGE)
    says = (
        "Measure the bars at the edges of this sheet before you cut. If"
        f" {decimal(length)}\u00a0mm reads"
        f" {low} to {high}\u00a0mm, the printer was set to “fit to page”: print again at"
        " 100\u00a0%, actual size."
    )
    return text(says, width, LIST)


def _for_printer(printer: Printer | None, width: float, length: float) -> list[Block]:
    """Say for which printer a pack was made, and how that one is known to differ."""
    if printer is None:
        return []
    across, up = (f"{decimal(100 * scale, 2)}\u00a0%" for scale in (printer.across, printer.up))
    says = (
        f"Made for the printer “{printer.name}” only: it prints lengths at {across} across the"
        f" page and at {up} up the page, and this file makes up for it. The bars must read"
        f" {decimal(length)}\u00a0mm both ways; where they do not, measure the printer again"
        " (templates-gen printer)."
    )
    return [text(says, width, LIST)]


def _roles(layout: Layout) -> list[Role]:
    """Return the kinds of lines on the sheets of a layout; where it has none, all."""
    taped = any(len(lattice.cells) > 1 for lattice in layout.lattices)
    used = {Role.MATCH, Role.GRID} if taped else set()
    used |= {each.role for lattice in layout.lattices for each in lattice.piece.drawing.strokes}
    return [role for role in Role if role in used or not layout.lattices]


def _legend(roles: Sequence[Role], width: float) -> Block:
    """Show each of some kinds of line with what it asks for, in as many columns as have room."""
    count = max(1, int(width // LEGEND_WIDTH))
    column = width / count
    entries = [*(_legend_entry(role, column - 4) for role in roles), text(SIDES, column - 4, LIST)]
    rows = math.ceil(len(entries) / count)
    drawing, tallest = Drawing(), 0.0
    for start in range(0, len(entries), rows):
        x, y = start // rows * column, 0.0
        for entry in entries[start : start + rows]:
            drawing += entry.drawing.transformed(Transform(1, 0, 0, 1, x, y))
            y -= entry.height
        tallest = max(tallest, -y)
    return Block(tallest + 1, drawing)


def _legend_entry(role: Role, width: float) -> Block:
    says = text(f"{role.word}: {role.meaning}", width - LEGEND_LINE - 3, LIST)
    shown = Stroke(line((0, -2.1), (LEGEND_LINE, -2.1)), role)
    moved = says.drawing.transformed(Transform(1, 0, 0, 1, LEGEND_LINE + 3, 0))
    return Block(says.height - 0.7, Drawing((shown,)) + moved)


def _ranges(numbers: Sequence[int]) -> str:
    """Write sheet numbers, each once, with runs drawn together: ``2, 5–7``."""
    runs: list[list[int]] = []
    for number in dict.fromkeys(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def _maps(lattices: Sequence[Lattice], places: Places, first: int, width: float) -> list[Block]:
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
    return [Block(tall + 3, row) for row, tall in rows]


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
        labels.append(_on_map(f"{cell.code}: {places[cell.code] + first}", box))
    return top + size.height * along, Drawing(tuple(drawn), tuple(labels))


def _on_map(text: str, box: Box) -> Label:
    """Set words in the middle of a tile of a map, upright where it is too narrow for them."""
    x, y = box.centre
    for size in MAP_SIZES:
        if lettering.text_width(text, size) + 1 <= box.width:
            return Label(text, (x, y - size / 3), size, Anchor.MIDDLE)
    size = MAP_SIZES[-1]
    if lettering.text_width(text, size) > box.height:  # too small both ways: over its sides
        return Label(text, (x, y - size / 3), size, Anchor.MIDDLE)
    return Label(text, (x + size / 3, y), size, Anchor.MIDDLE, turn=90)
