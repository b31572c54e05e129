"""The cover: the large check, the tiers, the list of pieces, how split pieces go together."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial

from templates_gen.cakefile.printers import Printer
from templates_gen.cakefile.tier import Tier
from templates_gen.cover.maps import least_size, maps, order_of_parts
from templates_gen.drawing.drawing import Drawing
from templates_gen.drawing.flow import (
    TITLE,
    Block,
    Section,
    columns_first,
    flow,
    heading,
    page_count,
    set_once,
    table,
    text,
)
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.geometry.box import Box
from templates_gen.geometry.outline import Outline
from templates_gen.guides.decorated import DecoratedStack
from templates_gen.plan import Plan
from templates_gen.printing.by_numbers import NO_SHEET, quarters_apart
from templates_gen.sheets.frame import Frame
from templates_gen.sheets.furniture import edges, large_check
from templates_gen.sheets.layout import Layout
from templates_gen.sheets.print_check import REMINDER
from templates_gen.terms import Terms
from templates_gen.tiers.solid import Layer, Solid
from templates_gen.tiers.widths import OF, across_words, polygon_sizes, width_words
from templates_gen.units import decimal, in_both

FIT_TO_PAGE = (128 / 150, 146 / 150)
"""What is left of a length when a printer fits A4 or Letter to its margins, of its own paper or of
the other: measured with the filter of CUPS and margins up to 6.4 by 12.7 mm (a test compares)."""
TIER_COLUMNS = (
    "tier",
    "bare, across",
    "bare, depth",
    "coating",
    "fondant (sugar paste)",
    "covered, across",
    "covered, girth",
    "covered, depth",
)
"""What is said of each tier."""
PIECE_COLUMNS = ("piece", "cut", "sheets")
"""What is said of each piece."""
BY_TIER = "Sheets by tier: {}."
"""Where to find all that belongs to a tier."""
OF_ALL, WHOLE_CAKE = "pack", "whole cake"
"""What pieces have for a tier that belong to none, and what the list calls it."""
LIST = LEAST_TEXT
"""Em size of lists and of words below them, mm."""
SIDES = "Left and right are as you face the front of the cake."
ONE_PACK = (
    "All sheets of this pack carry the pack mark {}. A sheet with another mark belongs to another"
    " version of the cake: do not mix them."
)
TAPING = (
    "Parts meet on a line between two round marks. Trim the grey off one part along that line,"
    " stick the grey of the other under it so that the marks meet, tape, then cut."
)
WITH_TRIANGLES = TAPING.replace("meet, tape", "meet, triangles along one ruler, tape")
"""The same where narrow parts have triangles to lay a ruler along."""
MAP_HEADING = 20.0
"""Room above the first map of a page for its heading and words, mm."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture for a cover: the room that it takes, and the picture itself."""

    room: Section
    drawn: Section


def text_space(frame: Frame) -> Box:
    """Return the space for words on a page of a cover."""
    field = frame.field
    return Box(field.x0 + 2, field.y0 + 1, field.x1, field.y1)


def cover_pages(
    plan: Plan,
    pieces: Sequence[Piece],
    mark: str,
    layout: Layout,
    pictures: Sequence[Picture],
    listed: Sequence[Section],
) -> list[Drawing]:
    """Return what is drawn on each page of the cover of a pack with these pieces and pack mark.

    Of a whole cake there is what is ``listed``. Of ``pictures``, from the largest, the first that
    takes no more pages than the last follows the check, and then what is listed and the tiers. The
    sheet numbers on the cover depend on how many pages it takes, which does not depend on the
    numbers; so the pages are counted first.
    """
    frame, space = layout.frame, text_space(layout.frame)
    length = large_check(frame)

    head = _head(plan, mark, length, frame.printer)
    tiers = [partial(_tiers, plan.stack, plan.terms)] if listed else []
    whole = columns_first([*listed, *tiers], space.width)
    lists = [*whole, *map(set_once, _lists(plan, pieces, layout, 1))]
    ways = [[head, picture.room] for picture in pictures]
    chosen = _largest(ways, lists, space)
    start_with = [head, *([] if chosen is None else [pictures[chosen].drawn])]
    count, _ = page_count([*start_with, *lists], space)
    numbered = _lists(plan, pieces, layout, count + 1)
    start, *more = flow([*start_with, *whole, *numbered], space)
    return [start + edges(frame, REMINDER, length), *(each + edges(frame, "") for each in more)]


