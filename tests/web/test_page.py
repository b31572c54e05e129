"""The page in a real browser, as a decorator uses it."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, Route, expect

from templates_gen.bench.bench_list import bench
from templates_gen.bench.day_plan import days
from templates_gen.bench.report import sections
from templates_gen.bench.section import ASSUMPTIONS, PORTIONS, SHOPPING, TIMES
from tests.cakes import SAMPLES, sample_plan
from tests.cli.command import call
from tests.judges import run as judged
from tests.web.conftest import script, settle, start_from, until
from tests.web.server import Server

LEAST_TOUCH = 44.0
"""Side of what a finger meets, CSS px: WCAG 2.2, success criterion 2.5.5."""
SCHEMES: tuple[Literal["light", "dark"], ...] = ("light", "dark")
MOST_CLICKS = 12
RESTED = 600
"""ms after which the picture is drawn in full."""


def tier(page: Page, place: int, part: str = "size") -> None:
    """Open the panel of a tier, and a part of it."""
    page.locator(f"[id='go-tier.{place}']").click()
    page.locator(f"#tab-{part}").click()


def reach(page: Page, id_: str) -> None:
    """Go to a control with the tab key alone; it must be seen that one is there."""
    assert page.locator(f"[id='{id_}']").count() == 1, f"there is no {id_}"
    found = page.evaluate(
        "id => { const t = document.getElementById(id), a = document.activeElement;"
        " return Boolean(a.compareDocumentPosition(t) & Node.DOCUMENT_POSITION_PRECEDING) }",
        id_,
    )
    for _ in range(200):
        if page.evaluate("document.activeElement.id") == id_:
            width = page.evaluate(
                "parseFloat(getComputedStyle(document.activeElement).outlineWidth)"
            )
            assert width >= 2, f"{id_} does not show that it has the focus"
            return
        page.keyboard.press("Shift+Tab" if found else "Tab")
    raise AssertionError(f"the tab key does not reach {id_}")


def press(page: Page, id_: str) -> None:
    """Press a button with the keyboard."""
    reach(page, id_)
    page.keyboard.press("Enter")


def cake_now(page: Page, tmp_path: Path) -> dict[str, Any]:
    """Save the cake, and return what is in the file."""
    settle(page)
    with page.expect_download() as download:
        page.locator("#save").click()
    saved = tmp_path / "saved.toml"
    saved.write_bytes(Path(download.value.path()).read_bytes())
    return tomllib.loads(saved.read_text("utf-8"))


@pytest.fixture
def blank(server: Server, chromium: Browser) -> Iterator[Page]:
    """Open the page as on a first visit, with an empty cake."""
    context = chromium.new_context(locale="en-GB", accept_downloads=True, reduced_motion="reduce")
    page = context.new_page()
    page.goto(server.address, wait_until="domcontentloaded")
    page.wait_for_selector("#stack-line")
    yield page
    context.close()


def test_three_tiers_with_drips_panels_and_a_name_from_blank(blank: Page, tmp_path: Path) -> None:
    """In so few clicks; the count is of every press of the button of the mouse."""
    blank.evaluate(
        "window.clicks = 0; addEventListener('pointerdown', () => { window.clicks += 1 }, true)"
    )
    blank.locator("#stack-line").click()
    blank.keyboard.type("10x5, 8x5, 6x4")
    blank.locator("#stack-make").click()
    blank.wait_for_selector("#tab-decorate")
    blank.locator("#tab-decorate").click()
    blank.get_by_role("button", name="Add panels: one row at the base").click()
    blank.locator("[id='go-tier.1']").click()
    blank.get_by_role("button", name="Add drips: wave").click()
    blank.locator("[id='go-tier.2']").click()
    blank.get_by_role("button", name="Add lettering: name on the top").click()
    blank.keyboard.type("Robin")
    assert blank.evaluate("window.clicks") <= MOST_CLICKS
    settle(blank)
    assert blank.locator("#figure-problems").count() == 0
    saved = cake_now(blank, tmp_path)
    bottom, middle, top = saved["tier"]
    assert [each["size"] for each in saved["tier"]] == ["10 in", "8 in", "6 in"]
    assert bottom["panels"]
    assert middle["drips"] == {"pattern": "wave"}
    assert top["lettering"] == [{"text": "Robin", "on": "top"}]


def test_nothing_is_called_automatic_that_a_tier_does_not_have(page: Page) -> None:
    """A tier whose top is not said is upright; its coating has a thickness all the same."""
    tier(page, 0)
    page.locator("#panel summary").click()
    expect(page.locator("#f-tier-0-top_size")).to_have_attribute("placeholder", "such as 6 in")
    expect(page.locator("#f-tier-0-colour")).to_have_attribute("placeholder", "automatic, or ivory")


def test_a_draped_tier_is_combed_without_its_fondant(blank: Page, tmp_path: Path) -> None:
    """The button says what it takes, as only buttercream and ganache are combed."""
    page = blank
    page.locator("#stack-line").fill("8, 6")
    page.keyboard.press("Enter")
    tier(page, 1, "decorate")
    page.get_by_role("button", name="Take off the fondant and comb the sides").click()
    settle(page)
    found = cake_now(page, tmp_path)["tier"][1]
    assert (found["cover"], found["comb"]) == ("none", {})
    expect(page.locator("#figure-problems")).to_have_count(0)
    page.locator("#remove").click()
    expect(page.get_by_role("button", name="Add combed sides")).to_be_visible()


def test_a_shape_leaves_nothing_behind(page: Page, tmp_path: Path) -> None:
    """What only one shape has goes with it, and is there again when that comes back."""
    tier(page, 3)
    before = cake_now(page, tmp_path)["tier"][3]
    for shape in ("polygon", "petal"):
        page.locator(f"#f-tier-3-shape-{shape}").check(force=True)
        settle(page)
    page.locator("#f-tier-3-lobes").fill("5")
    page.locator("#f-tier-3-shape-round").check(force=True)
    settle(page)
    assert cake_now(page, tmp_path)["tier"][3] == before
    page.locator("#f-tier-3-shape-petal").check(force=True)
    settle(page)
    expect(page.locator("#f-tier-3-lobes")).to_have_value("5")


def test_a_pattern_is_chosen_with_what_it_needs(page: Page, tmp_path: Path) -> None:
    """Lengths and a line to begin with, in sight; each pattern has a picture to choose it by."""
    tier(page, 3, "decorate")
    page.locator("[id='f-tier-3-drips']").click()
    words = [
        each.get_attribute("value")
        for each in page.locator("[name='f-tier-3-drips-pattern']").all()
    ]
    for word in words:
        card = page.locator(f"label:has(#f-tier-3-drips-pattern-{word})")
        until(page, f"document.querySelector('label:has(#f-tier-3-drips-pattern-{word}) path')")
        card.click()
        until(page, f"document.querySelector('#f-tier-3-drips-pattern-{word}').checked")
        settle(page)
        assert page.locator("#figure-problems").count() == 0, word
        for key in {"listed": ["lengths"], "drawn": ["line"]}.get(str(word), []):
            assert page.locator(f"#f-tier-3-drips-{key}").is_visible()


def test_what_raises_a_tier_is_chosen_beside_how_high(page: Page, tmp_path: Path) -> None:
    """Both are found where a tier is put up, and a word is chosen in a table not there before."""
    tier(page, 3, "support")
    page.locator("#f-tier-3-raised").fill("3 in")
    page.locator("#f-tier-3-separator").click()
    page.get_by_label("Spacer", exact=True).check()
    settle(page)
    saved = cake_now(page, tmp_path)["tier"][3]
    assert saved["raised"] == "3 in"
    assert saved["separator"] == {"kind": "spacer"}


def test_what_has_happened_is_said_for_a_while(page: Page) -> None:
    """It does not stay for ever; what lasts does."""
    page.clock.install()
    page.locator("[id='go-tier.1']").click()
    page.get_by_role("button", name="Remove:").click()
    expect(page.locator("#said")).not_to_be_empty()
    page.clock.fast_forward(30_000)
    expect(page.locator("#said")).to_be_empty()


def test_what_has_happened_is_said_where_one_is(page: Page, tmp_path: Path) -> None:
    """A file that is none is chosen far down the page: its message is in sight, in one sentence."""
    file = tmp_path / "photo.toml"
    file.write_text("nonsense")
    page.locator("#tab-decorate, [id='go-tier.1']").first.click()
    page.locator("#tab-decorate").click()
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
    page.locator("#file").set_input_files(file)
    expect(page.locator("#said")).to_contain_text(
        "cannot be read as a cake file. photo.toml, line 1"
    )
    expect(page.locator("#said")).to_be_in_viewport()
    assert page.evaluate("scrollY") > 500


def test_the_calendar_is_offered_with_the_plan_by_day_alone(page: Page) -> None:
    """It is the same plan, for a calendar."""
    page.locator("[data-view=bench-view]").first.click()
    for each in ("bench", "days", "shopping", "portions"):
        page.locator(f"[data-list={each}]").click()
        assert page.locator("#calendar").is_visible() == (each == "days")


def test_a_cake_is_planned_and_printed_by_keyboard_alone(blank: Page, tmp_path: Path) -> None:
    """The PDF has the bytes that the command line makes of the file that was saved."""
    reach(blank, "stack-line")
    blank.keyboard.type("10x4, 6x4 square")
    blank.keyboard.press("Enter")
    blank.wait_for_selector("#tab-decorate")
    press(blank, "tab-decorate")
    add = blank.get_by_role("button", name="Add drips: even")
    add.evaluate("each => { each.id = 'add-even' }")
    press(blank, "add-even")
    reach(blank, "f-tier-0-drips-longest")
    blank.keyboard.type("30 mm")
    press(blank, "go-tier.1")
    press(blank, "tab-size")
    reach(blank, "f-tier-1-shape-square")
    blank.keyboard.press("ArrowRight")
    blank.wait_for_selector("#f-tier-1-short")
    press(blank, "undo")
    until(blank, "document.getElementById('f-tier-1-shape-square')?.checked")
    saved = cake_now(blank, tmp_path)
    assert saved["tier"][1]["shape"] == "square"
    blank.locator("[data-view=print]").first.evaluate("each => { each.id = 'to-print' }")
    press(blank, "to-print")
    with blank.expect_download() as download:
        press(blank, "download")
    call("pack", tmp_path / "saved.toml", "--format", "pdf", "--out", tmp_path / "out")
    name = download.value.suggested_filename
    assert Path(download.value.path()).read_bytes() == (tmp_path / "out" / name).read_bytes()


def test_a_first_visit_shows_samples_and_how_to_check_the_print(blank: Page) -> None:
    """Each sample by its picture, and the three lines of the check."""
    assert blank.locator(".samples .card").count() == len(SAMPLES)
    lines = blank.locator(".print-check li").all_inner_texts()
    assert len(lines) == 3
    assert "100 %" in lines[0]
    assert "150 mm" in lines[1]
    assert "100 mm" in lines[2]


def test_nothing_stands_empty_before_there_is_a_cake(blank: Page) -> None:
    """No picture of nothing, nothing to print; the invitation has the width of the window."""
    assert blank.locator(".picture").is_hidden()
    panel, samples = (
        blank.locator("#panel").bounding_box(),
        blank.locator(".gallery").bounding_box(),
    )
    assert panel is not None
    assert samples is not None
    assert panel["width"] > 0.9 * 1280
    assert samples["x"] > 0.3 * 1280
    blank.locator(".views [data-view=print]").click()
    expect(blank.locator("#count")).to_contain_text("make a cake first")
    for button in blank.locator(".print-now, #download").all():
        assert button.is_disabled()


def test_a_line_that_is_no_stack_says_what_is(blank: Page) -> None:
    """At the field, in words, and nothing is made."""
    blank.locator("#stack-line").fill("a big one")
    blank.locator("#stack-make").click()
    expect(blank.locator("#stack-problem")).to_contain_text("such as 10x5, 8x5, 6x4")
    assert blank.locator("[id^='go-tier']").count() == 0
    expect(blank.locator("#stack-line")).to_be_focused()


def test_who_types_a_unit_is_told_all_in_it(blank: Page) -> None:
    """Without choosing it; sizes of two units leave what was chosen."""
    blank.locator("#stack-line").fill("20 cm hexagon, 15 cm heart")
    blank.locator("#stack-make").click()
    settle(blank)
    expect(blank.locator("#figure-height")).to_contain_text("cm")
    blank.locator("#tab-support").click()
    assert "cm" in (blank.locator("#f-tier-0-board").get_attribute("placeholder") or "")
    blank.locator("#new").click()
    blank.get_by_label("inches", exact=True).check()
    blank.locator("#stack-line").fill("20 cm, 6 in")
    blank.locator("#stack-make").click()
    settle(blank)
    expect(blank.locator("#figure-height")).to_contain_text("in")


def test_a_tier_is_shown_as_it_is_beside_its_name(blank: Page) -> None:
    """Also of one that was just made, whose size the server sent after its panel was shown."""
    blank.locator("#stack-line").fill("10x5")
    blank.locator("#stack-make").click()
    blank.wait_for_selector(".tier-head")
    settle(blank)
    expect(blank.locator(".tier-head .silhouette")).to_have_count(1)
    expect(blank.locator(".tier-head .silhouette.unknown")).to_have_count(0)


def test_a_number_cake_is_begun_without_a_tier(blank: Page, tmp_path: Path) -> None:
    """Who bakes a 7 needs no stack first, and types it over the example."""
    blank.locator("#start-letters").click()
    expect(blank.locator("#f-letter_cake-0-text")).to_be_focused()
    blank.keyboard.type("7")
    made = cake_now(blank, tmp_path)
    assert "tier" not in made
    assert [each["text"] for each in made["letter_cake"]] == ["7"]


def test_a_mistake_is_told_at_its_field(page: Page) -> None:
    """With what was found, what is accepted, what to do, in the words of the page; then it goes."""
    tier(page, 1)
    field = page.locator("#f-tier-1-depth")
    field.fill("6 furlongs")
    settle(page)
    expect(page.locator(".cake-stage.old canvas")).to_be_visible()  # greyed out, not gone
    told = page.locator("#f-tier-1-depth-problem").inner_text()
    assert "furlongs" in told
    assert "Accepted" in told
    assert "depth =" not in told
    assert field.get_attribute("aria-invalid") == "true"
    page.locator("#go-cake").click()
    page.get_by_role("button", name="1 thing to fix").click()
    page.get_by_role("button", name="Depth, second tier").click()
    expect(field).to_be_focused()
    field.fill("6½")
    settle(page)
    assert page.locator("#figure-problems").count() == 0
    assert field.input_value() == "6½"


def test_an_unknown_key_of_a_file_is_renamed_or_removed(page: Page, tmp_path: Path) -> None:
    """The page says so in its own words and offers both."""
    file = tmp_path / "odd.toml"
    file.write_text('colour = 1\n[[tier]]\nsize = "8 in"\ndepth = "4 in"\nshap = "square"\n')
    page.locator("#file").set_input_files(file)
    page.get_by_role("button", name="2 things to fix").click()
    page.get_by_role("button", name="Remove “colour”").click()
    settle(page)
    assert page.get_by_label("New name of “shap”").input_value() == "shape"
    page.get_by_role("button", name="Rename").click()
    settle(page)
    assert page.locator("#figure-problems").count() == 0
    assert cake_now(page, tmp_path)["tier"][0]["shape"] == "square"


@pytest.mark.parametrize("size", [200_000, 30_000_000])
def test_a_file_that_is_too_large_is_refused_in_words(
    blank: Page, tmp_path: Path, size: int
) -> None:
    """By its name and before it is sent."""
    file = tmp_path / "large.toml"
    file.write_text("#" * size)
    blank.locator("#file").set_input_files(file)
    expect(blank.locator("#said")).to_have_text(
        "“large.toml” is larger than 100 kB. A cake file is a short text: choose the one that Save"
        " made."
    )


@pytest.mark.parametrize(
    ("name", "where"),
    [("leaf.svg", "at a design"), ("Hand.TTF", "at the lettering"), ("class.csv", "For a class"),
     ("cake.pdf", "that Save made")],
)  # fmt: skip
def test_what_is_opened_in_place_of_a_cake_file_is_told_where_it_belongs(
    blank: Page, tmp_path: Path, name: str, where: str
) -> None:
    """Not that its quotes and brackets are wrong."""
    file = tmp_path / name
    file.write_text("<svg xmlns='http://www.w3.org/2000/svg'/>")
    blank.locator("#file").set_input_files(file)
    expect(blank.locator("#said")).to_contain_text(f"“{name}” ")
    expect(blank.locator("#said")).to_contain_text(where)


def test_files_that_are_too_large_together_are_refused_in_words(
    blank: Page, tmp_path: Path
) -> None:
    """Whichever server it is that turns them away."""
    design = '[[tier.design]]\nkind = "artwork"\nfile = "{}"\n'
    drawn = [tmp_path / f"{number}.svg" for number in range(3)]
    for each in drawn:
        each.write_text(f"<!--{'x' * 600_000}--><svg xmlns='http://www.w3.org/2000/svg'/>")
    cake = tmp_path / "large.toml"
    tier = '[[tier]]\nsize = "8 in"\ndepth = "4 in"\n'
    for count in (2, 3):
        cake.write_text(tier + "".join(design.format(each.name) for each in drawn[:count]))
        blank.locator("#file").set_input_files([cake, *drawn[:count]])
        expect(blank.locator("#panel")).to_contain_text("1 MB: use a smaller file")


def test_a_cake_that_is_wrong_shows_nothing_of_the_one_before(page: Page, tmp_path: Path) -> None:
    """Neither its picture nor its figures; the picture comes once the mistake is mended."""
    file = tmp_path / "odd.toml"
    file.write_text('[[tier]]\nsize = "8 in"\ndepth = "4 in"\nshap = "square"\n')
    page.locator("#file").set_input_files(file)
    expect(page.locator("#panel-title")).to_have_text("Check")  # at once, as nothing else helps
    expect(page.locator(".hint.wrong")).to_be_visible()
    assert page.locator("#cake").is_hidden()
    assert page.locator("#figures button").all_inner_texts() == ["1 thing to fix"]
    page.get_by_role("button", name="Rename").click()
    settle(page)
    expect(page.locator(".cake-canvas")).to_be_visible()


def test_a_file_of_letters_alone_is_a_cake(page: Page, tmp_path: Path) -> None:
    """It is shown and listed without tiers, not met with the invitation to begin one."""
    file = tmp_path / "letters.toml"
    file.write_text('title = "Ten"\n[[letter_cake]]\ntext = "10"\ncap_height = "25 cm"\n')
    page.locator("#file").set_input_files(file)
    expect(page.get_by_role("textbox", name="Name of the cake")).to_have_value("Ten")
    settle(page)
    expect(page.locator(".cake-canvas")).to_be_visible()
    assert not page.locator("body.empty").count()
    assert page.locator("#figure-problems").count() == 0
    assert cake_now(page, tmp_path).keys() == {"title", "letter_cake"}


def test_a_click_on_the_picture_opens_what_is_there(page: Page) -> None:
    """What is clicked in the middle is a tier or something on it, and its panel opens."""
    until(page, "document.querySelector('.cake-canvas').dataset.shown")
    page.locator(".cake-canvas").click()
    assert page.locator("[id^='go-tier.'][aria-current]").count() == 1


def test_the_cake_is_turned_with_the_arrow_keys(page: Page) -> None:
    """The picture changes, and changes back; it says from where one looks."""
    seen = "document.querySelector('.cake-canvas').toDataURL()"
    until(page, "document.querySelector('.cake-canvas').dataset.shown")
    picture = page.locator(".cake-canvas")
    page.wait_for_timeout(RESTED)
    before = page.evaluate(seen)
    picture.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_timeout(RESTED)
    assert "5 degrees to the left" in (picture.get_attribute("aria-label") or "")
    assert page.evaluate(seen) != before
    page.keyboard.press("ArrowLeft")
    page.wait_for_timeout(RESTED)
    assert page.evaluate(seen) == before


def test_tiers_are_moved_copied_and_removed(page: Page) -> None:
    """From the top of the cake down; each step can be undone and redone."""
    names = page.locator("#stack button[id^='go-tier'] b")
    tier(page, 3)
    page.get_by_role("button", name="Down: top").click()
    assert names.all_inner_texts() == ["Third", "Top", "Second", "Bottom"]
    tier(page, 0)
    page.get_by_role("button", name="Copy: bottom").click()
    assert names.all_inner_texts()[-2:] == ["Bottom 2", "Bottom"]
    page.get_by_role("button", name="Remove: bottom 2").click()
    settle(page)
    assert names.all_inner_texts() == ["Third", "Top", "Second", "Bottom"]
    page.locator("#undo").click()
    assert names.all_inner_texts()[-2:] == ["Bottom 2", "Bottom"]
    page.locator("#redo").click()
    assert len(names.all_inner_texts()) == 4


def test_tiers_that_are_called_by_their_place_follow_it(blank: Page, tmp_path: Path) -> None:
    """A cake without its second tier has a middle one, and a cascade starts where it did."""
    names = blank.locator("#stack button[id^='go-tier'] b")
    blank.locator("#stack-line").fill("12x5, 10x5, 8x4, 6x4")
    blank.locator("#stack-make").click()
    expect(names).to_have_text(["Top", "Tier 3", "Tier 2", "Bottom"])
    blank.locator("#go-cake").click()
    blank.get_by_role("button", name="Add flowers, garlands and cascades: flowers").click()
    blank.locator(".panel details summary", has_text="More").click()
    blank.locator("#f-cascade-0-start").fill("tier 3")
    blank.locator("#f-cascade-0-end").fill("tier 2")
    tier(blank, 1)
    blank.get_by_role("button", name="Remove: tier 2").click()
    expect(names).to_have_text(["Top", "Middle", "Bottom"])
    (cascade,) = cake_now(blank, tmp_path)["cascade"]
    assert cascade["start"] == "middle"
    assert "end" not in cascade  # its tier is gone
    tier(blank, 2)
    blank.get_by_role("button", name="Down: top").click()
    expect(names).to_have_text(["Top", "Middle", "Bottom"])
    assert [each["size"] for each in cake_now(blank, tmp_path)["tier"]] == ["12 in", "6 in", "8 in"]
    blank.locator("#add-tier").click()
    expect(names).to_have_text(["Top", "Tier 3", "Tier 2", "Bottom"])
    assert cake_now(blank, tmp_path)["cascade"][0]["start"] == "tier 3"
    blank.locator("#f-tier-3-name").fill("crown")
    tier(blank, 0)
    blank.get_by_role("button", name="Copy: bottom").click()
    expect(names).to_have_text(["Crown", "Tier 3", "Tier 2", "Bottom 2", "Bottom"])


def _mm(page: Page) -> list[str]:
    """Return all sizes of the tiers in mm, which the list has beside any unit."""
    return re.findall(r"[\d.]+ mm", page.locator("#sizes").inner_text())


def test_the_unit_is_switched_and_the_cake_stays(page: Page) -> None:
    """Numbers without a unit are converted, and back; typed units stay."""
    before = _mm(page)
    assert before
    page.get_by_label("cm", exact=True).check()
    settle(page)
    tier(page, 0)
    expect(page.locator("#f-tier-0-size")).to_have_value("25.4")
    assert _mm(page) == before
    page.locator("#go-cake").click()
    page.get_by_label("inches", exact=True).check()
    settle(page)
    tier(page, 0)
    expect(page.locator("#f-tier-0-size")).to_have_value("10")
    assert _mm(page) == before


def test_what_is_done_while_the_unit_is_switched_stays(page: Page) -> None:
    """What is typed before the answer is there is still there after it, in the new unit."""
    held: list[Any] = []
    page.route("**/convert*", lambda route: route.continue_() if held else held.append(route))
    page.get_by_label("cm", exact=True).check()
    page.locator("#f-title").fill("Meanwhile")
    settle(page)
    held[0].continue_()
    tier(page, 0)
    expect(page.locator("#f-tier-0-size")).to_have_value("25.4")
    page.locator("#go-cake").click()
    expect(page.locator("#f-title")).to_have_value("Meanwhile")
    expect(page.get_by_label("cm", exact=True)).to_be_checked()


def test_sizes_are_in_the_unit_that_was_just_chosen(blank: Page) -> None:
    """And so is the usual depth, however slow the server is."""
    blank.route("**/convert*", lambda route: None)  # never answered
    blank.locator("#unit-cm").check()
    blank.locator("#stack-line").fill("25, 20, 15")
    blank.locator("#stack-make").click()
    blank.wait_for_selector("#tab-decorate")
    expect(blank.locator("[id='go-tier.0']")).to_contain_text("25 × 10")
    blank.locator("#go-cake").click()
    expect(blank.locator("#unit-cm")).to_be_checked()


@pytest.mark.parametrize(
    ("language", "paper", "currency"),
    [
        ("en-US", "letter", None),
        ("en-CA", "letter", "$"),
        ("es-MX", "letter", "$"),
        ("en-GB", None, None),
        ("en", None, None),
        ("en-US@posix", "letter", None),
        ("zh-Hant-HK", None, "$"),
        ("de", None, "€"),
        ("en-IE", None, "€"),
        ("de-CH", None, "CHF"),
        ("uk-UA", None, None),
        ("?", None, None),
    ],
)
def test_a_new_cake_is_on_the_paper_of_the_place(
    server: Server, chromium: Browser, language: str, paper: str | None, currency: str | None
) -> None:
    """Its file says so where that is Letter; so with words and money that are not the UK's."""
    context = chromium.new_context(reduced_motion="reduce")
    context.add_init_script(
        f"Object.defineProperty(navigator, 'language', {{ get: () => '{language}' }})"
    )
    opened = context.new_page()
    opened.goto(server.address, wait_until="domcontentloaded")
    kept = "import('{}').then((store) => store.current().cake)".format(script(opened, "store.js"))
    settle(opened)
    opened.locator("#unit-cm").check()
    words = {"words": "us"} if language.startswith("en-US") else {}
    prices = {"prices": {"currency": currency}} if currency else {}
    wanted = {"unit": "cm"} | ({"paper": paper} if paper else {}) | words | prices
    assert opened.evaluate(kept) == wanted
    start_from(opened)
    assert opened.evaluate(kept)["paper"] == "a4"
    opened.locator("#new").click()
    opened.locator("#stack-line").fill("8x4")
    opened.locator("#stack-make").click()
    opened.wait_for_selector("#tab-decorate")
    assert opened.evaluate(kept).get("paper") == paper
    context.close()


