"""Nothing that was planned is lost: cakes in the browser's database, links, tabs, no server."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Route, expect

from templates_gen.cli.open_page import packed
from templates_gen.web.workers import TOO_LONG
from tests.cli.command import TIER
from tests.cli.test_open import free_port
from tests.web.conftest import script, settle, start_from, until
from tests.web.server import RUN, Server, started
from tests.web.test_page import SCHEMES, barriers

NO_DATABASE = "indexedDB.open = () => { throw new DOMException('', 'SecurityError') }"
NO_ROOM = (
    "IDBObjectStore.prototype.put = () => { throw new DOMException('', 'QuotaExceededError') }"
)


@pytest.fixture
def context(chromium: Browser) -> Iterator[BrowserContext]:
    """Open a browser that was never here; it may make notes of a server that is gone."""
    context = chromium.new_context(accept_downloads=True, reduced_motion="reduce")
    yield context
    context.close()


def visit(context: BrowserContext, server: Server) -> Page:
    """Open the page in a new tab, with a sample on a first visit."""
    page = context.new_page()
    page.goto(server.address, wait_until="domcontentloaded")
    page.wait_for_selector("#panel-title")
    if page.locator("#stack-line").is_visible():
        start_from(page)
    settle(page)
    return page


def retitle(page: Page, title: str) -> None:
    """Give the cake another title, and wait until all is answered."""
    page.locator("#f-title").fill(title)
    settle(page)


def link_of(page: Page) -> str:
    """Return a link to the cake that is open."""
    page.locator("#share").click()
    until(page, "document.getElementById('link-text').value.includes('#cake=')")
    link = page.locator("#link-text").input_value()
    page.keyboard.press("Escape")
    return link


def test_steps_are_kept_over_a_reload(context: BrowserContext, server: Server) -> None:
    """What was done before a reload is undone and redone after it."""
    page = visit(context, server)
    before = page.locator("#f-title").input_value()
    retitle(page, "After")
    page.reload()
    settle(page)
    expect(page.locator("#f-title")).to_have_value("After")
    page.locator("#undo").click()
    expect(page.locator("#f-title")).to_have_value(before)
    page.reload()
    settle(page)
    page.locator("#redo").click()
    expect(page.locator("#f-title")).to_have_value("After")


def test_a_link_pasted_in_an_open_page_opens_beside(
    context: BrowserContext, server: Server
) -> None:
    """The page says so, and the cake that was being planned is still there with its steps."""
    page = visit(context, server)
    retitle(page, "Linked")
    link = link_of(page)
    retitle(page, "My own")
    page.locator("#turn").fill("60")
    page.evaluate("link => { location.href = link }", link)
    expect(page.locator("#f-title")).to_have_value("Linked")
    assert "new cake" in page.locator("#said").inner_text()
    expect(page.locator("#turn")).to_have_value("0")  # a new cake is seen from the front
    expect(page).not_to_have_url(re.compile("#cake"))
    page.locator("#my-cakes").click()
    page.get_by_role("button", name="Open: My own").click()
    expect(page.locator("#f-title")).to_have_value("My own")
    page.locator("#undo").click()  # on a slow machine, of one edit of two
    expect(page.locator("#f-title")).not_to_have_value("My own")


def test_a_file_in_the_address_opens_beside(
    context: BrowserContext, server: Server, tmp_path: Path
) -> None:
    """As a double-click on a cake file opens it; one that is no cake file is explained."""
    page = visit(context, server)
    for name, text, said in (
        ("a.cake.toml", "title = 'Clicked'\n" + TIER, "open as a new cake"),
        ("b.cake.toml", "nonsense", "b.cake.toml, line 1"),
    ):
        file = tmp_path / name
        file.write_text(text, encoding="utf-8")
        page.evaluate("hash => { location.hash = hash }", f"file={packed(file)}")
        expect(page.locator("#said")).to_contain_text(said)
        expect(page.locator("#f-title")).to_have_value("Clicked")
        assert "#file" not in page.url


def test_the_program_is_ended_from_the_page(context: BrowserContext, tmp_path: Path) -> None:
    """The page says that it has ended, and what to do to go on."""
    with started(*RUN, "open", "--no-open", "--port", str(free_port())) as own:
        page = visit(context, own)
        page.locator("#quit").click()
        expect(page.locator("#ended")).to_contain_text("start the program again")
        for scheme in SCHEMES:
            page.emulate_media(color_scheme=scheme)
            assert barriers(page) == [], scheme
        assert own.process is not None
        assert own.process.wait(20) == 0


def test_a_link_that_holds_no_cake_says_so(context: BrowserContext, server: Server) -> None:
    """The cake that is open stays."""
    page = visit(context, server)
    before = page.locator("#f-title").input_value()
    page.evaluate("location.hash = '#cake=AAAA'")
    until(page, "document.getElementById('said').textContent.includes('no cake')")
    assert page.locator("#f-title").input_value() == before


def test_a_cake_too_long_for_a_link_is_offered_as_a_file(
    context: BrowserContext, server: Server
) -> None:
    """It is said before anything is copied."""
    page = visit(context, server)
    page.evaluate(
        "name => import(name).then(store => store.change(doc => { doc.cake.outline ="
        " Array.from({length: 60000}, () => Math.random().toString(36)).join('') }))",
        script(page, "store.js"),
    )
    page.locator("#share").click()
    assert page.locator("#link-text").is_hidden()
    with page.expect_download():
        page.locator("#save-instead").click()


def test_the_same_cake_in_two_tabs(context: BrowserContext, server: Server) -> None:
    """The second is told, follows the first, edits when it asks to; neither overwrites."""
    first = visit(context, server)
    retitle(first, "One")
    second = visit(context, server)
    assert "open in another tab" in second.locator("#standing").inner_text()
    for scheme in SCHEMES:
        second.emulate_media(color_scheme=scheme)
        assert barriers(second) == [], scheme
    assert second.locator("#panel").evaluate("each => each.inert")
    assert "Edit here" in second.locator("#panel").inner_text()  # in sight however far one is down
    retitle(first, "Two")
    expect(second.locator("#f-title")).to_have_value("Two")
    second.get_by_role("button", name="Edit here").click()
    expect(second.locator("#standing")).to_be_hidden()
    assert "Edit here" not in second.locator("#panel").inner_text()
    retitle(second, "Three")
    expect(first.locator("#f-title")).to_have_value("Three")
    assert "open in another tab" in first.locator("#standing").inner_text()
    second.locator("#undo").click()
    expect(second.locator("#f-title")).to_have_value("Two")


@pytest.mark.parametrize("broken", [NO_DATABASE, NO_ROOM], ids=["denied", "full"])
def test_what_cannot_be_kept_is_said_at_once(
    context: BrowserContext, server: Server, broken: str
) -> None:
    """With a file to save in its place; the page works on."""
    context.add_init_script(broken)
    page = visit(context, server)
    retitle(page, "Lost")
    assert "Not saved" in page.locator("#standing").inner_text()
    for scheme in SCHEMES:
        page.emulate_media(color_scheme=scheme)
        assert barriers(page) == [], scheme
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the file").click()
    assert tomllib.loads(Path(download.value.path()).read_text("utf-8"))["title"] == "Lost"


def test_without_a_server_the_work_goes_on(context: BrowserContext, server: Server) -> None:
    """It is said calmly, edits are kept, a file can be saved; then all comes back by itself."""
    page = visit(context, server)
    context.set_offline(True)
    retitle(page, "Alone")
    assert "server has stopped" in page.locator("#standing").inner_text()
    with page.expect_download() as download:
        page.locator("#save").click()
    saved = tomllib.loads(Path(download.value.path()).read_text("utf-8"))
    assert saved["title"] == "Alone"
    page.locator(".views [data-view=print]").click()
    expect(page.locator("#count")).to_contain_text("server")
    page.locator("#print .print-now").click()
    expect(page.locator("#said")).to_have_text("Print again when it is back.")
    assert len(context.pages) == 1
    page.locator(".views [data-view=plan]").click()
    assert saved["tier"][1]["drips"]
    context.set_offline(False)
    expect(page.locator("#standing")).to_be_hidden(timeout=10_000)
    expect(page.locator("#said")).to_have_text("The server is back.")
    page.reload()
    settle(page)
    expect(page.locator("#f-title")).to_have_value("Alone")


def test_what_takes_too_long_is_shown_coarsely(context: BrowserContext, server: Server) -> None:
    """The picture of a new tier comes without what is on it, and it is said what to leave out."""
    page = visit(context, server)
    late = json.dumps({"message": TOO_LONG, "problems": []})
    asked: list[str] = []

    def hold(route: Route) -> None:
        asked.append(route.request.url)
        if "coarse" in route.request.url:
            route.continue_()
        else:
            route.fulfill(status=503, content_type="application/json", body=late)

    page.route("**/scene*", hold)
    before = page.locator(".cake-canvas").get_attribute("data-shown")
    page.locator("#add-tier").click()
    expect(page.locator("#f-tier-4-size")).to_have_value("4")
    until(page, f"document.querySelector('.cake-canvas').dataset.shown !== '{before}'")
    expect(page.locator("#said")).to_contain_text("leave out small pieces")
    assert any("coarse" in url for url in asked)
    assert "old" not in (page.locator(".cake-stage").get_attribute("class") or "")
    assert "5 tiers" in (page.locator(".cake-canvas").get_attribute("aria-label") or "")


def test_an_empty_cake_is_not_kept(context: BrowserContext, server: Server) -> None:
    """What nobody did anything with is no cake of mine once another is open."""
    page = visit(context, server)
    for name in ("starter", "naming-day"):
        page.locator("#new").click()
        start_from(page, name)
    page.locator("#my-cakes").click()
    expect(page.locator("#cakes-list li")).to_have_count(3)


def test_cakes_are_copied_and_deleted(context: BrowserContext, server: Server) -> None:
    """A copy opens as a cake of its own; deleting asks for a second press."""
    page = visit(context, server)
    retitle(page, "Mine")
    page.locator("#my-cakes").click()
    expect(page.locator("#cakes-list li").first).to_contain_text("10 × 5, 8 × 6, 6 × 5, 4 × 4")
    page.get_by_role("button", name="Duplicate: Mine").click()
    expect(page.locator("#f-title")).to_have_value("Mine copy")
    page.locator("#my-cakes").click()
    page.get_by_role("button", name="Delete: Mine", exact=True).click()
    before = page.locator("#cakes-list li").count()
    page.get_by_role("button", name="Delete for good: Mine").click()
    expect(page.locator("#cakes-list li")).to_have_count(before - 1)
