"""From a plan to packs: its pieces laid out on sheets, behind a cover that says what they are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import chain

from templates_gen.bench import section as bench_section
from templates_gen.bench.bench_list import NOT_STRUCTURAL, bench
from templates_gen.bench.report import sections
from templates_gen.cakefile.papers import Paper, parse_papers
from templates_gen.cakefile.printers import Printer
from templates_gen.cover.pages import Picture, cover_pages, text_space
from templates_gen.drawing.flow import Block, Section, column_width, heading, set_once, table, text
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.text_block import LEAST_TEXT
from templates_gen.errors import CakeError
from templates_gen.geometry.box import Box
from templates_gen.pieces.cautions import STACKED
from templates_gen.plan import Plan
from templates_gen.printing.templates import templates
from templates_gen.sheets.frame import Frame, frame_for
from templates_gen.sheets.layout import Layout, assemble, lay_out
from templates_gen.sheets.pack import Pack
from templates_gen.sheets.pack_mark import pack_mark
from templates_gen.sheets.roll import lay_out_roll
from templates_gen.units import decimal
from templates_gen.views.picture import Fit, at_scale, both_views, outline, room_for

TALLEST, SMALLEST = 140.0, 12.0
"""The most room the picture takes where that costs no page, and how small the tiers become, mm."""
LEAST_CAKE = 30.0
"""The least width of the cake in a column of text, beside its words, mm."""
HEADING_ROOM = 10.0
"""Room for the heading above it, mm."""


def make_pack(
    plan: Plan,
    paper: Paper,
    shared: Sequence[Paper] = (),
    pieces: Sequence[Piece] | None = None,
    printer: Printer | None = None,
) -> Pack:
    """Return the pack of a plan on ``paper``, within the area that all of ``shared`` can print.

    With ``pieces`` it is a pack of these alone, whose cover says nothing of the whole cake. With a
    ``printer`` it is scaled for it; a plan that names one needs it. On a roll it has no cover: that
    is a pack of its own (``make_packs``).
    Raises CakeError when the margins leave no room.
    """
    request = _request(plan, pieces, [(paper, tuple(shared) or (paper,))], printer)
    return _laid_out(plan, paper, shared, request, [plan.title])[0][0]


@dataclass(frozen=True, slots=True)
class _Request:
    """The templates of a pack, whether they are those of the whole cake, its mark and printer."""

    templates: Sequence[Piece]
    whole: bool
    mark: str
    printer: Printer | None


def _request(
    plan: Plan,
    pieces: Sequence[Piece] | None,
    papers: list[tuple[Paper, tuple[Paper, ...]]],
    printer: Printer | None,
) -> _Request:
    chosen = templates(plan) if pieces is None else pieces
    mark = pack_mark(plan.digest, chosen, papers, printer)
    return _Request(chosen, pieces is None, mark, printer)


def _laid_out(
    plan: Plan, paper: Paper, shared: Sequence[Paper], request: _Request, titles: Sequence[str]
) -> list[list[Pack]]:
    """Return the packs of each title: laid out once, each behind a cover of its own.

    They are one, but on a roll two: the length of paper, and the cover on ordinary sheets.
    """
    _refuse_unmeasured(plan, request.printer)
    chosen, mark = request.templates, request.mark

    def frame_of(size: Paper) -> Frame:
        return frame_for(size, shared, plan.margins, request.printer)

    layout = _layout(chosen, paper, frame_of, by_tier=plan.by_tier)
    on_cover = replace(layout, frame=frame_of(paper.beside)) if paper.roll else layout
    space = text_space(on_cover.frame)
    pictures, listed = (_pictures(plan, space), _bench_list(plan)) if request.whole else ([], [])
    packs = []
    for title in titles:
        titled = replace(plan, title=title)
        cover = cover_pages(titled, chosen, mark, on_cover, pictures, listed)
        terms = replace(plan.terms, kept=(*plan.terms.kept, title))
        made = assemble(title, mark, cover, layout, on_cover.frame).reworded(terms.text)
        packs.append(_apart(made, on_cover.frame, len(cover)) if paper.roll else [made])
    return packs


def _layout(
    pieces: Sequence[Piece], paper: Paper, frame_of: Callable[[Paper], Frame], *, by_tier: bool
) -> Layout:
    """Return pieces laid out on sheets, or on as much of a roll as they need.

    Raises CakeError for tiers on sheets of their own of a roll.
    """
    if not paper.roll:
        return lay_out(pieces, frame_of(paper), by_tier=by_tier)
    if by_tier:
        found = f"a roll {decimal(paper.width)} mm wide, and each tier on a new sheet"
        advice = "leave out --by-tier, or choose a paper that comes in sheets"
        raise CakeError.at(("paper",), found, "paper in sheets", advice)
    return lay_out_roll(
        pieces, lambda length: frame_of(replace(paper, height=length)), paper.height
    )


def _apart(made: Pack, cover: Frame, pages: int) -> list[Pack]:
    """Part the pack of a roll from its cover, which is on other paper."""
    words = replace(made, paper=cover.paper, area=cover.area, sheets=made.sheets[:pages])
    return [replace(made, sheets=made.sheets[pages:]), words]


def _refuse_unmeasured(plan: Plan, printer: Printer | None) -> None:
    """Raise CakeError where a plan names a printer that has not been measured."""
    if plan.printer is not None and printer is None:
        found = f"“{plan.printer}”, and no measured printer was given with the plan"
        advice = "give make_pack the printer, or leave the key printer out: then nothing is scaled"
        raise CakeError.at(("printer",), found, "a printer that was measured", advice)


def make_packs(
    plan: Plan,
    papers: Iterable[str],
    pieces: Sequence[Piece] | None = None,
    printer: Printer | None = None,
) -> list[Pack]:
    """Return a pack for each paper as a cake file names them: two for ``both``, laid out once.

    Of a roll there are two, the roll and its cover. All have the same pack mark.

    Raises CakeError as ``make_pack`` does, and LengthError for a text that is not a paper.
    """
    return titled_packs(plan, papers, [plan.title], pieces, printer)[0]


def titled_packs(
    plan: Plan,
    papers: Iterable[str],
    titles: Sequence[str],
    pieces: Sequence[Piece] | None = None,
    printer: Printer | None = None,
) -> list[list[Pack]]:
    """Return for each title what ``make_packs`` makes, with the title on every sheet.

    Whatever the number of titles, the pieces are laid out once. Raises as ``make_packs``.
    """
    parsed = parse_papers(papers)
    request = _request(plan, pieces, parsed, printer)
    made: dict[tuple[Paper, ...], list[list[Pack]]] = {}
    by_paper = []
    for paper, shared in parsed:
        if shared not in made:
            made[shared] = _laid_out(plan, paper, shared, request, titles)
        by_paper.append(
            [
                [pack.on(paper) if len(shared) > 1 else pack for pack in packs]
                for packs in made[shared]
            ]
        )
    return [list(chain.from_iterable(packs)) for packs in zip(*by_paper, strict=True)]


def _bench_list(plan: Plan) -> list[Section]:
    """Return the bench list of the cake."""
    is_cautioned = plan.terms.text(STACKED) in plan.cautions
    said = plan.terms.text(NOT_STRUCTURAL) if is_cautioned else ""
    return [
        set_once(partial(_part, part, said))
        for part in sections(bench(plan), plan.terms)
        if not part.bench_only
    ]


def _part(part: bench_section.Section, said: str, width: float) -> list[Block]:
    """Return a part of the bench list for the cover, without a note that is ``said`` already."""
    return [
        heading(part.title),
        *table(part.brief or [part.columns, *part.rows], width, LEAST_TEXT),
        *(text(note, width, LEAST_TEXT) for note in part.notes if note != said),
    ]


def _pictures(plan: Plan, space: Box) -> list[Picture]:
    """Return the picture of the cake, ever smaller, across pages with this space or in a column.

    There is none where many letter cakes make it taller than a page.
    """
    available = space.height - HEADING_ROOM
    views = both_views(plan.stack, min(TALLEST, available))
    if views.height > available:
        return []
    column = column_width(space.width)
    in_column = (views, replace(views, named=True))  # the cover lists the sizes of all tiers
    ways = [(views, space.width)]
    ways += [(each, column) for each in in_column if column >= each.words_beside + LEAST_CAKE]
    fits = room_for(ways, SMALLEST)
    return [Picture(_set_by(outline, fit), _set_by(at_scale, fit)) for fit in fits]


def _set_by(draw: Callable[[Fit], Block], fit: Fit) -> Section:
    """Return the section of a picture, which is as wide whatever there is room for."""
    made = set_once(lambda _: [heading("The cake"), draw(fit)])
    return lambda _: made(fit.width)
