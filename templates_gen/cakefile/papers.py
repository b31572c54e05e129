"""Sheets of paper a decorator can ask for: one line a size.

Sizes: W3C CSS Paged Media Level 3, "Page size".
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from templates_gen.cakefile.lengths import LengthError, parse_two
from templates_gen.units import decimal

LEAST_SIDE = 100.0
LARGEST_SIDE = 5080.0
"""The longest page a PDF may have without a user unit: 14400 / 72 in."""


@dataclass(frozen=True, slots=True)
class Margins:
    """What a printer leaves blank along the long edges (sides) and the short ones (ends), mm."""

    sides: float = 7.0
    ends: float = 15.0


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet, upright: ``width`` is never more than ``height``, mm."""

    name: str
    width: float
    height: float


def _inches(name: str, width: float, height: float) -> Paper:
    # 254 tenths of a mm to the inch, so that 8.5 in is 215.9 mm to the last place
    return Paper(name, width * 254 / 10, height * 254 / 10)


PAPERS = {
    paper.name: paper
    for paper in (
        Paper("a4", 210, 297),
        _inches("letter", 8.5, 11),
        _inches("legal", 8.5, 14),
        Paper("a3", 297, 420),
        _inches("tabloid", 11, 17),
    )
}

ALSO = {
    "us letter": "letter",
    "us legal": "legal",
    "ledger": "tabloid",
    "us ledger": "tabloid",
    "us tabloid": "tabloid",
    "din a4": "a4",
    "din a3": "a3",
}
"""What papers are also called; ledger is what the W3C calls tabloid."""
BOTH = "both"
SHARED = (PAPERS["a4"], PAPERS["letter"])
"""What ``both`` stands for: one layout on the area these two have in common."""

ALLOWED = f"{', '.join(PAPERS)}, {BOTH} (a4 and letter), or a size such as “210 mm x 297 mm”"


def parse_papers(texts: Iterable[str]) -> list[tuple[Paper, tuple[Paper, ...]]]:
    """Return each paper asked for once, with the papers it must share its layout with.

    Raises LengthError for a text that is no paper.
    """
    spec: dict[str, tuple[Paper, tuple[Paper, ...]]] = {}
    for text in texts:
        if text.strip().lower() == BOTH:
            spec |= {paper.name: (paper, SHARED) for paper in SHARED}
        else:
            paper = parse_paper(text)
            spec.setdefault(paper.name, (paper, (paper,)))
    return list(spec.values())


def parse_paper(text: str) -> Paper:
    """Return a paper by name or by size (``210 mm x 297 mm``), turned upright.

    Raises LengthError for anything else.
    """
    said = " ".join(text.lower().replace("-", " ").split())
    name = ALSO.get(said, said)
    if name in PAPERS:
        return PAPERS[name]
    if "x" not in text.lower().replace("×", "x"):
        raise LengthError(f"“{text}” is not a paper", ALLOWED)
    try:
        sides = sorted(side.mm for side in parse_two(text))
    except LengthError as error:
        raise LengthError(error.found, ALLOWED) from None
    if sides[0] < LEAST_SIDE or sides[1] > LARGEST_SIDE:
        raise LengthError(
            f"“{text}” is {decimal(sides[0], 1)} by {decimal(sides[1], 1)} mm",
            f"sides from {decimal(LEAST_SIDE)} mm to {decimal(LARGEST_SIDE)} mm",
        )
    return Paper(f"{decimal(sides[0])}x{decimal(sides[1])}mm", *sides)
