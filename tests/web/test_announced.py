"""What changes on the page is heard by those who do not see it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

from playwright.sync_api import Page

from tests.web.conftest import settle, start_from, until

LISTEN = """
window.heard = [];
const live = "[role=status], [role=alert], [aria-live]";
new MutationObserver((changes) => {
  for (const { target } of changes) {
    const region = (target.nodeType === 1 ? target : target.parentElement)?.closest(live);
    if (region?.checkVisibility() && region.textContent.trim()) heard.push(region.textContent);
  }
}).observe(document.body, { subtree: true, childList: true, characterData: true });
"""
"""Note what a live region says when it changes (WAI-ARIA 1.2, live region roles)."""


def hears(page: Page, act: Callable[[], object], *words: str) -> None:
    """Do something, and wait until words are announced."""
    page.evaluate("heard.length = 0")
    act()
    for each in words:
        until(page, f"heard.some(text => text.includes({each!r}))")


def test_all_that_changes_is_announced(page: Page, tmp_path: Path) -> None:
    """Mistakes with their place, counts, views, steps, what was removed, files and cakes."""
    page.evaluate(LISTEN)
    button = partial(page.get_by_role, "button")
    page.locator("[id='go-tier.1']").click()
    page.locator("#tab-size").click()
    depth = page.locator("#f-tier-1-depth")
    wrong = "1 thing to fix. Depth, second tier: “6 furlongs”"
    hears(page, lambda: depth.fill("6 furlongs"), wrong)
    hears(page, lambda: depth.fill("6"), "height")
    settle(page)
    hears(page, page.locator("#undo").click, "Undone.")
    hears(page, lambda: page.keyboard.press("Control+Shift+z"), "Redone.")
    hears(page, button(name="From above").click, "Seen from above")
    hears(page, button(name="Front", exact=True).click, "Seen from the front")
    page.locator("#tab-decorate").click()
    button(name="Add designs: swags").click()
    hears(page, page.locator("#remove").click, "Removed: Swags.")  # and not all designs
    page.locator("#tab-size").click()
    hears(page, button(name="Remove: second").click, "Removed: second.")
    settle(page)
    page.locator("[data-view=print]").first.click()
    paper = page.get_by_label("Paper", exact=True)
    hears(page, lambda: paper.select_option("letter"), "Letter page")
    with page.expect_download():
        hears(page, page.locator("#download").click, "The PDF is saved.")
    page.locator(".views [data-view=plan]").click()
    with page.expect_download():
        hears(page, page.locator("#save").click, "The cake file is saved.")
    hears(page, page.locator("#new").click, "A new cake is open.")
    page.locator("#stack-line").fill("a big one")
    hears(page, page.locator("#stack-make").click, "such as 10x5, 8x5, 6x4")
    start_from(page)
    file = odd(tmp_path)
    said = ("is open as a new cake", "1 thing to fix. “shap”")
    hears(page, lambda: page.locator("#file").set_input_files(file), *said)


def odd(folder: Path) -> Path:
    """Write a cake file with a mistake."""
    file = folder / "odd.toml"
    file.write_text('[[tier]]\nsize = "8 in"\ndepth = "4 in"\nshap = "square"\n')
    return file


def test_an_announcement_is_not_repeated(page: Page) -> None:
    """While nothing in it changes: a key typed in a name says nothing."""
    page.wait_for_selector("#figure-height")
    page.wait_for_selector("#figure-pages")
    page.evaluate(LISTEN)
    page.locator("#f-title").fill("Harbour Wedding 2")
    settle(page)
    page.wait_for_timeout(2500)
    assert [text for text in page.evaluate("heard") if "thing" in text or "page" in text] == []
