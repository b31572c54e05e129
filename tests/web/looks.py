"""What the page looks like in eleven whole tasks: ``python -m tests.web.looks FOLDER``.

Each task is done from a first visit, with the mouse, on windows from a desk to a phone, and a
picture is kept of what is then on screen, in light and in dark. They are there to be looked at:
nothing is compared. ``--task`` and ``--width`` leave out the others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import click
from playwright.sync_api import Browser, Page, expect

from tests.browser import browsing
from tests.web.conftest import settle, start_from, until
from tests.web.server import Server, serving
from tests.web.test_announced import odd
from tests.web.test_page import SCHEMES

WINDOWS = {1400: 900, 1024: 768, 390: 844, 360: 740}
"""Height of a window by its width, CSS px: a desk, a tablet on its side, two phones."""
RESTED = 900
"""ms after which picture, lists and pages are drawn in full."""


@dataclass(frozen=True)
class Visit:
    """A page at work on a task, and where its pictures go."""

    page: Page
    server: Server
    task: str
    folder: Path

    def button(self, name: str) -> None:
        """Press a button by its name."""
        self.page.get_by_role("button", name=name).first.click()

    def view(self, name: str) -> None:
        """Go to another view, by the buttons at the top."""
        self.page.locator(f".views [data-view={name}]").click()

    def tier(self, place: int, part: str) -> None:
        """Open a tier and a part of its panel."""
        self.page.locator(f"[id='go-tier.{place}']").click()
        self.page.locator(f"#tab-{part}").click()

    def looks(self, state: str, page: Page | None = None) -> None:
        """Keep a picture of what is on screen, in light and in dark."""
        seen = page or self.page
        assert seen.viewport_size is not None
        seen.wait_for_timeout(RESTED)
        for scheme in SCHEMES:
            seen.emulate_media(color_scheme=scheme, reduced_motion="reduce")
            seen.wait_for_timeout(RESTED)
            name = f"{self.task}-{seen.viewport_size['width']}-{scheme}-{state}.png"
            seen.screenshot(path=self.folder / name)
        seen.emulate_media(color_scheme="light", reduced_motion="reduce")


def made(visit: Visit, line: str = "10x5, 8x5, 6x4") -> None:
    """Make a cake of a line."""
    visit.page.locator("#stack-line").fill(line)
    visit.page.locator("#stack-make").click()
    visit.page.wait_for_selector("#tab-decorate")
    settle(visit.page)


def blank(visit: Visit) -> None:
    """Make three tiers with panels, drips and a name on top, from blank."""
    visit.looks("1-first")
    made(visit)
    visit.looks("2-made")
    visit.page.locator("#tab-decorate").click()
    visit.looks("3-decorate")
    visit.button("Add panels: one row at the base")
    settle(visit.page)
    visit.looks("4-panels")
    visit.tier(1, "decorate")
    visit.button("Add drips: wave")
    visit.tier(2, "decorate")
    visit.button("Add lettering: name on the top")
    visit.page.keyboard.type("Robin")
    settle(visit.page)
    visit.looks("5-done")


def inches(visit: Visit) -> None:
    """Type sizes in inches, and choose Letter."""
    visit.page.get_by_label("inches", exact=True).check()
    made(visit, "9x4, 6 1/2 x 4")
    visit.view("print")
    visit.page.get_by_label("Paper", exact=True).select_option(label="Letter")
    expect(visit.page.locator("#count")).to_contain_text("Letter page")
    visit.looks("1-letter")


def mistake(visit: Visit) -> None:
    """Make a mistake, find it from the count, and mend it."""
    start_from(visit.page)
    visit.tier(1, "size")
    visit.page.locator("#f-tier-1-depth").fill("6 furlongs")
    settle(visit.page)
    visit.looks("1-at-field")
    visit.page.locator("#figure-problems").click()
    visit.looks("2-list")
    visit.button("Depth, second tier")
    visit.page.locator("#f-tier-1-depth").fill("6 in")
    settle(visit.page)
    visit.looks("3-mended")


def printed(visit: Visit) -> None:
    """Look at the pages, at one template, at a class and at the lists, and print."""
    start_from(visit.page)
    visit.view("print")
    visit.page.wait_for_selector("#sheets .page")
    visit.looks("1-pages")
    for each in visit.page.locator("#print summary").all():
        each.click()
    visit.looks("2-choices")
    visit.page.locator(".pages").evaluate("each => each.scrollIntoView()")
    visit.looks("2-strip")
    visit.page.locator("[data-piece='second/collar']").click()
    visit.looks("3-template")
    visit.page.keyboard.press("Escape")
    visit.page.locator("#for-class").click()
    visit.looks("4-class")
    visit.page.locator("#class-more summary").click()
    visit.looks("4-columns")
    visit.page.keyboard.press("Escape")
    visit.view("bench-view")
    for name in ("bench", "days", "shopping", "portions"):
        visit.page.locator(f"[data-list={name}]").click()
        visit.looks(f"5-{name}")
        visit.page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
        visit.looks(f"5-{name}-end")
        visit.page.evaluate("scrollTo(0, 0)")
    visit.view("print")
    with visit.page.context.expect_page() as tab:
        visit.page.locator(".print-now").first.click()
    tab.value.close()
    visit.looks("6-printed")


def kept(visit: Visit) -> None:
    """Save, close the tab, and find the cake again."""
    page = visit.page
    start_from(page, "naming-day")
    page.locator("#f-title").fill("For Robin")
    settle(page)
    with page.expect_download():
        page.locator("#save").click()
    visit.looks("1-saved")
    page.goto("about:blank")
    page.goto(visit.server.address)
    settle(page)
    visit.looks("2-reopened")
    page.locator("#my-cakes").click()
    page.wait_for_selector("#cakes-list li")
    visit.looks("3-my-cakes")


def turned(visit: Visit) -> None:
    """Turn the cake, and look at it from above."""
    start_from(visit.page)
    visit.page.locator("#turn").fill("40")
    visit.looks("1-turned")
    visit.button("From above")
    visit.looks("2-above")


def sample(visit: Visit) -> None:
    """Start from a sample, and change what is on it."""
    visit.page.locator("#sample-golden-wedding").scroll_into_view_if_needed()
    visit.looks("1-samples")
    start_from(visit.page, "golden-wedding")
    visit.looks("2-open")
    visit.tier(0, "support")
    visit.looks("3-support")
    visit.tier(1, "decorate")
    visit.button("change")
    visit.looks("4-changed")


def moved(visit: Visit) -> None:
    """Copy, move and remove tiers, undo and redo."""
    start_from(visit.page)
    visit.tier(1, "size")
    visit.button("Copy: second")
    visit.button("Up: second 2")
    settle(visit.page)
    visit.looks("1-moved")
    visit.button("Remove: second 2")
    settle(visit.page)
    visit.looks("2-removed")
    visit.page.locator("#undo").click()
    visit.page.locator("#redo").click()
    settle(visit.page)
    visit.looks("3-redone")


def unknown(visit: Visit) -> None:
    """Open a file with a key that no cake has, and rename it."""
    visit.page.locator("#file").set_input_files(odd(visit.folder))
    visit.page.wait_for_selector("#figure-problems")
    visit.looks("1-open")
    visit.page.locator("#figure-problems").click()
    visit.looks("2-list")
    visit.button("Rename")
    settle(visit.page)
    visit.looks("3-renamed")


def link(visit: Visit) -> None:
    """Open a link while another cake is planned."""
    page = visit.page
    start_from(page, "naming-day")
    page.locator("#share").click()
    until(page, "document.getElementById('link-text').value.includes('#cake=')")
    visit.looks("1-share")
    found = page.locator("#link-text").input_value()
    page.keyboard.press("Escape")
    page.locator("#new").click()
    made(visit, "8, 6")
    page.evaluate("link => { location.href = link }", found)
    expect(page.locator("#said")).to_contain_text("as a new cake")
    settle(page)
    visit.looks("2-opened")


def tabs(visit: Visit) -> None:
    """Open the cake in a second tab, and edit there."""
    start_from(visit.page)
    second = visit.page.context.new_page()
    second.goto(visit.server.address, wait_until="domcontentloaded")
    settle(second)
    expect(second.locator("#standing")).to_contain_text("open in another tab")
    visit.looks("1-second", second)
    second.get_by_role("button", name="Edit here").click()
    expect(second.locator("#standing")).to_be_hidden()
    visit.looks("2-first")


TASKS: tuple[Callable[[Visit], None], ...] = (
    blank, inches, mistake, printed, kept, turned, sample, moved, unknown, link, tabs,
)  # fmt: skip
NAMES = [each.__name__ for each in TASKS]


@contextmanager
def first_visit(browser: Browser, server: Server, width: int) -> Iterator[Page]:
    """Open the page in a browser that was never here."""
    context = browser.new_context(
        viewport={"width": width, "height": WINDOWS[width]},
        accept_downloads=True,
        reduced_motion="reduce",
    )
    page = context.new_page()
    page.goto(server.address, wait_until="domcontentloaded")
    page.wait_for_selector("#stack-line")
    yield page
    context.close()


@click.command(help=__doc__)
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--task", "names", multiple=True, type=click.Choice(NAMES))
@click.option("--width", "widths", multiple=True, type=click.Choice(list(map(str, WINDOWS))))
def main(folder: Path, names: tuple[str, ...], widths: tuple[str, ...]) -> None:
    """Do the tasks and keep the pictures."""
    folder.mkdir(parents=True, exist_ok=True)
    with serving() as server, browsing() as browser:
        for task in TASKS:
            for width in widths or WINDOWS:
                if not names or task.__name__ in names:
                    with first_visit(browser, server, int(width)) as page:
                        task(Visit(page, server, task.__name__, folder))
                    click.echo(f"{task.__name__} {width}")


if __name__ == "__main__":
    main()
