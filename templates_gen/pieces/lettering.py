"""What lettering needs beside the collar: the top it stands on, mirrors, letters to cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from fontTools.misc.transform import Transform

from templates_gen.cakefile.cut_from import MODELLING
from templates_gen.drawing.drawing import Drawing, Stroke
from templates_gen.drawing.fonts import missing_glyphs
from templates_gen.drawing.letters import Letter
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import Line, measure, text_block, title_lines
from templates_gen.geometry.areas.booleans import clean
from templates_gen.geometry.box import Box, union_box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.lettering import Lettered
from templates_gen.pieces.making import OUT, PRINT_UP, rolled
from templates_gen.pieces.marks import plan_quarters
from templates_gen.tiers.solid import Solid

MARGIN = 8.0
"""Paper round mirrored lettering, mm."""

WORDS = 14.0
"""Paper below it, for words."""


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield what lettering needs beside the collar: the top it stands on, mirrors, letters."""
    for index, lettered in tier.letterings_on_top.items():
        yield _top(tier, index, lettered)
        yield from _extras(tier, index, lettered)
    for index, lettered in tier.letterings_on_side.items():
        yield from _extras(tier, index, lettered)


def _top(tier: Solid, index: int, lettered: Lettered) -> Piece:
    rim = tier.covered.rim
    title = f"{tier.name}: {tier.spec.lettering_name(index)}"
    reach = rim.bounds.y1
    space = Box(-reach * 0.4, lettered.box.y1 + 3, reach * 0.4, reach * 0.75)
    words = text_block(title_lines(title, f"capitals {measure(lettered.line.cap_height)}"), space)
    drawn = Drawing(tuple(Stroke(path, Role.PIPE) for path in lettered.outlines), words)
    return Piece(
        owner=tier.owner,
        kind="top-lettering",
        title=title,
        surface="covered",
        use=f"Lay it on the covered top, {PRINT_UP}, front to the front, and prick along the"
        " letters.",
        outline=rim.path(),
        drawing=drawn + plan_quarters(rim),
        values=lettered.values,
        part=str(index + 1),
    )


def _extras(tier: Solid, index: int, lettered: Lettered) -> Iterator[Piece]:
    if lettered.spec.mirror:
        yield _mirror(tier, index, lettered)
    if lettered.spec.cut:
        yield from _letters(tier, index, lettered)


def _mirror(tier: Solid, index: int, lettered: Lettered) -> Piece:
    """Return the text left to right, on paper with a margin, to trace from behind."""
    paths = [path.transformed(Transform(-1, 0, 0, 1, 0, 0)) for path in lettered.outlines]
    box = union_box(path.bounds for path in paths)
    paper = Box(box.x0, box.y0 - WORDS, box.x1, box.y1).expanded(MARGIN)
    title = f"{tier.name}: {tier.spec.lettering_name(index)}, mirrored"
    use = "Trace it with soft pencil or pipe it on parchment; it reads right when turned over."
    space = Box(paper.x0 + 2, paper.y0 + 1, paper.x1 - 2, box.y0 - 2)
    words = text_block([Line(title, bold=True), Line(use)], space)
    return Piece(
        owner=tier.owner,
        kind="lettering-mirror",
        title=title,
        surface="flat",
        use=use,
        outline=rectangle(paper),
        drawing=Drawing(tuple(Stroke(path, Role.PIPE) for path in paths), words),
        values=lettered.values,
        part=str(index + 1),
    )


def _letters(tier: Solid, index: int, lettered: Lettered) -> Iterator[Piece]:
    """Yield each letter once, in the order they are first used, with how many to cut."""
    forms: dict[str, list[Letter]] = {}
    for letter in lettered.line.inked:
        forms.setdefault(letter.name, []).append(letter)
    spec = lettered.spec
    made_of = rolled(spec.paste_colour, MODELLING, spec.thickness.mm)
    for number, same in enumerate(forms.values(), 1):
        text = same[0].text.strip()
        quoted = f"“{text}”" if text and not missing_glyphs(text) else str(number)
        box = same[0].path.bounds
        yield Piece(
            owner=tier.owner,
            kind="letter",
            title=f"{tier.name}: letter {quoted}",
            surface="flat",
            copies=len(same),
            use=f"Cut {len(same)} from {made_of}, {OUT}; set {'it' if len(same) == 1 else 'each'}"
            " where the lettering shows it.",
            outline=clean(same[0].path),
            drawing=Drawing(),
            values={"letter": text, "width_mm": box.width, "height_mm": box.height},
            part=f"{index + 1}-{number:02}",
        )
