"""Pages of words: how well they are filled, and where the sheets of each tier are listed."""

from __future__ import annotations

import re

import pytest

from templates_gen.cakefile.papers import PAPERS, Margins, parse_papers
from templates_gen.cover.pack import make_pack
from templates_gen.cover.pages import text_space
from templates_gen.plan import make_plan
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.furniture import TO_TAPE_STRAIGHT
from templates_gen.sheets.pack import Pack, Sheet
from tests.cakes import SAMPLES, cake, sample_plan
from tests.prints import packed

NAMES = [path.stem for path in SAMPLES]
MOST = {
    "golden-wedding": ((9, 2), (9, 2)),
    "harbour-wedding": ((5, 2), (5, 2)),
    "lantern-birthday": ((1, 1), (1, 1)),
    "lighthouse-farewell": ((5, 2), (6, 2)),
    "midsummer-tower": ((11, 2), (11, 2)),
    "naming-day": ((4, 1), (4, 2)),
    "paper-garden": ((5, 2), (5, 2)),
    "ruby-wedding": ((9, 2), (9, 2)),
    "starter": ((3, 1), (3, 1)),
}
"""The most sheets of A4, and of Letter, that a sample takes: of pieces, and of words."""
TWO_TIERS = """
[drum]
shape = "square"
[[tier]]
name = "wide; low"
size = "10 in"
depth = "4 in"
[[tier]]
name = "small"
size = "6 in"
depth = "4 in"
"""


def filled(sheet: Sheet, paper: str) -> float:
    """Return what share of the space for words of a page is above the foot of its last line."""
    space = text_space(frame_for(PAPERS[paper], (), Margins()))
    feet = [label.box.y0 for label in sheet.drawing.labels if space.contains(label.box)]
    return (space.y1 - min(feet)) / space.height


def listed(pack: Pack) -> dict[str, set[int]]:
    """Return the sheets of each tier as the cover lists them."""
    words = " ".join(label.text for sheet in pack.sheets for label in sheet.drawing.labels)
    found = re.search(r"Sheets by tier: (.*?)\.", words)
    assert found is not None
    return {
        tier: {
            sheet
            for run in numbers.split(", ")
            for first, _, last in [run.partition("–")]
            for sheet in range(int(first), int(last or first) + 1)
        }
        for tier, numbers in re.findall(r"(.+?) on (\d[\d–, ]*)(?:; |$)", found[1])
    }


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", NAMES)
def test_a_page_of_words_holds_a_third_of_a_page(name: str, paper: str) -> None:
    """Whatever follows a first page of words fills a third of its own or more."""
    pages = [sheet for sheet in packed(name, paper).sheets if not sheet.windows]
    assert pages
    assert len(pages) == 1 or min(filled(page, paper) for page in pages) >= 1 / 3


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", NAMES)
def test_a_sample_takes_few_sheets(name: str, paper: str) -> None:
    """Of pieces and of words, no sample takes more sheets than it is known to need."""
    sheets = packed(name, paper).sheets
    pieces = sum(bool(sheet.windows) for sheet in sheets)
    most = MOST[name][paper == "letter"]
    assert (pieces, len(sheets) - pieces) <= most
    assert len(sheets) - pieces <= most[1]


def words_of(text: str) -> str:
    """Return all words of the cover of a cake."""
    pack = make_pack(make_plan(cake(text)), PAPERS["a4"])
    pages = (sheet for sheet in pack.sheets if not sheet.windows)
    return " ".join(label.text for page in pages for label in page.drawing.labels)


def test_what_has_no_sheet_is_listed_once() -> None:
    """With what to do, or else in the list of pieces; what is the same of two tiers once."""
    tier = "[[tier]]\nname='{}'\nsize='{} in'\ndepth='4 in'\n"
    mould = "cover='panelled'\n[tier.panels]\nmould='70 mm'\n"
    said = words_of(tier.format("low", 10) + tier.format("top", 6) + mould)
    assert said.count("rolling-out circle") == 2  # to cut, and what to do with it
    assert "low: rolling-out circle (circle guide): Roll" in said
    assert "top: top disc: Draw it on parchment with the circle guide" in said


def test_the_cover_says_once_that_nothing_is_structural_advice() -> None:
    """Of two tiers among the cautions, which hold for all of it."""
    tier = "[[tier]]\nsize='{} in'\ndepth='4 in'\n"
    assert words_of(tier.format(10) + tier.format(6)).count("not structural advice") == 1