def _largest(ways: Sequence[Sequence[Section]], lists: Sequence[Section], space: Box) -> int | None:
    """Return the place of the first way to begin that takes no more pages than the last.

    What it begins with fits on the first page. None where there are no ways.
    """

    def pages(way: Sequence[Section]) -> int:
        return page_count([*way, *lists], space)[0]

    if not ways:
        return None
    least = pages(ways[-1])
    fits = (
        index
        for index, way in enumerate(ways)
        if page_count(way, space)[0] == 1 and pages(way) == least
    )
    return next(fits, len(ways) - 1)


def _head(plan: Plan, mark: str, length: float, printer: Printer | None) -> Section:
    """Return what the first page starts with: title, note, check."""

    def first(width: float) -> list[Block]:
        return [
            text(plan.title, width, TITLE, bold=True),
            *([text(plan.note, width)] if plan.note else []),
            text(ONE_PACK.format(mark), width, LIST),
            text(SIDES, width, LIST),
            _check(width, length),
            *_for_printer(printer, width, length),
        ]

    return first


def _lists(plan: Plan, pieces: Sequence[Piece], layout: Layout, first: int) -> Iterator[Section]:
    """List pieces, warnings, maps and cautions; ``first`` is the first sheet of pieces."""
    places = layout.places
    if pieces:
        yield partial(_pieces, pieces, layout, first, plan.terms)
    warnings = plan.warnings(pieces)
    if warnings:
        yield partial(_paragraphs, "Please check", [each.text for each in warnings])
    split_up = [lattice for lattice in layout.lattices if len(lattice.cells) > 1]
    if split_up:
        # a strip needs no map: its windows follow each other
        both_ways = [lattice for lattice in split_up if lattice.lines_x and lattice.lines_y]
        space = text_space(layout.frame)
        mapped = [
            lattice
            for lattice, (width, height) in zip(both_ways, map(least_size, both_ways), strict=True)
            if width <= space.width and height <= space.height - MAP_HEADING
        ]
        taping = WITH_TRIANGLES if layout.has_triangles else TAPING
        in_words = [order_of_parts(lattice) for lattice in both_ways if lattice not in mapped]
        yield lambda width: [
            heading("How split pieces go together"),
            replace(text(taping, width, LIST), leads=bool(mapped)),
            *(text(each, width, LIST) for each in in_words),
            *maps(mapped, places, first, width),
        ]
    yield partial(_paragraphs, "Cautions", plan.cautions)


def _paragraphs(title: str, texts: Sequence[str], width: float) -> list[Block]:
    return [heading(title), *(text(each, width, LIST) for each in texts)]


def _pieces(
    pieces: Sequence[Piece], layout: Layout, first: int, terms: Terms, width: float
) -> list[Block]:
    """List pieces by tier with their sheets, and what to do with those whose sheets do not say.

    What has no sheet is listed only where nothing is to be said of it.
    """
    places = layout.places
    listed = [piece for piece in pieces if piece.printed or not piece.use]
    rows = [PIECE_COLUMNS, *(_row(piece, places.get(piece.id, {}), first) for piece in listed)]
    said = {
        lattice.piece.id
        for lattice in layout.lattices
        if lattice.piece.use in " ".join(line.text for line in lattice.cells[0].caption)
    }
    left = [piece for piece in pieces if piece.id not in said and piece.use]
    return [
        heading("Pieces"),
        *_by_tier(pieces, places, first, width),
        *(table(rows, width, LIST) if listed else ()),
        *(text(use, width, LIST) for use in _uses(left, terms)),
    ]


def _uses(pieces: Iterable[Piece], terms: Terms) -> Iterator[str]:
    """Say what to do with pieces, once where it is the same for several tiers; plain sides last."""
    tiers: dict[tuple[str, str], list[str]] = {}
    plain: dict[str, float] = {}
    for piece in pieces:
        girth = piece.values.get("length_mm")
        if piece.instead == NO_SHEET and isinstance(girth, float):
            plain[piece.tier] = girth / 4
            continue
        name = piece.title.removeprefix(f"{piece.tier}: ")
        said = (_with_instead(piece, name), piece.use)
        tiers.setdefault(said, []).append(piece.tier if name != piece.title else "")
    for (name, use), some in tiers.items():
        of = ", ".join(dict.fromkeys(filter(None, some)))
        yield f"{of}: {name}: {use}" if of else f"{name}: {use}"
    if plain:
        yield f"plain sides ({NO_SHEET}): {terms.text(quarters_apart(plain))}"


