"""The three views: one step of the browser's history each, and there again after a reload."""

from __future__ import annotations

from playwright.sync_api import Page, Route, expect

from tests.web.conftest import settle, until
from tests.web.server import Server


def shown(page: Page) -> str:
    """Return the view that is in sight."""
    found: str = page.evaluate("document.body.dataset.shown")
    return found


def test_back_goes_to_the_view_before(page: Page) -> None:
    """Whoever goes back from the pages is at the cake, and forward again at the pages."""
    address = page.url
    page.locator(".views [data-view=print]").click()
    page.locator(".views [data-view=bench-view]").click()
    page.locator(".views [data-view=bench-view]").click()  # where one is already is no step
    for view in ("print", "plan"):
        page.go_back()
        until(page, f"document.body.dataset.shown === '{view}'")
        expect(page.locator(f".views [data-view={view}]")).to_have_attribute("aria-current", "page")
    page.go_forward()
    until(page, "document.body.dataset.shown === 'print'")
    assert page.url == address


def test_a_reload_stays_at_the_view(page: Page) -> None:
    """And a new cake is shown as a cake."""
    page.locator(".views [data-view=bench-view]").click()
    page.reload()
    settle(page)
    assert shown(page) == "bench-view"
    page.locator("#new").click()
    expect(page.locator("#stack-line")).to_be_visible()


def test_a_page_that_is_not_there_yet_says_so(page: Page, server: Server) -> None:
    """On a slow line, while what is to be shown is on its way."""

    def later(route: Route) -> None:
        page.wait_for_timeout(1500)
        route.continue_()

    page.route("**/form.json", later)
    page.goto(server.address, wait_until="commit")
    expect(page.get_by_text("Loading…")).to_be_visible()
    settle(page)
    expect(page.get_by_text("Loading…")).to_have_count(0)
