"""From a plan to packs: its pieces laid out on sheets, behind a cover that says what they are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.cakefile.papers import Paper, parse_papers
from templates_gen.cakefile.printers import Printer
from templates_gen.cover.bench_sections import bench_sections
from templates_gen.cover.pages import cover_pages, text_room
from templates_gen.drawing.flow import Block, Section, heading
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError, Problem
from templates_gen.geometry.box import Box
from templates_gen.plan import Plan
from templates_gen.printing.templates import templates
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.layout import assemble, lay_out
from templates_gen.sheets.pack import Pack
from templates_gen.sheets.pack_mark import pack_mark
from templates_gen.views.picture import drawn, words_beside

TALLEST = 112.0
"""The most room the picture takes, mm."""
LEAST_CAKE = 30.0
"""The least width of the cake in a column of text, beside its sizes, mm."""
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
    ``printer`` it is scaled for it; a plan that names one needs it.
    Raises CakeError when the margins leave no room.
    """
    chosen = templates(plan) if pieces is None else pieces
    mark = pack_mark(plan.digest, chosen, [(paper, tuple(shared) or (paper,))], printer)
    return _with_covers(plan, paper, shared, pieces, mark, [plan.title], printer)[0]


def _with_covers(
    plan: Plan,
    paper: Paper,
    shared: Sequence[Paper],
    pieces: Sequence[Piece] | None,
    mark: str,
    titles: Sequence[str],
    printer: Printer | None,
) -> list[Pack]:
    """Return a pack for each title: laid out once, each behind a cover of its own."""
    _is_for(plan, printer)
    frame = frame_for(paper, shared, plan.margins, printer)
    chosen = templates(plan) if pieces is None else pieces
    layout = lay_out(chosen, frame)
    whole = pieces is None
    added = list(_of_the_cake(plan, text_room(frame))) if whole else []
    packs = []
    for title in titles:
        cover = cover_pages(replace(plan, title=title), chosen, mark, layout, added, whole=whole)
        packs.append(assemble(title, mark, cover, layout))
    return packs


def _is_for(plan: Plan, printer: Printer | None) -> None:
    """Raise CakeError where a plan names a printer and nobody has said what it does to lengths."""
    if plan.printer is not None and printer is None:
        found = f"“{plan.printer}”, and no measured printer was given with the plan"
        advice = "give make_pack the printer, or leave the key printer out: then nothing is scaled"
        raise CakeError([Problem(("printer",), found, "a printer that was measured", advice)])


def make_packs(
    plan: Plan,
    papers: Iterable[str],
    pieces: Sequence[Piece] | None = None,
    printer: Printer | None = None,
) -> list[Pack]:
    """Return a pack for each paper as a cake file names them: two for ``both``, laid out once.

    All have the same pack mark.

    Raises CakeError as ``make_pack`` does, and LengthError for a text that is no paper.
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
    mark = pack_mark(plan.digest, templates(plan) if pieces is None else pieces, parsed, printer)
    made: dict[tuple[Paper, ...], list[Pack]] = {}
    by_paper = []
    for paper, shared in parsed:
        if shared not in made:
            made[shared] = _with_covers(plan, paper, shared, pieces, mark, titles, printer)
        by_paper.append([pack.on(paper) for pack in made[shared]])
    return [list(packs) for packs in zip(*by_paper, strict=True)]


def _of_the_cake(plan: Plan, room: Box) -> Iterator[Section]:
    """Yield the picture of the cake and its bench list for pages with so much room."""
    tallest = min(TALLEST, room.height - HEADING_ROOM)
    least = words_beside(plan.stack) + LEAST_CAKE

    def picture(width: float) -> list[Block]:
        # in a column only where it has room beside its words
        wide = width if width >= least else room.width
        return [heading("The cake"), drawn(plan.stack, wide, tallest)]

    yield picture
    yield from bench_sections(sections(bench(plan)))