@pytest.mark.parametrize(
    ("shape", "name", "panels"),
    [
        (" square", "whole side", {"per_face": 2, "corners": "join"}),
        (" square", "two rows, staggered", {"rows": 2, "joins": "staggered"}),
        ("", "whole side", {}),
    ],
)
def test_panels_meet_at_the_corners(
    blank: Page, tmp_path: Path, shape: str, name: str, panels: dict[str, Any]
) -> None:
    """On a tier that has some; bricks go round them."""
    blank.locator("#stack-line").fill(f"8x4{shape}")
    blank.locator("#stack-make").click()
    blank.wait_for_selector("#tab-decorate")
    blank.locator("#tab-decorate").click()
    blank.get_by_role("button", name=f"Add panels: {name}").click()
    assert cake_now(blank, tmp_path)["tier"][0]["panels"] == panels
    assert blank.locator("#figure-problems").count() == 0


def test_a_tier_that_cannot_be_made_has_no_size_in_the_list(page: Page) -> None:
    """Its outline is open until its size is known; those of the others stay."""
    tier(page, 3)
    for size, open_ones in (("x", 1), ("4", 0)):
        page.locator("#f-tier-3-size").fill(size)
        settle(page)
        expect(page.locator("#stack .silhouette")).to_have_count(4)
        expect(page.locator("#stack .unknown")).to_have_count(open_ones)
        expect(page.locator("[id='go-tier.3'] .unknown")).to_have_count(open_ones)


