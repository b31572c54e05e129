"""Whole tasks of a decorator, and the page as those see it who need it otherwise."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from tests.web.conftest import script, settle, start_from, until
from tests.web.server import Server

LETTER = (612.0, 792.0)
"""Sides of US Letter, pt: ANSI Y14.1 size A, 8.5 by 11 in."""
ZOOMED = {"width": 700, "height": 450}
"""What a window of 1400 by 900 px holds at 200 %, CSS px."""
RESTED = 600
"""ms after which the picture is drawn in full."""


@pytest.fixture
def opened(server: Server, chromium: Browser) -> Iterator[Any]:
    """Return a function that opens the page as on a first visit, in a browser that is set up so."""
    contexts = []

    def visit(**how: Any) -> Page:  # noqa: ANN401
        context = chromium.new_context(accept_downloads=True, **how)
        contexts.append(context)
        page = context.new_page()
        page.goto(server.address, wait_until="domcontentloaded")
        page.wait_for_selector("#stack-line")
        return page

    yield visit
    for context in contexts:
        context.close()


def made(page: Page, line: str = "10x5, 8x5") -> None:
    """Make a cake of a line."""
    page.locator("#stack-line").fill(line)
    page.keyboard.press("Enter")
    page.wait_for_selector("#tab-decorate")
    settle(page)


def test_inches_in_letter_paper_out(opened: Any) -> None:  # noqa: ANN401
    """Sizes typed in inches from blank, Letter chosen once, and each page of the PDF is Letter."""
    page = opened()
    page.get_by_label("inches", exact=True).check()
    made(page, "9x4, 6 1/2 x 4")
    expect(page.locator("#figure-height")).to_contain_text(" in")
    page.locator("[data-view=print]").first.click()
    page.get_by_label("Paper", exact=True).select_option(label="Letter")
    expect(page.locator("#count")).to_contain_text("Letter page")
    with page.expect_download() as download:
        page.locator("#download").click()
    with pikepdf.open(Path(download.value.path())) as pdf:
        sides = {tuple(float(each) for each in sheet.mediabox[2:]) for sheet in pdf.pages}
    assert sides == {LETTER}
    page.locator("#new").click()
    page.wait_for_selector("#stack-line")
    assert page.get_by_label("inches", exact=True).is_checked()


def test_a_single_template_is_saved_on_a_phone(opened: Any) -> None:  # noqa: ANN401
    """Its files come before its figures, however many, and how it went is said in front."""
    page = opened(viewport={"width": 390, "height": 844})
    start_from(page, "starter")
    page.locator("[data-view=print]").first.click()
    page.locator("[data-piece='bottom/collar']").click()
    button = page.get_by_role("button", name="As SVG", exact=True)
    expect(button).to_be_in_viewport(ratio=1)
    with page.expect_download() as download:
        button.click()
    assert download.value.suggested_filename == "bottom-collar.svg"
    told = page.locator("#close-up [role=status]")
    expect(told).to_have_text("Bottom: collar is saved.")
    page.route("**/piece?*", lambda route: route.abort())
    button.click()
    expect(told).to_contain_text("The server does not answer.")


def test_lengths_are_listed_as_the_page_says(opened: Any) -> None:  # noqa: ANN401
    """One after the other with commas, as its advice has them, and a comma in a number stays."""
    page = opened()
    made(page, "8x5")
    page.locator("#tab-decorate").click()
    page.get_by_role("button", name="Add drips: listed").click()
    lengths = page.get_by_label("Lengths in order", exact=True)
    lengths.fill("")
    problem = page.locator("#f-tier-0-drips-lengths-problem")
    expect(problem).to_contain_text("such as 20 mm, 35 mm, 25 mm")
    lengths.fill("20 mm, 35 mm, 25 mm, 2,5 cm; 1 in")
    expect(problem).to_be_empty()
    settle(page)
    page.reload()
    page.locator("[id='go-tier.0']").click()
    page.locator("#tab-decorate").click()
    page.get_by_role("button", name="change").click()
    expect(lengths).to_have_value("20 mm; 35 mm; 25 mm; 2,5 cm; 1 in")


def test_a_printer_that_prints_too_small_is_put_right(opened: Any) -> None:  # noqa: ANN401
    """For a 100 mm bar that reads 99.3 the page says where to write it, and to measure both."""
    page = opened()
    made(page, "6x4")
    page.locator("[data-view=print]").first.click()
    expect(page.locator(".print .advice")).to_contain_text(
        "Is it off by 3 mm or less, again and again? That is your printer: write what the two"
        " 150 mm bars of page 1 read under Your printer."
    )
    page.locator("#print summary", has_text="Your printer").click()
    bars = page.get_by_label("Your 150 mm bars, measured", exact=True)
    bars.fill("99.3")
    expect(page.locator("#f-printer-problem")).to_contain_text("one length of two")
    bars.fill("99.3 x 99.3")
    expect(page.locator("#f-printer-problem")).to_contain_text("This is a bar of 100 mm")
    bars.fill("148.95 x 148.95")
    expect(page.locator("#f-printer-problem")).to_be_empty()
    expect(page.locator("#count")).to_contain_text("pages. Print at 100 %.")


@pytest.mark.parametrize(
    ("locale", "unit", "example"),
    [("de-DE", "cm", "25x12"), ("fr", "cm", "25x12"), ("en-GB", "inches", "10x5"),
     ("es-US", "inches", "10x5")],
)  # fmt: skip
def test_numbers_are_in_what_tins_are_sold_by(
    opened: Any,  # noqa: ANN401
    locale: str,
    unit: str,
    example: str,
) -> None:
    """A German who types 20x10 has a cake of 20 cm and not of 20 in."""
    page = opened(locale=locale)
    assert page.get_by_label(unit, exact=True).is_checked()
    expect(page.locator("#stack-help")).to_contain_text(example)


@pytest.mark.parametrize(
    ("locale", "weight", "refused", "colour"),
    [("en-US", " lb", "£3", "Color"), ("en-GB", " kg (", "$3", "Colour")],
)
def test_a_browser_of_the_us_has_its_words(
    opened: Any,  # noqa: ANN401
    locale: str,
    weight: str,
    refused: str,
    colour: str,
) -> None:
    """Fields are spelled so, pounds are first there, and prices have the sign of the place."""
    page = opened(locale=locale)
    made(page)
    typed = page.get_by_label(colour, exact=True)
    typed.fill("\U0001f382")
    settle(page)
    page.locator("#figure-problems").click()
    page.get_by_role("button", name=f"{colour}, bottom tier").click()
    typed.fill("")
    settle(page)
    page.locator("[data-view=bench-view]").first.click()
    page.locator("[data-list=shopping]").click()
    fondant = page.locator("#list-shopping tbody td").nth(1)
    expect(fondant).to_have_text(re.compile(rf"^[\d.]+{re.escape(weight)}"))
    page.get_by_role("button", name="Set prices").click()
    typed = page.get_by_label("Fondant, for a pack", exact=True)
    typed.fill(refused)
    settle(page)
    own = "$" if locale == "en-US" else "£"
    expect(page.locator("#f-prices-fondant-problem")).to_contain_text(f"a price in {own}")
    typed.fill(f"{own}4.50")
    settle(page)
    page.get_by_label("Batter, for 1 kg (or write per lb)", exact=True).fill(f"{own}1,000 per lb")
    settle(page)
    page.go_back()
    costs = page.locator("#list-shopping tbody td:nth-child(3)")
    expect(costs.first).to_have_text(re.compile(rf"^{re.escape(own)}[\d.]+$"))


def test_flowers_are_found_by_their_name(opened: Any) -> None:  # noqa: ANN401
    """Those of a cascade too, where one looks for flowers; and it says where it starts."""
    page = opened()
    made(page)
    page.locator("#go-cake").click()
    page.get_by_role("button", name="Add flowers, garlands and cascades: flowers").click()
    settle(page)
    starts = page.get_by_label("Starts at (degrees right of front)", exact=True)
    starts.fill("90")
    settle(page)
    expect(page.locator("#panel-title")).to_have_text("Cascade")


def test_flowers_are_cut_from_wafer_paper(opened: Any) -> None:  # noqa: ANN401
    """Paste is chosen to begin with; with paper the list has sheets to buy, and no gum."""
    page = opened()
    made(page)
    page.locator("#go-cake").click()
    page.get_by_role("button", name="cut petal by petal: lily").click()
    settle(page)
    assert page.get_by_label("Modeling paste", exact=True).is_checked()
    page.get_by_label("Wafer paper", exact=True).check()
    settle(page)
    page.locator("[data-view=bench-view]").first.click()
    bought = page.locator("#list-shopping tbody")
    expect(bought).to_contain_text("sheet of wafer paper, white, A4 or 8 × 11 in")
    expect(bought).not_to_contain_text("gum powder")


def test_a_cake_is_turned_and_seen_from_above(opened: Any) -> None:  # noqa: ANN401
    """With the buttons below the picture alone; each picture is another, and front is front."""
    page = opened(reduced_motion="reduce")
    made(page)
    page.locator("#tab-decorate").click()
    page.get_by_role("button", name="Add drips: wave").click()
    settle(page)
    picture = page.locator(".cake-canvas")
    until(page, "document.querySelector('.cake-canvas').dataset.shown")
    seen = []
    for name in ("Front", "Turn the cake to the left", "From above", "Front"):
        page.get_by_role("button", name=name).click()
        image = ""
        while image != (image := picture.evaluate("c => c.toDataURL()")):
            page.wait_for_timeout(RESTED)
        seen.append((picture.get_attribute("aria-label"), image))
    assert [label.split("seen from ")[1].split(".")[0] for label, _ in seen] == [
        "the front",
        "15 degrees to the right of the front",
        "above",
        "the front",
    ]
    assert len({image for _, image in seen}) == 3
    assert seen[0] == seen[3]


def test_what_is_open_is_moved_with_keys_on_the_picture(opened: Any) -> None:  # noqa: ANN401
    """Shift and an arrow key move words by a mm a time, and their field follows."""
    page = opened(reduced_motion="reduce")
    made(page)
    page.locator("#tab-decorate").click()
    page.get_by_role("button", name="Add lettering: name on the side").click()
    settle(page)
    until(page, "document.querySelector('.cake-canvas').dataset.shown")
    picture = page.locator(".cake-canvas")
    until(page, "document.querySelector('.cake-canvas').ariaLabel.includes('Shift and an arrow')")
    picture.focus()
    for _ in range(3):
        page.keyboard.press("Shift+ArrowRight")
    settle(page)
    page.wait_for_timeout(RESTED)
    store = f"import('{script(page, 'store.js')}').then((store) => store.current().cake.tier[0])"
    words = page.evaluate(store)["lettering"][0]
    assert words["sideways"].endswith(" in")
    assert float(words["sideways"].removesuffix(" in")) == pytest.approx(3 / 25.4, abs=0.02)
    assert page.locator("#f-tier-0-lettering-0-sideways").input_value() == words["sideways"]


def test_at_200_percent_nothing_is_cut_off(opened: Any) -> None:  # noqa: ANN401
    """A cake is made, decorated and printed; nothing sticks out, and fields are not covered."""
    page = opened(viewport=ZOOMED, device_scale_factor=2)
    made(page)
    page.locator("#tab-decorate").click()
    page.get_by_role("button", name="Add drips: even").click()
    settle(page)
    field = page.locator("#f-tier-0-drips-longest")
    field.focus()
    field.fill("30 mm")
    box = field.bounding_box()
    assert box is not None
    on_top = page.evaluate(
        "([x, y]) => document.elementFromPoint(x, y).id",
        [box["x"] + box["width"] / 2, box["y"] + box["height"] / 2],
    )
    assert on_top == "f-tier-0-drips-longest"
    for view in ("plan", "print", "bench-view"):
        page.locator(f".views [data-view={view}]").click()
        assert page.evaluate("document.documentElement.scrollWidth") <= ZOOMED["width"], view


def test_in_forced_colours_what_is_chosen_is_seen(opened: Any) -> None:  # noqa: ANN401
    """By a border in the system's highlight; axe finds nothing, and the picture is there."""
    page = opened(forced_colors="active")
    made(page)
    highlight = page.evaluate(
        "() => { const e = document.body.appendChild(document.createElement('i'));"
        " e.style.color = 'Highlight'; const found = getComputedStyle(e).color; e.remove();"
        " return found }"
    )
    for chosen in ("[data-view=plan]", "#tab-size", ".card:has(input:checked)"):
        border = page.locator(chosen).first.evaluate("e => getComputedStyle(e).borderTopColor")
        assert border == highlight, chosen
    other = page.locator("#tab-decorate").evaluate("e => getComputedStyle(e).borderTopColor")
    assert other != highlight
    found = Axe().run(page).response["violations"]
    assert [each["id"] for each in found] == []
    drawn = page.locator(".cake-canvas").evaluate(
        "c => c.getContext('2d').getImageData(0, 0, c.width, c.height).data.some(Boolean)"
    )
    assert drawn


def test_with_reduced_motion_nothing_moves_by_itself(opened: Any) -> None:  # noqa: ANN401
    """No animation runs, nothing scrolls smoothly, and the view changes at once."""
    page = opened(reduced_motion="reduce")
    start_from(page)
    page.get_by_role("button", name="From above").click()
    state = page.evaluate(
        "() => [document.getAnimations().length, [...document.querySelectorAll('*')].filter("
        "each => getComputedStyle(each).scrollBehavior === 'smooth').length]"
    )
    assert state == [0, 0]
    label = page.locator(".cake-canvas").get_attribute("aria-label") or ""
    assert "seen from above" in label
