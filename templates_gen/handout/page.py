"""The handout on paper: the picture, what to have ready, steps with small drawings, notes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from fontTools.misc.transform import Transform

from templates_gen.cakefile.papers import Paper
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.flow import (
    Block,
    Section,
    flow,
    heading,
    page_count,
    stacked,
    table,
    text,
)
from templates_gen.drawing.fonts import text_width
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import line
from templates_gen.handout.contents import Handout, HandoutStep
from templates_gen.plan import Plan
from templates_gen.views.picture import Views, both_views, drawn
from templates_gen.writers.picture import pages_pdf

MARGIN = 12.0
SIZES = (3.8, 3.5, 3.2, 2.9)
"""Em sizes of the words, mm, the least 8 pt: the largest that leaves room for notes on two pages is
used."""
PAGES = 2
PICTURE = 95.0
"""Height of the picture, mm."""
SMALL_WIDE, SMALL_TALL = 20.0, 9.0
"""Room for the small drawing of a piece, mm."""
MOST_DRAWN = 3
"""Pieces drawn beside one another at a step; of more the first are."""
RULE = 8.0
"""Between the ruled lines for notes, mm."""
LEAST_NOTES = 32.0
"""Room for a heading and three lines, mm."""


def handout_pdf(plan: Plan, found: Handout, paper: Paper) -> bytes:
    """Return the handout as pages of a paper, two where the steps have room on them."""
    space = Box(MARGIN, MARGIN, paper.width - MARGIN, paper.height - MARGIN)
    views = both_views(plan.stack, PICTURE)
    for size in SIZES:
        sections = _sections(views, found, size)
        count, filled = page_count(sections, space)
        left = space.height * (1 - filled)
        if count <= PAGES and left >= LEAST_NOTES:
            break
    pages = flow([*sections, partial(_notes, left)], space)
    said = [page.reworded(plan.terms.text) for page in pages]
    return pages_pdf(found.title, said, paper.width, paper.height)


def _sections(views: Views, found: Handout, size: float) -> list[Section]:
    def top(width: float) -> list[Block]:
        return [text(found.title, width, 9.0, bold=True), drawn(views, width)]

    def ready(width: float) -> list[Block]:
        if not found.ready:
            return []
        return [heading("Have ready"), *table([("for", "what", ""), *found.ready], width, size)]

    def steps(width: float) -> list[Block]:
        return [heading("Steps"), *(_step(step, width, size) for step in found.steps)]

    def care(width: float) -> list[Block]:
        return [heading("Take care"), *(text(each, width, size) for each in found.cautions)]

    return [top, ready, steps, care]


def _step(step: HandoutStep, width: float, size: float) -> Block:
    """Return a step: a box to tick, what to do, how long it takes, its pieces small."""
    left = text_width("99", size, bold=True) + 2.5
    words = [
        text(step.title, width - left, size, bold=True),
        text(f"{step.words} ({step.takes})", width - left, size),
    ]
    block = stacked([*words, *_small(step.pieces, width - left, size)])
    moved = block.drawing.moved(left, 0)
    number = text(f"{step.number}", left, size, bold=True)
    return Block(block.height + 2.0, moved + number.drawing)


def _small(pieces: Sequence[tuple[Piece, str]], width: float, size: float) -> Iterator[Block]:
    """Yield the outlines of pieces, each with what is said of it beside it."""
    for piece, words in pieces[:MOST_DRAWN]:
        said = text(words, width - SMALL_WIDE - 2, size)
        outline = _outline(piece)
        beside = said.drawing.moved(SMALL_WIDE + 2, 0)
        tall = -min(stroke.path.bounds.y0 for stroke in outline.strokes)
        yield Block(max(tall, said.height) + 1.2, outline + beside)


def _outline(piece: Piece) -> Drawing:
    """Return the cut edges of a piece, small, below (0, 0)."""
    box = piece.outline.bounds
    scale = min(SMALL_WIDE / box.width, SMALL_TALL / box.height)
    onto = Transform(scale, 0, 0, scale, -box.x0 * scale, -box.y1 * scale)
    paths = (piece.outline, *piece.openings)
    return Drawing(tuple(Stroke(path.transformed(onto), Role.GUIDE) for path in paths))


def _notes(tall: float, width: float) -> list[Block]:
    """Return ruled lines to write on, as many as have so much room."""
    if tall < LEAST_NOTES:
        return []
    title = heading("Notes")
    rule = Block(RULE, Drawing((Stroke(line((0, -RULE), (width, -RULE)), Role.NOTE),)))
    return [stacked([title, *([rule] * int((tall - title.height) / RULE))])]