def test_on_a_phone_words_of_the_lists_stay_whole(page: Page) -> None:
    """No cell is narrower than its longest word."""
    page.set_viewport_size({"width": 360, "height": 740})
    page.locator("[data-view=bench-view]").first.click()
    page.wait_for_selector("#bench td")
    broken = page.evaluate(
        "[...document.querySelectorAll('#bench td')].filter((cell) => {"
        " const room = cell.clientWidth, line = document.createElement('span');"
        " line.style.cssText = 'white-space: nowrap; position: absolute';"
        " cell.append(line);"
        " const widest = Math.max(...cell.innerText.split(/\\s+/).map((word) => {"
        "   line.textContent = word; return line.offsetWidth }));"
        " line.remove(); return widest > room }).map((cell) => cell.innerText)"
    )
    assert broken == []


def test_artwork_asks_for_its_file_at_once_and_again(blank: Page, tmp_path: Path) -> None:
    """Its field is the next below the tiles; a saved cake has but its name, and both say so."""
    drawn = tmp_path / "sprig.svg"
    drawn.write_text("<svg xmlns='http://www.w3.org/2000/svg'><path d='M0 0H9V9Z'/></svg>")
    blank.locator("#stack-line").fill("8x4")
    blank.locator("#stack-make").click()
    blank.locator("#tab-decorate").click()
    blank.get_by_role("button", name="Add designs: stripes").click()
    blank.get_by_label("Artwork", exact=True).check(force=True)  # below its picture
    field = blank.locator(".field.choice + .field.file")
    expect(field.locator(".problem")).to_have_text(re.compile(r"Choose a file\.$"))
    choose = field.get_by_label("File: a file of your own")
    choose.set_input_files(__file__)
    choose.set_input_files(drawn)
    expect(field.locator(".problem")).to_be_empty()
    settle(blank)
    with blank.expect_download() as download:
        blank.locator("#save").click()
    expect(blank.locator("#said")).to_contain_text("Keep “sprig.svg” with it")  # and no other
    saved = tmp_path / "saved.cake.toml"
    saved.write_bytes(Path(download.value.path()).read_bytes())
    blank.locator("#file").set_input_files(saved)
    expect(blank.locator(".mend")).to_contain_text("not with the cake")
    expect(blank.locator(".mend")).to_contain_text("Choose the file again.")
    blank.locator("#file").set_input_files([drawn, saved])
    expect(blank.locator("#said")).to_contain_text("saved.cake.toml is open")
    settle(blank)
    expect(blank.locator("#figure-problems")).to_have_count(0)


