"""One server and one browser for the tests of the page."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.web.server import Server, serving

expect.set_options(timeout=30_000)  # a busy machine is slow


@pytest.fixture(scope="session")
def server() -> Iterator[Server]:
    """Run a server."""
    with serving() as running:
        yield running


@pytest.fixture
def page(server: Server, chromium: Browser) -> Iterator[Page]:
    """Open the page with the sample of four tiers; it may neither complain nor fetch elsewhere."""
    said: list[str] = []
    context = chromium.new_context(
        viewport={"width": 1280, "height": 900},
        accept_downloads=True,
        reduced_motion="reduce",  # while the page scrolls smoothly, a click may miss what moves
    )
    opened = context.new_page()
    opened.on("console", lambda message: said.append(message.text))
    opened.on("pageerror", lambda error: said.append(str(error)))
    opened.on(
        "request", lambda spec: said.append(spec.url) if _elsewhere(server, spec.url) else None
    )
    opened.goto(server.address, wait_until="domcontentloaded")
    settle(opened)
    start_from(opened)
    yield opened
    context.close()
    # a refused cake is an answer, of which the browser makes a note all the same; and a server on
    # a busy machine may have no time for the pages
    assert [text for text in said if "422" not in text and "503" not in text] == []


def _elsewhere(server: Server, url: str) -> bool:
    return not url.startswith((server.address, "blob:", "data:"))


def settle(page: Page) -> None:
    """Wait until the answer to the last edit is shown."""
    until(page, "document.body.dataset.settled === 'yes'")


def start_from(page: Page, name: str = "harbour-wedding") -> None:
    """Open a sample from the invitation of an empty cake."""
    page.locator(f"#sample-{name}").click()
    page.wait_for_selector("#stack button", timeout=90_000)  # the server may still start
    settle(page)


def until(page: Page, condition: str) -> None:
    """Wait until a condition holds; the page's own rules forbid a browser to wait for it."""
    last = time.monotonic() + 30
    while not page.evaluate(condition):
        assert time.monotonic() < last, condition
        page.wait_for_timeout(20)


def wait_for(condition: Callable[[], bool]) -> None:
    """Wait until a condition holds."""
    last = time.monotonic() + 10
    while not condition():
        assert time.monotonic() < last
        time.sleep(0.001)


def script(page: Page, name: str) -> str:
    """Return the address of a script of the page, under which it runs only once."""
    main: str = page.locator("script[type=module]").get_attribute("src") or ""
    return f"/{main.replace('main.js', name)}"
