"""Every task of a decorator, with the keyboard alone."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from tests.web.conftest import script, settle, until
from tests.web.test_announced import odd
from tests.web.test_page import blank, cake_now, press, reach

__all__ = ["blank"]


def go(found: Locator) -> None:
    """Reach a button with the tab key and press it."""
    found.first.evaluate("each => { each.id ||= 'tested' }")
    press(found.page, found.first.get_attribute("id") or "")
    found.page.evaluate("document.getElementById('tested')?.removeAttribute('id')")


def button(page: Page, name: str) -> Locator:
    """Return a button by its name."""
    return page.get_by_role("button", name=name, exact=True)


def test_three_tiers_with_drips_panels_and_a_name(blank: Page, tmp_path: Path) -> None:
    """From blank, turned, seen from above, and on Letter paper."""
    reach(blank, "stack-line")
    blank.keyboard.type("10, 8, 6 in")
    blank.keyboard.press("Enter")
    blank.wait_for_selector("#tab-decorate")
    press(blank, "tab-decorate")
    go(button(blank, "Add panels: one row at the base"))
    press(blank, "go-tier.2")
    go(button(blank, "Add drips: wave"))
    press(blank, "go-tier.1")
    go(button(blank, "Add lettering: name on the side"))
    blank.keyboard.type("Robin")
    settle(blank)
    picture = blank.locator(".cake-canvas")
    until(blank, "document.querySelector('.cake-canvas').dataset.shown")
    reach(blank, "turn")
    blank.keyboard.press("ArrowRight")
    go(button(blank, "From above"))
    assert "seen from above" in (picture.get_attribute("aria-label") or "")
    go(button(blank, "Front"))
    saved = cake_now(blank, tmp_path)["tier"]
    assert [each["size"] for each in saved] == ["10 in", "8 in", "6 in"]
    assert saved[0]["panels"]
    assert saved[1]["lettering"][0]["text"] == "Robin"
    assert saved[2]["drips"]
    go(blank.locator(".views [data-view=print]"))
    reach(blank, "f-paper")
    blank.keyboard.press("l")  # the option that begins with it
    expect(blank.locator("#count")).to_contain_text("Letter page")


def test_a_sample_is_changed_mended_and_found_again(blank: Page, tmp_path: Path) -> None:
    """A mistake is found from its list; tiers are copied, moved and removed; a file has a key."""
    press(blank, "sample-harbour-wedding")
    blank.wait_for_selector("#stack button")
    settle(blank)
    press(blank, "go-tier.1")
    press(blank, "tab-size")
    reach(blank, "f-tier-1-depth")
    blank.keyboard.press("Control+a")
    blank.keyboard.type("x")
    settle(blank)
    press(blank, "figure-problems")
    go(button(blank, "Depth, second tier"))
    expect(blank.locator("#f-tier-1-depth")).to_be_focused()
    blank.keyboard.press("Control+a")
    blank.keyboard.type("5 in")
    settle(blank)
    press(blank, "tier-copy")
    press(blank, "tier-up")
    names = blank.locator("#stack button[id^='go-tier'] b")
    assert names.all_inner_texts() == ["Top", "Second 2", "Third", "Second", "Bottom"]
    press(blank, "tier-remove")
    assert "Second 2" not in names.all_inner_texts()
    blank.keyboard.press("Control+z")
    expect(names).to_have_count(5)
    blank.keyboard.press("Control+y")
    expect(names).to_have_count(4)
    settle(blank)
    blank.reload()
    settle(blank)
    expect(names).to_have_count(4)
    with blank.expect_file_chooser() as chooser:  # it takes a moment until one is noticed
        press(blank, "open")
    chooser.value.set_files(odd(tmp_path))
    blank.wait_for_selector("#figure-problems")
    press(blank, "figure-problems")
    go(button(blank, "Rename"))
    settle(blank)
    assert blank.locator("#figure-problems").count() == 0
    press(blank, "my-cakes")
    go(blank.get_by_role("button", name="Open: Harbour"))
    expect(names).to_have_count(4)


def test_a_link_is_copied_and_a_second_tab_takes_over(blank: Page) -> None:
    """What is open in another tab is edited here when one says so."""
    press(blank, "sample-starter")
    blank.wait_for_selector("#stack button")
    settle(blank)
    press(blank, "share")
    until(blank, "document.getElementById('link-text').value.includes('#cake=')")
    link = blank.locator("#link-text").input_value()
    blank.keyboard.press("Escape")
    second = blank.context.new_page()
    second.goto(blank.url, wait_until="domcontentloaded")
    second.wait_for_selector("#panel-title")
    go(button(second, "Edit here"))
    expect(second.locator("#standing")).to_be_hidden()
    second.evaluate("link => { location.href = link }", link)
    expect(second.locator("#said")).to_contain_text("as a new cake")
    store = script(second, "store.js")
    assert second.evaluate(f"import('{store}').then(store => store.canUndo())") is False