def test_a_file_is_opened_and_saved_with_its_comments(page: Page) -> None:
    """What was not touched is as it was, byte for byte."""
    starter = next(path for path in SAMPLES if path.stem == "starter")
    page.locator("#file").set_input_files(starter)
    expect(page.locator("#f-title")).to_have_value("My first cake")
    page.locator("[id='go-tier.0']").click()
    for size, text in (("8 in", starter.read_text("utf-8")), ("9 in", None)):
        page.locator("#f-tier-0-size").fill(size)
        settle(page)
        with page.expect_download() as download:
            page.locator("#save").click()
        saved = Path(download.value.path()).read_text("utf-8")
        assert saved == (text or starter.read_text("utf-8").replace('"8 in"   ', '"9 in"   ', 1))


def test_a_link_carries_the_cake(page: Page) -> None:
    """Opened in a browser that has never been here, it shows the cake; no request holds it."""
    page.locator("#f-title").fill("Shared cake")
    page.locator("#share").click()
    until(page, "document.getElementById('link-text').value.includes('#cake=')")
    link = page.locator("#link-text").input_value()
    browser = page.context.browser
    assert browser is not None
    spec: list[str] = []
    other = browser.new_context().new_page()
    other.on("request", lambda request: spec.append(request.url))
    other.goto(link)
    expect(other.locator("#f-title")).to_have_value("Shared cake")
    assert not any("cake=" in url.partition("#")[0] for url in spec)
    other.context.close()


