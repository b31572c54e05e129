"""Piping sheets: a motif repeated on paper to lie under acetate, as it is seen or mirrored."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from fontTools.misc.transform import Transform

from templates_gen.cakefile.designs import Design
from templates_gen.cakefile.transfers import Transfer
from templates_gen.drawing.designs import DESIGNS, design_word
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.piece import PACK, Owner, Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import SMALL, Line, text_block
from templates_gen.errors import CakeError, Key
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import Path, rectangle
from templates_gen.guides.decorated import DecoratedStack, DecoratedTier
from templates_gen.guides.guide import Guide
from templates_gen.pieces.marks import strokes
from templates_gen.pieces.topper import outlines, standing
from templates_gen.tiers.side import Side

PAGE = (180.0, 225.0)
"""The largest sheet, mm: it goes on one page of A4 or Letter, upright or turned."""
MARGIN = 6.0
"""Paper round the motifs, mm."""
WORDS = 16.0
"""Paper below them, for words."""
LEAST_STEP = 2.0
"""From a copy to the next at the least, mm: a motif may be one line, with no width of its own."""


@dataclass(frozen=True, slots=True)
class Motif:
    """What is repeated: its lines, y up, its part of an id, its name, and the keys of its sheet.

    On the cake the next one is a ``pitch`` on, mm.
    """

    owner: Owner
    part: str
    name: str
    paths: tuple[Path, ...]
    spec: Transfer
    kind: str = "piping-sheet"
    pitch: float | None = None


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield the sheet of each design, lettering and small piece that has one."""
    for motif in (*_designs(tier), *_letterings(tier), *_small_pieces(tier)):
        yield from _sheets(motif)


def build_toppers(stack: DecoratedStack) -> Iterable[Piece]:
    """Yield the sheets of toppers."""
    for topper in standing(stack):
        spec, number = topper.spec.transfer, topper.index + 1
        if spec is not None:
            paths, name = outlines(topper.spec), f"topper {number}"
            yield from _sheets(
                Motif(PACK, str(number), name, _abreast(paths), spec, "topper-sheet")
            )


def _abreast(paths: Sequence[Path]) -> tuple[Path, ...]:
    """Return closed outlines one beside the other."""
    found: list[Path] = []
    x = 0.0
    for path in paths:
        box = path.bounds
        found.append(path.moved(x - box.x0, -box.y0))
        x += box.width + MARGIN
    return tuple(found)


def _designs(tier: DecoratedTier) -> Iterator[Motif]:
    for index, spec in enumerate(tier.spec.design if tier.lies_flat else ()):
        if spec.transfer is not None:
            key = (*tier.key("design"), index)
            guide = next(each for each in tier.marked if each.key == key)
            paths = _one_repeat(guide, spec, (*key, "transfer"), tier.covered.side)
            name = tier.spec.design_name(index)
            part, pitch = f"design-{index + 1}", guide.repeats.width if guide.repeats else None
            if spec.transfer.joined and not tier.covered.side.is_level:
                raise CakeError.at(
                    (*key, "transfer", "joined"),
                    "copies that join on a side that leans",
                    "an upright side",
                    "leave joined out: the rows of this side are arcs",
                )
            yield Motif(tier.owner, part, name, paths, spec.transfer, pitch=pitch)


def _one_repeat(guide: Guide, spec: Design, key: Key, side: Side) -> tuple[Path, ...]:
    """Return what one repeat draws, laid flat. Raises CakeError where there is no such repeat."""
    if DESIGNS[spec.kind].repeat is None or guide.repeats is None:
        found = f"a piping sheet of {design_word(spec.kind)}"
        advice = "leave transfer out: the collar has its lines"
        raise CakeError.at(key, found, "a design of repeats alike all round", advice)
    start, width = guide.repeats.places[0], guide.repeats.width
    own = list[Stroke]()
    for each in guide.drawing.strokes:
        # what the repeat draws behind the join, or on it, is drawn beside the rest of the repeat
        turns, along = divmod(each.path.bounds.centre[0] - start + 1e-6, side.girth)
        if along < width:
            own.append(replace(each, path=each.path.moved(-turns * side.girth, 0.0)))
    return tuple(each.path for each in side.unroll(Drawing(tuple(own))).strokes)


