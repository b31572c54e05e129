"""The bench list on the cover: each of its parts as a section, without what is assumed."""

from __future__ import annotations

from collections.abc import Iterable
from functools import partial

from templates_gen.bench import section
from templates_gen.drawing.flow import Block, Section, heading, table, text
from templates_gen.drawing.text_block import LEAST_TEXT

SIZE = LEAST_TEXT
"""Em size of rows and notes, mm."""


def bench_sections(parts: Iterable[section.Section], said: str) -> list[Section]:
    """Return the sections of a bench list that the bench works by, without what is said already."""
    return [partial(_blocks, part, said) for part in parts if not part.bench_only]


def _blocks(part: section.Section, said: str, width: float) -> list[Block]:
    rows = table(part.brief or [part.columns, *part.rows], width, SIZE)
    return [
        heading(part.title),
        *rows,
        *(text(note, width, SIZE) for note in part.notes if note != said),
    ]