def test_the_rest_of_an_edit_is_asked_for_once_its_picture_is_there(page: Page) -> None:
    """Sizes and warnings do not make the picture wait."""
    tier(page, 0)
    settle(page)
    seen: list[str] = []
    page.on("request", lambda request: seen.append(f"ask {request.url}"))
    page.on("response", lambda response: seen.append(f"got {response.url}"))
    page.locator("#f-tier-0-size").fill("11 in")
    settle(page)
    first = {
        what: next(index for index, line in enumerate(seen) if re.match(what, line))
        for what in (r"ask .*/scene\?", r"got .*/scene\?", r"ask .*/cake\?")
    }
    assert list(first.values()) == sorted(first.values())


def test_every_answer_is_shown_and_the_newest_last(page: Page) -> None:
    """While one edit is answered, only the newest of those that follow is kept; both are shown."""
    held: list[Any] = []
    asked: list[str] = []

    def hold(route: Any) -> None:  # noqa: ANN401
        asked.append(json.loads(route.request.post_data)["cake"]["tier"][0]["size"])
        if len(asked) == 1:
            held.append(route)
        else:
            route.continue_()

    tier(page, 0)
    page.wait_for_timeout(1100)  # so long after an answer no question is ended for a newer one
    cake = re.compile(r"/cake\?")
    page.route(cake, hold)
    with page.expect_request(cake):
        page.locator("#f-tier-0-size").fill("11 in")
    for size in ("16 in", "15 in", "12 in"):
        page.locator("#f-tier-0-size").fill(size)
    page.wait_for_timeout(200)
    page.evaluate(
        "window.seen = []; new MutationObserver(() => window.seen.push("
        "document.getElementById('sizes').textContent)).observe("
        "document.getElementById('sizes'), {subtree: true, childList: true})"
    )
    held[0].continue_()
    settle(page)
    assert asked == ["11 in", "12 in"]
    first, *_, last = page.evaluate("window.seen")
    assert "11 in (279.4 mm)" in first
    assert "12 in (304.8 mm)" in last


