"""Pages of words: how well they are filled, and where the sheets of each tier are listed."""

from __future__ import annotations

import re

import pytest

from templates_gen.cakefile.papers import PAPERS, Margins
from templates_gen.cover.pack import make_pack
from templates_gen.cover.pages import text_space
from templates_gen.plan import make_plan
from templates_gen.sheets.frame import frame_for
from templates_gen.sheets.pack import Pack, Sheet
from tests.cakes import SAMPLES, cake
from tests.prints import packed

NAMES = [path.stem for path in SAMPLES]
MOST = {
    "golden-wedding": (14, 3),
    "harbour-wedding": (7, 2),
    "lantern-birthday": (3, 1),
    "lighthouse-farewell": (7, 2),
    "midsummer-tower": (12, 2),
    "naming-day": (6, 1),
    "paper-garden": (6, 2),
    "ruby-wedding": (11, 2),
    "starter": (4, 1),
}
"""The most A4 sheets that a sample takes: of pieces, and of words."""
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


@pytest.mark.parametrize("name", NAMES)
def test_a_sample_takes_few_sheets(name: str) -> None:
    """Of pieces and of words, no sample takes more A4 sheets than it is known to need."""
    sheets = packed(name, "a4").sheets
    pieces = sum(bool(sheet.windows) for sheet in sheets)
    assert pieces <= MOST[name][0]
    assert len(sheets) - pieces <= MOST[name][1]


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
    assert said.count("rolling-out circle: Roll") == 2
    assert "low: rolling-out circle: Roll" in said
    assert "middle, top: rolling-out circle: Roll" in said
