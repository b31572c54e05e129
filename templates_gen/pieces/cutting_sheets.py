"""Cutting sheets: small pieces side by side, each with its number."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from templates_gen.drawing import fonts
from templates_gen.drawing.drawing import Anchor, Drawing, Label, Stroke
from templates_gen.drawing.piece import Piece
from templates_gen.drawing.roles import Role
from templates_gen.drawing.text_block import LEAST_TEXT, SMALL, Line, text_block
from templates_gen.geometry.box import Box
from templates_gen.geometry.path import rectangle
from templates_gen.guides.decorated import DecoratedTier
from templates_gen.guides.scatter import Scattered
from templates_gen.pieces.making import OUT, cut_from
from templates_gen.tiers.solid import Solid

SHEET = (180.0, 120.0)
"""The largest cutting sheet, mm: two of them share a page of A4."""

BETWEEN = 2.0
"""Paste between two pieces on a cutting sheet, mm."""

TITLE_STRIP = 8.0
"""A strip of it for words."""


def build(tier: DecoratedTier) -> Iterable[Piece]:
    """Yield cutting sheets with as many small pieces as are scattered over the tier."""
    for index, made in tier.scatters.items():
        yield from _sheets(tier, index, made)


def _sheets(tier: Solid, index: int, made: Scattered) -> Iterator[Piece]:
    """Yield sheets of pieces side by side, each with its number, on as many sheets as it takes."""
    box = made.outline.bounds
    wide, tall = box.width + BETWEEN, box.height + BETWEEN
    across = max(1, int((SHEET[0] - BETWEEN) / wide))
    rows = max(1, int((SHEET[1] - BETWEEN - TITLE_STRIP) / tall))
    total = len(made.places)
    made_of = cut_from(made.spec, made.spec.colour)
    for sheet, first in enumerate(range(0, total, across * rows), 1):
        count = min(across * rows, total - first)
        used = math.ceil(count / across)
        paper = Box(0, 0, min(across, count) * wide + BETWEEN, used * tall + BETWEEN + TITLE_STRIP)
        title = f"{tier.name}: {made.spec.shape}, numbers {first + 1} to {first + count}"
        drawn: list[Stroke] = []
        labels: list[Label] = []
        size = max(LEAST_TEXT, min(SMALL, made.spec.size.mm / 4))
        for number in range(count):
            x = BETWEEN + (number % across) * wide - box.x0
            y = paper.y1 - BETWEEN - (number // across) * tall - box.y1
            drawn.append(Stroke(made.outline.moved(x, y), Role.CUT))
            at = (x, y - size * fonts.CAP_HEIGHT / 2)
            labels.append(Label(str(first + number + 1), at, size, Anchor.MIDDLE))
        words = text_block([Line(title, bold=True)], Box(1, 0.5, paper.x1 - 1, TITLE_STRIP - 0.5))
        yield Piece(
            owner=tier.owner,
            kind="scatter",
            title=title,
            surface="flat",
            use=f"Cut them from {made_of}, {OUT}; set each at its number on the collar.",
            outline=rectangle(paper),
            drawing=Drawing(tuple(drawn), (*labels, *words)),
            values={"pieces": count, "size_mm": made.spec.size.mm},
            part=f"{index + 1}-{sheet}",
        )