def test_each_list_is_shown_by_itself(page: Page) -> None:
    """Bench list, shopping list and portions have the very rows of the pack's."""
    page.locator("[data-view=bench-view]").first.click()
    page.wait_for_selector("#bench h3")
    page.locator("#assumptions summary").click()
    plan = sample_plan("harbour-wedding")
    parts = sections(bench(plan), plan.terms)
    for name, titles in (("shopping", {SHOPPING}), ("portions", {PORTIONS}), ("bench", None)):
        page.locator(f"[data-list={name}]").click()
        apart = titles or {part.title for part in parts} - {SHOPPING, PORTIONS, TIMES}
        found = [part for part in parts if part.title in apart]
        shown = page.locator(f"#list-{name} .part")
        assert shown.locator("h3").all_inner_texts() == [part.title for part in found]
        rows = [row.split("\t") for row in shown.locator("tbody tr").all_inner_texts()]
        # assumptions have the page's words for keys
        kept = [list(row) for part in found if part.title != ASSUMPTIONS for row in part.rows]
        assert rows[: len(kept)] == kept
        assert page.locator("[id^=list-]:not(#list-title):visible").count() == 1


LINES_OF_AMOUNTS = """() => [...document.querySelectorAll("#bench td")]
  .filter(cell => cell.checkVisibility())
  .flatMap(cell => [...cell.textContent.matchAll(/[\\d¼½¾⅛⅜⅝⅞][\\d ./]* (mm|in|g|kg|oz|lb)\\b/g)]
    .map(found => {
      const range = new Range(), ends = [found.index, found.index + found[0].length];
      const walk = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
      for (let at = 0, node; (node = walk.nextNode()); at += node.length) {
        if (ends[0] >= at && ends[0] < at + node.length) range.setStart(node, ends[0] - at);
        if (ends[1] > at && ends[1] <= at + node.length) range.setEnd(node, ends[1] - at);
      }
      const lines = new Set([...range.getClientRects()].map(each => Math.round(each.y)));
      return [found[0], lines.size];
    }))"""
"""Each amount of the lists that are on screen, and on how many lines it is."""


def test_on_a_phone_no_amount_is_broken(page: Page) -> None:
    """Neither “5/32 in” nor the “(4 mm)” after it is on two lines, however narrow its column."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.locator(".views [data-view=bench-view]").click()
    page.wait_for_selector("#bench td")
    lines = page.evaluate(LINES_OF_AMOUNTS)
    assert len(lines) > 20
    assert [text for text, count in lines if count != 1] == []


@pytest.mark.parametrize(
    ("listed", "words", "title"),
    [("days", "Set the day and hours", "Day and hours"), ("shopping", "Set prices", "Prices")],
)
def test_a_list_leads_to_what_it_lacks(page: Page, listed: str, words: str, title: str) -> None:
    """The hours of the plan and the costs of what to buy; Back returns to the list."""
    page.locator(".views [data-view=bench-view]").click()
    expect(page.get_by_role("button", name=words)).to_be_hidden()
    page.locator(f"[data-list={listed}]").click()
    page.get_by_role("button", name=words).click()
    expect(page.locator("#panel-title")).to_have_text(title)
    page.go_back()
    expect(page.get_by_role("button", name=words)).to_be_visible()


def test_on_a_phone_what_is_said_of_an_empty_cake_is_at_the_foot(page: Page) -> None:
    """There is no bar then that it would be above."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.locator("#new").evaluate("each => each.click()")
    expect(page.locator("#said")).to_contain_text("A new cake is open")
    said = page.locator(".status").bounding_box()
    assert said is not None
    assert said["y"] + said["height"] == 844


def test_assumptions_are_folded_on_screen_and_printed(page: Page, tmp_path: Path) -> None:
    """What is long and seldom read is folded away; on paper it is there, and then folded again."""
    page.locator("[data-view=bench-view]").first.click()
    page.wait_for_selector("#assumptions summary")
    row = page.locator("#assumptions details tbody tr").last
    assert row.is_hidden()
    words = " ".join((row.locator("td").first.text_content() or "").split()[:2])
    page.pdf(path=tmp_path / "list.pdf")
    assert words in judged("pdftotext", "-layout", tmp_path / "list.pdf", "-")
    assert row.is_hidden()


def test_the_plan_by_day_is_shown_and_printed(page: Page) -> None:
    """Every step of every day with a box to tick, and on paper nothing but the list."""
    page.locator("[data-view=bench-view]").first.click()
    page.locator("[data-list=days]").click()
    plan = days(bench(sample_plan("harbour-wedding")))
    expect(page.locator("#list-days h3")).to_have_text([day.name for day in plan])
    steps = page.locator("#list-days li").all_inner_texts()
    assert len(steps) == sum(len(day.steps) for day in plan)
    assert all(
        step.what in text
        for day in plan
        for step, text in zip(day.steps, steps, strict=False)
        if day is plan[0]
    )
    page.emulate_media(media="print")
    for hidden in ("header", ".tabs", "#print-bench", "#list-bench", ".bench > details"):
        assert page.locator(hidden).first.is_hidden(), hidden
    assert "Plan by day" not in page.locator("#bench-view").inner_text()
    assert "plan by day" in page.locator("#list-title").inner_text()
    assert page.locator("#list-days li").first.is_visible()


def test_the_day_is_chosen_from_a_calendar(page: Page) -> None:
    """Nobody types a date in a form that only computers write, and that of a file is shown."""
    page.locator("#go-cake").click()
    page.get_by_role("button", name="Day and hours").click()
    field = page.locator("#f-work-ready")
    assert field.get_attribute("type") == "datetime-local"
    assert field.input_value().startswith("2027-06-19T14:00")
    field.fill("2027-06-26T15:00")
    settle(page)
    page.locator("[data-view=bench-view]").first.click()
    page.locator("[data-list=days]").click()
    expect(page.locator("#list-days h3").last).to_contain_text("Saturday 26 June 2027")


def test_old_pages_are_not_counted_as_new(page: Page) -> None:
    """From an edit until its pages are there, those in view are not what would be printed."""
    page.locator("[data-view=print]").first.click()
    expect(page.locator("#count")).to_contain_text("Print at 100 %")
    page.get_by_label("Full size", exact=True).check()
    assert page.locator("#count").inner_text() == "Making the pages…"
    expect(page.locator("#count")).to_contain_text("Print at 100 %")


def test_pages_that_come_late_are_not_counted_as_new(page: Page) -> None:
    """Those of an edit before the last are shown, while others are on their way."""
    page.locator("[data-view=print]").first.click()
    expect(page.locator("#count")).to_contain_text("Print at 100 %")
    held: list[Route] = []
    page.route("**/sheets*", lambda route: held.append(route))
    for kind, asked in (("Full size", 1), ("Few pages", 2)):
        page.get_by_label(kind, exact=True).check()
        if held:
            held[0].continue_()  # the pages of full size
        while len(held) < asked:
            page.wait_for_timeout(20)
    assert page.locator("#count").inner_text() == "Making the pages…"
    held[1].continue_()
    expect(page.locator("#count")).to_contain_text("Print at 100 %")


