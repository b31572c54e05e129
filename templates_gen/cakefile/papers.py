"""Sheets of paper that a pack can be printed on: one line a size.

Sizes: W3C CSS Paged Media Level 3, "Page size"; large ones ISO 216 and ASME Y14.1.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from templates_gen.cakefile.lengths import CROSS, LengthError, parse_length, parse_two
from templates_gen.units import capital, decimal

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
    """A sheet, upright: ``width`` is never more than ``height``, mm.

    Of a ``roll`` the height is the most that a page may have; it is cut where the pieces end, and
    words go on sheets of ``beside``.
    """

    name: str
    width: float
    height: float
    roll: bool = False

    @property
    def beside(self) -> Paper:
        """The ordinary paper for the words of a roll, under a name of its own."""
        return replace(PAPERS["a4"], name=f"{self.name}-cover")

    @property
    def title(self) -> str:
        """Its name as people write it."""
        return title_of(self.name)


def title_of(paper: str) -> str:
    """Return the name of a paper as people write it: A4, ARCH D, Letter, Roll 610, 210x297."""
    words = paper.replace("-", " ")
    return words.upper() if words.startswith("a") else capital(words)


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
        Paper("a2", 420, 594),
        Paper("a1", 594, 841),
        Paper("a0", 841, 1189),
        _inches("ansi-c", 17, 22),
        _inches("ansi-d", 22, 34),
        _inches("ansi-e", 34, 44),
        _inches("arch-a", 9, 12),
        _inches("arch-b", 12, 18),
        _inches("arch-c", 18, 24),
        _inches("arch-d", 24, 36),
        _inches("arch-e", 36, 48),
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
    "ansi a": "letter",
    "ansi b": "tabloid",
}
"""What papers are also called; ledger is what the W3C calls tabloid."""
BOTH = "both"
SHARED = (PAPERS["a4"], PAPERS["letter"])
"""What ``both`` stands for: one layout on the area these two have in common."""

ROLL = "roll"
ROLLS = ("roll 610 mm", "roll 914 mm")
"""Rolls of the usual widths, as one may write them; any other width will do."""
NARROWEST_ROLL, WIDEST_ROLL = 200.0, 1700.0
ALLOWED = (
    f"{', '.join(PAPERS)}, {BOTH} (a4 and letter), a size such as “210 mm x 297 mm”, or a roll by"
    " its width, such as “roll 610 mm”"
)


def parse_papers(texts: Iterable[str]) -> list[tuple[Paper, tuple[Paper, ...]]]:
    """Return each paper named, once, with the papers it must share its layout with.

    Raises LengthError for a text that is not a paper.
    """
    spec: dict[str, tuple[Paper, tuple[Paper, ...]]] = {}
    for text in texts:
        if text.strip().lower() == BOTH:
            spec |= {paper.name: (paper, SHARED) for paper in SHARED}
        else:
            paper = parse_paper(text)
            spec.setdefault(paper.name, (paper, (paper,)))
    return list(spec.values())


def paper_for_words(text: str) -> Paper:
    """Return the paper for pages of words where the printer has this one; beside a roll it is A4.

    Of several it is the first. Raises LengthError for a text that is not a paper.
    """
    paper = parse_papers([text])[0][0]
    return PAPERS["a4"] if paper.roll else paper


def parse_paper(text: str) -> Paper:
    """Return a paper by name or by size (``210 mm x 297 mm``), turned upright, or a roll.

    Raises LengthError for anything else.
    """
    said = " ".join(text.lower().replace("-", " ").split())
    name = ALSO.get(said, said.replace(" ", "-"))
    if name in PAPERS:
        return PAPERS[name]
    if said.startswith(ROLL):
        return _roll(text, said.removeprefix(ROLL))
    if not CROSS.search(text):
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
    return Paper(f"{decimal(sides[0])}x{decimal(sides[1])}mm", sides[0], sides[1])


def _roll(text: str, width: str) -> Paper:
    """Return a roll by its width; a number without a unit is in mm."""
    try:
        mm = parse_length(width, "mm").mm
    except LengthError as error:
        raise LengthError(error.found, ALLOWED) from None
    if not NARROWEST_ROLL <= mm <= WIDEST_ROLL:
        least, most = decimal(NARROWEST_ROLL), decimal(WIDEST_ROLL)
        raise LengthError(f"“{text}”", f"a roll from {least} mm to {most} mm wide")
    return Paper(f"{ROLL}-{decimal(mm)}", mm, LARGEST_SIDE, roll=True)