def test_the_cover_gives_both_sizes_of_a_hexagon() -> None:
    """A tin is bought across flats: corner to corner alone would be taken for it."""
    tier = "[[tier]]\nshape = 'polygon'\nsides = 6\nsize = '200 mm'\ndepth = '100 mm'\n"
    plan = make_plan(cake("[drum]\nshape = 'hexagon'\nsize = '300 mm'\n" + tier))
    sheets = make_pack(plan, PAPERS["a4"]).sheets
    labels = [label.text for sheet in sheets for label in sheet.drawing.labels]
    words = " ".join(labels)
    assert "200 mm (7⅞ in) across flats, 230.9 mm (9 1/16 in) corner to corner" in words
    assert "300 mm (11 13/16 in) across flats, 346.4 mm (13⅝ in) corner to corner" in words
    assert "drum 346.4 mm (13⅝ in) corner to corner" in labels


@pytest.mark.parametrize(("count", "has_picture"), [(6, True), (12, False)])
def test_the_picture_of_many_letter_cakes_is_on_the_page_or_left_out(
    count: int, has_picture: bool
) -> None:
    """On small paper twelve of them are taller than a page; all words still lie on theirs."""
    letters = count * "[[letter_cake]]\ntext = 'I'\n"
    (small, _), *_ = parse_papers(["148 x 210 mm"])
    pack = make_pack(make_plan(cake(letters)), small)
    words = [sheet.drawing.labels for sheet in pack.sheets if not sheet.windows]
    assert any(label.text == "The cake" for page in words for label in page) == has_picture
    assert all(pack.area.contains(label.box, 0.1) for page in words for label in page)


def test_the_cover_lists_the_sheets_of_each_tier() -> None:
    """Each tier, the drum and what belongs to the whole cake, with the sheets that show it."""
    plan = make_plan(cake(TWO_TIERS))
    pack = make_pack(plan, PAPERS["a4"])
    shown: dict[str, set[int]] = {}
    for sheet in pack.sheets:
        for window in sheet.windows:
            tier = "whole cake" if window.piece.tier == "pack" else window.piece.tier
            shown.setdefault(tier, set()).add(sheet.number)
    assert {"drum", "wide; low", "whole cake"} <= set(shown)
    assert listed(pack) == shown


def test_what_to_do_with_pieces_is_said_once_for_the_same_of_several_tiers() -> None:
    """Two tiers rolled out alike share a sentence; one that is thicker has its own."""
    tier = "[[tier]]\nname='{}'\nsize='{} in'\ndepth='4 in'\ncover='drape'\nfondant='{} mm'\n"
    spec = cake(tier.format("low", 10, 5) + tier.format("middle", 8, 4) + tier.format("top", 6, 4))
    cover = make_pack(make_plan(spec), PAPERS["a4"]).sheets[:2]
    said = " ".join(label.text for sheet in cover for label in sheet.drawing.labels)
    assert said.count("rolling-out circle (circle guide): Roll") == 2
    assert "low: rolling-out circle (circle guide): Roll" in said
    assert "middle, top: rolling-out circle (circle guide): Roll" in said


@pytest.mark.parametrize(
    ("name", "paper", "scale", "pages"),
    [
        ("golden-wedding", "letter", 20, 2),
        ("midsummer-tower", "a4", 10, 2),
        ("ruby-wedding", "letter", 8, 2),
        ("starter", "a4", 15, 1),
        ("lantern-birthday", "a4", 5, 1),
    ],
)
def test_the_picture_takes_the_room_there_is(
    name: str, paper: str, scale: float, pages: int
) -> None:
    """It is as large as it can be on no more pages; in a column it may have names alone."""
    pack = make_pack(sample_plan(name), PAPERS[paper])
    cover = [sheet for sheet in pack.sheets if not sheet.windows]
    assert len(cover) == pages
    said = next(each.text for each in cover[0].drawing.labels if each.text.startswith("Scale 1 : "))
    assert float(said.split()[3].rstrip(".")) <= scale


@pytest.mark.parametrize(("name", "says"), [("harbour-wedding", True), ("naming-day", False)])
def test_the_cover_says_what_triangles_are_for(name: str, says: bool) -> None:
    """Where narrow parts have some that their sheets do not explain in full; the sheet too."""
    pack = packed(name, "a4")
    cover = [sheet for sheet in pack.sheets if not sheet.windows]
    said = " ".join(label.text for page in cover for label in page.drawing.labels)
    assert ("triangles along one ruler" in said) == says
    pieces = [sheet for sheet in pack.sheets if sheet.windows]
    words = [label.text for sheet in pieces for label in sheet.drawing.labels]
    assert (TO_TAPE_STRAIGHT in words) == says