def test_the_paper_is_chosen_once(page: Page) -> None:
    """From a list of papers by name, or another by its size; the pages are made anew."""
    page.locator("[data-view=print]").first.click()
    page.get_by_label("Paper", exact=True).select_option(label="Letter")
    expect(page.locator("#count")).to_contain_text("Letter page")
    page.get_by_label("Paper", exact=True).select_option(label="Another…")
    page.get_by_label("Paper: another").fill("300 mm x 420 mm")
    expect(page.locator("#count")).to_contain_text("300")


def test_pages_are_chosen_zoomed_and_printed(page: Page) -> None:
    """Fewer kinds are fewer pages, the range makes pages wider, and the PDF opens in a tab."""
    page.locator("[data-view=print]").first.click()
    page.wait_for_selector("#sheets .page")
    whole = page.locator("#sheets li").count()
    page.locator("#print summary").last.click()
    page.locator("#kinds-collar").uncheck()
    until(page, f"document.querySelectorAll('#sheets li').length < {whole}")
    image = page.locator("#sheets .page").first
    before = image.bounding_box()
    page.locator("#page-zoom").fill("72")
    after = image.bounding_box()
    assert before is not None
    assert after is not None
    assert after["width"] > 1.5 * before["width"]
    x, y = before["x"] + 300, after["y"] + 300
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x - 100, y - 150)
    page.mouse.up()
    assert page.locator("#sheets").evaluate("sheets => sheets.scrollLeft") == 100
    assert page.evaluate("scrollY") == 150
    with page.context.expect_page() as tab:
        page.locator(".print-now").first.click()
    tab.value.close()


def test_what_is_wrong_is_fixed_before_it_is_printed(page: Page) -> None:
    """Pages of the cake as it was before are seen to be old, and no key prints them."""
    page.locator("[data-view=print]").first.click()
    page.wait_for_selector("#sheets .page")
    page.locator("#print summary").first.click()
    page.locator("#f-margin_sides").fill("9 in")
    expect(page.locator("#count")).to_contain_text("Greyed out")
    old = page.locator("#sheets .page").first
    assert old.evaluate("each => getComputedStyle(each).opacity <= 0.6")
    page.locator(".print-now").first.click()
    expect(page.locator("#panel .mend")).to_contain_text("9 in")
    assert len(page.context.pages) == 1
    page.get_by_role("button", name="Undo").first.click()
    page.locator("[data-view=print]").first.click()
    expect(page.locator("#count")).to_contain_text("Print at 100 %")


def test_on_a_phone_the_picture_stays_in_view(page: Page) -> None:
    """It sticks to the top while the panel scrolls, and the bar is at the bottom."""
    page.set_viewport_size({"width": 390, "height": 844})
    tier(page, 1, "decorate")
    first = page.locator(".decoration").first.bounding_box()
    assert first is not None
    assert first["y"] < 844 * 0.7  # what a tap opens is in sight
    page.mouse.wheel(0, 900)
    until(page, "scrollY > 500")
    picture, bar = page.locator(".picture").bounding_box(), page.locator(".bar").bounding_box()
    assert picture is not None
    assert bar is not None
    assert picture["y"] == 0
    assert picture["height"] < 844 * 0.36
    assert bar["y"] + bar["height"] == 844
    for name in ("Undo", "Print"):
        assert page.locator(".bar").get_by_role("button", name=name).is_visible()


def test_on_a_phone_what_is_wrong_is_in_sight(page: Page) -> None:
    """The message of the field that is typed in lies between the picture and the bar."""
    page.set_viewport_size({"width": 360, "height": 740})
    tier(page, 1)
    field = page.locator("#f-tier-1-depth")
    field.fill("6 furlongs")
    settle(page)
    told, label = page.locator("#f-tier-1-depth-problem"), page.locator("label[for=f-tier-1-depth]")
    box, above, bar, stage = (
        each.bounding_box()
        for each in (told, label, page.locator(".bar"), page.locator(".stage-side"))
    )
    assert box is not None
    assert above is not None
    assert bar is not None
    assert stage is not None
    assert box["y"] + box["height"] <= bar["y"]
    assert above["y"] >= stage["y"] + stage["height"]


def test_on_a_phone_what_is_opened_is_below_the_picture(page: Page) -> None:
    """Whole, with the row of the tiers above its heading."""
    page.set_viewport_size({"width": 390, "height": 844})
    page.wait_for_selector("#figure-height")
    page.locator("[id='go-tier.2']").click()
    row, stage = page.locator("#stack").bounding_box(), page.locator(".stage-side").bounding_box()
    assert row is not None
    assert stage is not None
    assert 0 <= row["y"] - stage["y"] - stage["height"] < 40


def test_on_a_phone_what_has_happened_hides_nothing_of_the_picture(page: Page) -> None:
    """It is said just above the bar, in sight however far down one is."""
    page.set_viewport_size({"width": 390, "height": 844})
    tier(page, 1)
    page.locator("#undo").evaluate("each => each.click()")
    page.locator("#redo").evaluate("each => each.click()")
    settle(page)
    page.mouse.wheel(0, 900)
    until(page, "scrollY > 500")
    said, bar = page.locator(".status").bounding_box(), page.locator(".bar").bounding_box()
    picture = page.locator(".stage-side").bounding_box()
    assert said is not None
    assert bar is not None
    assert picture is not None
    expect(page.locator("#said")).to_be_in_viewport()
    assert picture["y"] + picture["height"] < said["y"]
    assert said["y"] + said["height"] <= bar["y"] + 1


def test_what_is_doubtful_is_opened_from_the_pages(blank: Page) -> None:
    """The count of it beside the pages leads to the list of it."""
    blank.locator("#stack-line").fill("8, 7.8")
    blank.keyboard.press("Enter")
    settle(blank)
    blank.locator(".views [data-view=print]").click()
    blank.locator("#count").get_by_role("button", name="1 thing to check first").click()
    expect(blank.locator("#panel-title")).to_have_text("Check")
    expect(blank.locator("#panel .warnings")).to_contain_text("is left all round it")


def test_pages_refused_late_say_nothing_of_a_newer_cake(page: Page) -> None:
    """What was wrong when they were requested may be right by the time of the answer."""
    until(page, "document.querySelector('#sheets .page') !== null")  # those of the sample
    held: list[Route] = []
    page.route("**/sheets*", lambda route: held.append(route))
    page.locator("[id='go-tier.1']").click()
    page.locator("#tab-size").click()
    depth = page.locator("#f-tier-1-depth")
    with page.expect_request("**/sheets*"):
        depth.fill("6")
    depth.fill("7")
    settle(page)
    wrong = {"key": ["tier", 1, "depth"], "place": "Depth", "found": "6", "keys": []}
    problem = wrong | {"allowed": "", "advice": ""}
    with page.expect_request("**/sheets*"):
        held[0].fulfill(status=422, json={"message": "wrong", "problems": [problem]})
    page.wait_for_timeout(200)
    assert page.locator("#figure-problems").count() == 0
    held[1].continue_()
    page.unroute("**/sheets*")


