"""Paper sizes against published tables, and papers of one's own."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.lib import pagesizes

from templates_gen.cakefile.lengths import LengthError
from templates_gen.cakefile.papers import PAPERS, Paper, parse_paper, parse_papers

# W3C CSS Paged Media Level 3, "Page size"; tabloid is its ledger
W3C = {
    "a4": (210, 297),
    "letter": (8.5 * 25.4, 11 * 25.4),
    "legal": (8.5 * 25.4, 14 * 25.4),
    "a3": (297, 420),
    "tabloid": (11 * 25.4, 17 * 25.4),
}
# ISO 216, and ASME Y14.1 from memory; ansi-a and ansi-b are letter and tabloid
LARGE = {
    "a2": (420, 594),
    "a1": (594, 841),
    "a0": (841, 1189),
    "ansi-c": (17 * 25.4, 22 * 25.4),
    "ansi-d": (22 * 25.4, 34 * 25.4),
    "ansi-e": (34 * 25.4, 44 * 25.4),
    "arch-a": (9 * 25.4, 12 * 25.4),
    "arch-b": (12 * 25.4, 18 * 25.4),
    "arch-c": (18 * 25.4, 24 * 25.4),
    "arch-d": (24 * 25.4, 36 * 25.4),
    "arch-e": (36 * 25.4, 48 * 25.4),
}
# Ghostscript 10.0, Resource/Init/gs_statd.ps, in points
GHOSTSCRIPT = {
    "a2": (1191, 1684),
    "a1": (1684, 2384),
    "a0": (2384, 3370),
    "arch-a": (648, 864),
    "arch-b": (864, 1296),
    "arch-c": (1296, 1728),
    "arch-d": (1728, 2592),
    "arch-e": (2592, 3456),
}
# the table of another program, in points
REPORTLAB = {
    "a4": pagesizes.A4,
    "letter": pagesizes.LETTER,
    "legal": pagesizes.LEGAL,
    "a3": pagesizes.A3,
    "tabloid": pagesizes.TABLOID,
}


@pytest.mark.parametrize("name", PAPERS)
def test_published_size(name: str) -> None:
    """Each paper has the size the W3C gives it, upright."""
    paper = PAPERS[name]
    assert (paper.width, paper.height) == pytest.approx((W3C | LARGE)[name], abs=1e-9)
    assert paper.width < paper.height


@pytest.mark.parametrize("name", PAPERS)
def test_size_elsewhere(name: str) -> None:
    """Each paper has the size another program's table gives it."""
    paper = PAPERS[name]
    points = (paper.width / 25.4 * 72, paper.height / 25.4 * 72)
    if name in REPORTLAB:
        assert points == pytest.approx(REPORTLAB[name], abs=1e-6)
    if name in GHOSTSCRIPT:  # which rounds to whole points
        assert points == pytest.approx(GHOSTSCRIPT[name], abs=0.6)


@pytest.mark.parametrize("name", PAPERS)
@pytest.mark.parametrize("spelling", [str, str.upper, lambda name: f" {name} "])
def test_name(name: str, spelling: object) -> None:
    """A paper is found by its name, in capitals and between blanks too."""
    assert callable(spelling)
    assert parse_paper(spelling(name)) is PAPERS[name]


def test_a_size_is_written_with_a_cross_or_in_words() -> None:
    """The page reads tins the same way."""
    assert parse_paper("8.5 by 13 in") == parse_paper("8.5x13 in") == parse_paper("8.5 in × 13 in")


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("us letter", "letter"),
        ("US Letter", "letter"),
        ("US-Letter", "letter"),
        (" us  legal", "legal"),
        ("Ledger", "tabloid"),
        ("DIN A4", "a4"),
        ("ARCH D", "arch-d"),
        ("ansi b", "tabloid"),
    ],
)
def test_other_name(text: str, name: str) -> None:
    """A paper is found by what else it is called."""
    assert parse_paper(text) is PAPERS[name]


@pytest.mark.parametrize(
    "text",
    [
        "210 mm x 297 mm",
        "210 x 297 mm",
        "210x297mm",
        "297 mm × 210 mm",
        "21 cm x 29,7 cm",
        "21 cm X 297 mm",
    ],
)
def test_own_size(text: str) -> None:
    """A size in any spelling, on its side too, is one and the same upright paper."""
    assert parse_paper(text) == Paper("210x297mm", 210, 297)


def test_own_size_in_inches() -> None:
    """A size may be in inches, with fractions."""
    paper = parse_paper('8 1/2" x 11"')
    letter = PAPERS["letter"]
    assert (paper.width, paper.height) == pytest.approx((letter.width, letter.height))


@pytest.mark.parametrize(
    "text",
    ["", "a5", "210", "210 mm", "210 x 297", "x", "210 mm x", "x 297 mm", "1 mm x 2 mm",
     "210 mm x 297 mm x 5 mm", "210 mm x -297 mm", "99 mm x 200 mm", "210 mm x 5081 mm",
     "nan mm x 210 mm", "210 in x 297 in", "a4 x a4", "roll", "roll 3 m", "roll 100 mm", "rolls"],
)  # fmt: skip
def test_refused(text: str) -> None:
    """What is no paper, or no page that a PDF can have, is refused."""
    with pytest.raises(LengthError):
        parse_paper(text)


@given(st.integers(100, 2000), st.integers(100, 2000))
def test_upright(first: int, second: int) -> None:
    """Any paper is upright, and has the same name whichever side is given first."""
    paper = parse_paper(f"{first} mm x {second} mm")
    assert paper == parse_paper(f"{second} x {first} mm")
    assert (paper.width, paper.height) == (min(first, second), max(first, second))


@pytest.mark.parametrize("text", ["roll 610 mm", "Roll-610", "roll 61 cm", " roll  610mm"])
def test_roll(text: str) -> None:
    """A roll is called by its width, in mm where no unit is given."""
    paper = parse_paper(text)
    assert (paper.name, paper.width, paper.roll) == ("roll-610", 610, True)
    assert parse_paper("roll 24 in").width == pytest.approx(609.6)


def test_both() -> None:
    """Both stands for A4 and Letter, each laid out on what the two have in common."""
    a4, letter = PAPERS["a4"], PAPERS["letter"]
    assert parse_papers(["both"]) == [(a4, (a4, letter)), (letter, (a4, letter))]


@pytest.mark.parametrize("spec", [["both", "a4"], ["a4", "both"], ["both", "letter", "Both"]])
def test_both_stays_shared(spec: list[str]) -> None:
    """A paper that is also asked for alone keeps the layout that it shares."""
    assert {shared for _, shared in parse_papers(spec)} == {(PAPERS["a4"], PAPERS["letter"])}


def test_once_each() -> None:
    """A paper asked for twice is made once, in the order of asking."""
    papers = [paper.name for paper, _ in parse_papers(["a3", "A4", "a3", " a4"])]
    assert papers == ["a3", "a4"]


def test_a_name_each() -> None:
    """Papers of different sizes have different names, as their files must."""
    assert parse_paper("210 x 297 mm").name != parse_paper("210.04 x 297 mm").name