def _with_instead(piece: Piece, name: str) -> str:
    """Return the name of a piece, of one without a sheet with what serves, and how many if not 1.

    Where it is said what to do, that begins with the circle guide, if it serves.
    """
    if piece.printed:
        return name
    is_said = piece.instead in piece.use
    cut = f"cut {piece.copies}" if piece.copies > 1 else ""
    more = ", ".join(filter(None, ("" if is_said else piece.instead, cut)))
    return f"{name} ({more})" if more else name


def _by_tier(
    pieces: Sequence[Piece], places: Mapping[str, Mapping[str, int]], first: int, width: float
) -> list[Block]:
    """Say on which sheets the pieces of each tier are, where they are of several."""
    found: dict[str, set[int]] = {}
    for piece in pieces:
        sheets = {sheet + first for sheet in places.get(piece.id, {}).values()}
        tier = WHOLE_CAKE if piece.tier == OF_ALL else piece.tier
        found.setdefault(tier, set()).update(sheets)
    said = [f"{name} on {_ranges(sorted(sheets))}" for name, sheets in found.items() if sheets]
    return [text(BY_TIER.format("; ".join(said)), width, LIST)] if len(said) > 1 else []


def _row(piece: Piece, places: Mapping[str, int], first: int) -> tuple[str, ...]:
    """Return what is listed of a piece: its name, how many to cut, its sheets."""
    numbers = [sheet + first for sheet in places.values()]
    return piece.title, str(piece.copies), _ranges(numbers) if numbers else piece.instead


def _tiers(stack: DecoratedStack, terms: Terms, width: float) -> list[Block]:
    """List each tier from the top down as it is bare and covered, and the whole cake."""
    if stack.drum is None:
        return []
    height, drum = in_both(stack.height), width_words(stack.drum)
    whole = f"The whole cake is {height} high with its boards, on a drum {drum}."
    cells = [TIER_COLUMNS, *map(_tier, reversed(stack.tiers))]
    rows = [tuple(map(terms.text, row)) for row in cells]
    return [heading("Tiers"), *table(rows, width, LIST), text(terms.text(whole), width, LIST)]


def _tier(tier: Solid) -> tuple[str, ...]:
    bare, covered, spec = tier.bare, tier.covered, tier.spec
    return (
        tier.name,
        _across(bare),
        in_both(bare.depth),
        in_both(spec.coating_mm) if spec.coating_mm else "none",
        _paste(spec),
        _across(covered),
        _at_both_ends(covered, lambda outline: in_both(outline.girth)),
        in_both(covered.depth),
    )


def _paste(spec: Tier) -> str:
    """Write how thick the paste is, on top and side where they differ."""
    top, side = spec.paste_top_mm, spec.paste_side_mm
    if not spec.paste_mm:
        return "none"
    return in_both(top) if top == side else f"top {in_both(top)}, side {in_both(side)}"


def _across(layer: Layer) -> str:
    """Write how wide a tier is; of a tapered polygon, whose cell is full, one size alone."""
    if not layer.is_tapered or layer.foot.across_flats is None:
        return _at_both_ends(layer, across_words)
    wide = _at_both_ends(layer, lambda outline: in_both(polygon_sizes(outline)[0]))
    return f"{wide} {OF[len(layer.foot.corners) % 2][0]}"


def _at_both_ends(layer: Layer, words: Callable[[Outline], str]) -> str:
    """Write a length round a surface; of a tapered one at its top and at its foot."""
    top = words(layer.rim)
    return f"top {top}, base {words(layer.foot)}" if layer.is_tapered else top


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
        f" {decimal(length)}\u00a0mm both ways; where they do not, measure the printer again."
    )
    return [text(says, width, LIST)]


def _ranges(numbers: Sequence[int]) -> str:
    """Write sheet numbers, each once, runs of them as ranges: ``2, 5–7``."""
    runs: list[list[int]] = []
    for number in dict.fromkeys(numbers):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)