def test_on_a_phone_the_pages_are_a_row(page: Page) -> None:
    """They are looked through sideways, and single templates come soon below them."""
    page.set_viewport_size({"width": 360, "height": 740})
    page.locator("[data-view=print]").first.click()
    page.wait_for_selector("#sheets .page")
    first, second = (page.locator("#sheets .page").nth(index).bounding_box() for index in (0, 1))
    sheets, pieces = page.locator("#sheets").bounding_box(), page.locator("#pieces").bounding_box()
    assert first is not None
    assert second is not None
    assert sheets is not None
    assert pieces is not None
    assert second["y"] == first["y"]
    assert second["x"] > first["x"] + first["width"]
    assert pieces["y"] - sheets["y"] < 740


def test_markup_in_a_name_is_shown_as_text(page: Page) -> None:
    """No script of a title runs, and none becomes an element."""
    page.locator("#f-title").fill("<img src=x onerror=alert(1)>")
    tier(page, 0)
    page.locator("#f-tier-0-name").fill("<b>bold</b>")
    settle(page)
    assert "<b>bold</b>" in (page.locator("#sizes").text_content() or "")
    assert page.locator("#sizes b").count() == 0


HOLD_SIZES = """() => {
  const real = window.fetch;
  window.fetch = async (address, init) => {
    const answer = await real(address, init);
    if (!window.held && address.startsWith("cake")) {
      await new Promise((done) => { window.held = done; });
    }
    return answer;
  };
}"""
"""Hold the first answer with sizes and warnings."""


def test_sizes_of_an_earlier_cake_do_not_count_as_those_of_the_last_edit(page: Page) -> None:
    """They come between an edit and its own request, which waits for the picture."""
    page.evaluate(HOLD_SIZES)
    page.locator("#f-title").fill("Earlier")
    tier(page, 0)
    until(page, "window.held !== undefined")
    page.evaluate(
        """() => {
          const name = document.getElementById("f-tier-0-name");
          name.value = "Newest";
          name.dispatchEvent(new Event("input", { bubbles: true }));
          window.held();
        }"""
    )
    settle(page)
    assert "Newest" in (page.locator("#sizes").text_content() or "")


def _empty(page: Page) -> None:
    page.locator("#new").click()
    page.wait_for_selector("#stack-line")
    start_from(page)
    page.locator("#new").click()
    page.wait_for_selector("#stack-line")


def _whole(page: Page) -> None:
    start_from(page)


def _tier(page: Page) -> None:
    tier(page, 1)
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")


def _decorate(page: Page) -> None:
    tier(page, 1, "decorate")


def _support(page: Page) -> None:
    tier(page, 1, "support")


def _one(page: Page) -> None:
    tier(page, 1, "decorate")
    page.get_by_role("button", name="Add designs: swags").click()
    settle(page)


def _wrong(page: Page) -> None:
    tier(page, 1)
    page.locator("#f-tier-1-depth").fill("x")
    settle(page)


def _list(page: Page) -> None:
    page.locator("#figure-problems").click()


def _old_pages(page: Page) -> None:
    page.locator(".views [data-view=print]").click()
    expect(page.locator("#count")).to_contain_text("your last working version")


def _old_lists(page: Page) -> None:
    page.locator(".views [data-view=bench-view]").click()
    expect(page.locator("#bench-view .old")).to_have_text("Greyed out: your last working version.")


def _print(page: Page) -> None:
    page.locator("#undo").click()
    settle(page)
    page.locator("[data-view=print]").first.click()
    page.wait_for_selector("#sheets .page")


def _bench(page: Page) -> None:
    page.locator("[data-view=bench-view]").first.click()


def _days(page: Page) -> None:
    page.locator("[data-list=days]").click()


def _shopping(page: Page) -> None:
    page.locator("[data-list=shopping]").click()


def _portions(page: Page) -> None:
    page.locator("[data-list=portions]").click()


def _class(page: Page) -> None:
    page.locator(".views [data-view=print]").click()
    page.locator("#for-class").click()


def _tins(page: Page) -> None:
    page.keyboard.press("Escape")
    page.locator(".views [data-view=plan]").click()
    page.locator("#go-cake").click()
    page.locator("#other-tins").click()
    page.locator("#tins-line").fill("12, 9")
    page.keyboard.press("Enter")
    expect(page.locator("#tins-problem")).to_contain_text("2 sizes")


def _no_dialog(page: Page) -> None:
    page.keyboard.press("Escape")


def _piece(page: Page) -> None:
    page.locator("[data-view=print]").first.click()
    page.locator("[data-piece='second/collar']").click()


def _link(page: Page) -> None:
    page.keyboard.press("Escape")
    page.locator("#share").click()


def _cakes(page: Page) -> None:
    page.keyboard.press("Escape")
    page.locator("#my-cakes").click()
    page.wait_for_selector("#cakes-list li")


STATES = (
    _empty, _whole, _tier, _decorate, _support, _one, _wrong, _list, _old_pages, _old_lists,
    _print, _bench, _days, _shopping, _portions, _class, _tins, _no_dialog, _piece, _link, _cakes,
)  # fmt: skip
WIDTHS = (1400, 1024, 390, 360)


def _too_small(page: Page) -> Any:  # noqa: ANN401
    return page.evaluate(
        "least => [...document.querySelectorAll('button, select, input, summary, .target')]"
        ".filter(each => each.offsetParent && !each.matches('.link')).map(each => {"
        " const box = (each.closest('.tick, .card') ?? each).getBoundingClientRect();"
        " return [each.id || each.textContent, box.width, box.height] })"
        ".filter(([, wide, tall]) => wide < least || tall < least)",
        LEAST_TOUCH,
    )


def barriers(page: Page) -> list[tuple[str, list[str]]]:
    """Return what axe-core finds: each rule, and where it is broken."""
    found = Axe().run(page).response["violations"]
    return [(each["id"], [node["html"] for node in each["nodes"]]) for each in found]


@pytest.mark.parametrize("scheme", SCHEMES)
def test_nothing_bars_anyone(page: Page, scheme: Any) -> None:  # noqa: ANN401
    """In every state: no violation by axe-core, nothing sticks out, controls are 44 px or more."""
    page.emulate_media(color_scheme=scheme)
    for state in STATES:
        page.set_viewport_size({"width": WIDTHS[0], "height": 900})
        state(page)
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 900})
            about = f"{state.__name__} at {width}"
            assert page.evaluate("document.documentElement.scrollWidth") <= width, about
            assert _too_small(page) == [], about
            if width in (1400, 390):
                assert barriers(page) == [], about


def test_axe_can_find_something(page: Page) -> None:
    """A control without a label is found, so that finding none means something."""
    page.evaluate("document.querySelector('main').append(document.createElement('select'))")
    found = Axe().run(page).response["violations"]
    assert "select-name" in json.dumps([each["id"] for each in found])