def _letterings(tier: DecoratedTier) -> Iterator[Motif]:
    for index, each in (*tier.letterings_on_side.items(), *tier.letterings_on_top.items()):
        if each.spec.transfer is not None:
            part, name = f"lettering-{index + 1}", tier.spec.lettering_name(index)
            yield Motif(tier.owner, part, name, tuple(each.outlines), each.spec.transfer)


def _small_pieces(tier: DecoratedTier) -> Iterator[Motif]:
    for index, made in tier.scatters.items():
        if made.spec.transfer is not None:
            part, name = f"scatter-{index + 1}", made.spec.shape
            yield Motif(tier.owner, part, name, (made.outline,), made.spec.transfer)


def _sheets(motif: Motif) -> Iterator[Piece]:
    if motif.spec.sheet != "mirrored":
        yield _sheet(motif, motif.paths, "")
    if motif.spec.sheet != "normal":
        turned = tuple(path.transformed(Transform(-1, 0, 0, 1, 0, 0)) for path in motif.paths)
        yield _sheet(motif, turned, "mirrored")


def _sheet(motif: Motif, paths: Sequence[Path], how: str) -> Piece:
    """Return a sheet with as many copies as given, or as fit, each row on its own lines."""
    box = union_box(path.bounds for path in paths)
    wide, tall = (max(size + motif.spec.apart.mm, LEAST_STEP) for size in box.size)
    if motif.spec.joined:
        wide = max(motif.pitch or box.width, LEAST_STEP)
    pages = [_held(page, box.width, wide, tall, motif.spec.apart.mm) for page in (PAGE, PAGE[::-1])]
    count = motif.spec.copies or max(map(math.prod, pages))
    # of two ways that hold as many the upright one, which leaves room beside it
    across, rows = max(pages, key=lambda held: min(math.prod(held), count))
    across = min(across, count)
    rows = math.ceil(count / across)
    places = [
        ((index % across) * wide - box.x0, (rows - 1 - index // across) * tall - box.y0)
        for index in range(count)
    ]
    drawn = tuple(Stroke(path.moved(*at), Role.PIPE) for at in places for path in paths)
    right = (across - 1) * wide + box.width
    top = rows * tall - motif.spec.apart.mm
    edge = Box(0, -WORDS, right, top).expanded(MARGIN)
    levels = [row * tall + y for row in range(rows) for y in (0.0, box.height)]
    lines = strokes(Role.NOTE, *(((-MARGIN / 2, y), (right + MARGIN / 2, y)) for y in levels))
    owned = motif.name if motif.owner == PACK else f"{motif.owner.name}: {motif.name}"
    title = f"{owned}: piping sheet{f', {how}' if how else ''}"
    use = f"{USE[how]} {count} on the sheet; slide it along for more."
    space = Box(edge.x0 + 2, edge.y0 + 1, edge.x1 - 2, -MARGIN / 2 - SMALL)
    return Piece(
        owner=motif.owner,
        kind=motif.kind,
        title=title,
        surface="flat",
        use=use,
        outline=rectangle(edge),
        drawing=Drawing((*lines, *drawn), text_block([Line(title, bold=True), Line(use)], space)),
        values={
            "copies_on_sheet": count,
            "rows": rows,
            "motif_width_mm": box.width,
            "motif_height_mm": box.height,
        },
        part="-".join(filter(None, (motif.part, how))),
    )


def _held(
    page: tuple[float, float], width: float, wide: float, tall: float, apart: float
) -> tuple[int, int]:
    """Return how many copies a row of a page holds, and how many rows it has."""
    across = max(1, int((page[0] - 2 * MARGIN - width) / wide) + 1)
    return across, max(1, int((page[1] - 2 * MARGIN - WORDS + apart) / tall))


USE = {
    "": "Lay it under acetate and pipe or paint over the lines; the thin lines keep rows level.",
    "mirrored": "Lay it under acetate and pipe or trace from behind: it reads right turned over.",
}
