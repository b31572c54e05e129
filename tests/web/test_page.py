"""The page in a real browser, as a decorator uses it."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from templates_gen.bench.bench_list import bench
from templates_gen.bench.report import sections
from templates_gen.plan import make_plan
from templates_gen.web.files import opened
from tests.cakes import SAMPLES, sample
from tests.cli.command import call
from tests.web.conftest import script, settle, until
from tests.web.server import Server

HARBOUR = next(path for path in SAMPLES if path.stem == "harbour-wedding")
LEAST_TOUCH = 44.0
"""Side of what a finger meets, CSS px: WCAG 2.2, success criterion 2.5.5."""
SCHEMES = ("light", "dark")
RESTED = 600
"""ms after which the picture is drawn in full."""


def reach(page: Page, id_: str) -> None:
    """Go to a control with the tab key alone; it must be seen that one is there."""
    assert page.locator(f"[id='{id_}']").count() == 1, f"there is no {id_}"
    found = page.evaluate(
        "id => { const t = document.getElementById(id), a = document.activeElement;"
        " return Boolean(a.compareDocumentPosition(t) & Node.DOCUMENT_POSITION_PRECEDING) }",
        id_,
    )
    for _ in range(400):
        if page.evaluate("document.activeElement.id") == id_:
            width = page.evaluate(
                "parseFloat(getComputedStyle(document.activeElement).outlineWidth)"
            )
            assert width >= 2, f"{id_} does not show that it has the focus"
            return
        page.keyboard.press("Shift+Tab" if found else "Tab")
    raise AssertionError(f"the tab key does not reach {id_}")


def write(page: Page, id_: str, text: str) -> None:
    """Type into a field, or choose in a list by typing its word."""
    reach(page, id_)
    if page.evaluate("document.activeElement.tagName") == "INPUT":
        page.keyboard.press("Control+A")
    page.keyboard.type(text)


def press(page: Page, id_: str, key: str = "Enter") -> None:
    """Press a button, or tick a box with the space bar."""
    reach(page, id_)
    page.keyboard.press(key)


def unfold(page: Page, place: int) -> None:
    """Open what is folded up in the card of a tier, with the keyboard."""
    card = f"#form section[aria-labelledby=f-tier-{place}-title]"
    for index, name in enumerate(("rest", "parts")):
        summary = page.locator(f"{card} > details > summary").nth(index)
        summary.evaluate(f"e => e.id = 'fold-{place}-{name}'")
        if not summary.evaluate("e => e.parentElement.open"):
            press(page, f"fold-{place}-{name}")


def plan(page: Page, index: int, tier: dict[str, Any]) -> None:
    """Describe a tier with the keyboard."""
    press(page, "add-tier")
    unfold(page, index)
    for key, value in tier.items():
        describe(page, f"f-tier-{index}-{key}", value)


def describe(page: Page, id_: str, value: object) -> None:
    """Give a field its value, or add a table with all of its values."""
    if not isinstance(value, dict):
        enter(page, id_, value)
        return
    press(page, id_)
    for name, inner in value.items():
        enter(page, f"{id_}-{name}", inner)


def enter(page: Page, id_: str, value: object) -> None:
    """Give a field a value of a cake file."""
    if value is True:
        press(page, id_, "Space")
    else:
        write(page, id_, str(value))
    settle(page)


def test_a_cake_of_four_tiers_is_planned_by_keyboard_alone(page: Page, tmp_path: Path) -> None:
    """From an empty page; both packs have the bytes that the command line makes of the sample."""
    wanted = opened(HARBOUR.read_text("utf-8"), HARBOUR.name)
    press(page, "new")
    for key in ("title", "note"):
        write(page, f"f-{key}", wanted[key])
    for index, tier in enumerate(wanted["tier"]):
        plan(page, index, tier)
    page.locator("#form > .whole > details > summary").evaluate("e => e.id = 'fold-cake'")
    press(page, "fold-cake")
    for key, value in wanted.items():
        if isinstance(value, bool | dict):
            describe(page, f"f-{key}", value)
    settle(page)
    assert page.locator("#mend").is_hidden()
    for paper in ("a4", "letter"):
        call("pack", HARBOUR, "--paper", paper, "--format", "pdf", "--out", tmp_path)
        page.locator(f"[data-paper={paper}]").evaluate("(e, id) => e.id = id", f"pack-{paper}")
        with page.expect_download() as download:
            press(page, f"pack-{paper}")
        name = f"harbour-wedding-{paper}.pdf"
        assert download.value.suggested_filename == name
        assert Path(download.value.path()).read_bytes() == (tmp_path / name).read_bytes()
        until(page, f"!document.getElementById('pack-{paper}').disabled")


def test_a_question_ends_with_its_own_mark(page: Page) -> None:
    """Each part of what is told about a mistake is one sentence."""
    problem = {"found": "“wavy”", "allowed": "a word", "advice": "did you mean “wave”?"}
    told = page.evaluate(
        "([name, p]) => import(name).then(form => form.messageOf(p))",
        [script(page, "form.js"), problem],
    )
    assert told == "Found “wavy”. Allowed: a word. What to do: did you mean “wave”?"


def test_a_mistake_is_told_at_its_field(page: Page) -> None:
    """With what was found, what is allowed, what to do; mended, it is gone."""
    field = page.locator("#f-tier-1-depth")
    field.fill("6 furlongs")
    settle(page)
    told = page.locator("#f-tier-1-depth-problem").inner_text()
    assert "furlongs" in told
    assert "Allowed" in told
    assert "What to do" in told
    assert field.get_attribute("aria-invalid") == "true"
    page.locator("#mend a").first.click()
    expect(field).to_be_focused()
    assert field.input_value() == "6 furlongs"
    field.fill("6½")
    settle(page)
    assert page.locator("#mend").is_hidden()
    assert field.input_value() == "6½"


def test_undo_redo_and_reload(page: Page) -> None:
    """A step goes back and forth, and a reload keeps the work."""
    title = page.locator("#f-title")
    title.fill("Other title")
    page.keyboard.press("Control+z")
    assert title.input_value() == "Harbour wedding"
    page.keyboard.press("Control+Shift+z")
    assert title.input_value() == "Other title"
    page.reload()
    settle(page)
    assert title.input_value() == "Other title"


def test_tiers_are_moved_copied_and_removed(page: Page) -> None:
    """From the top of the cake down; the picture's table follows."""
    names = page.locator("#form .tier h3")
    page.get_by_role("button", name="Down: top").click()
    assert names.all_inner_texts() == ["Third", "Top", "Second", "Bottom"]
    page.get_by_role("button", name="Copy: bottom").click()
    assert names.all_inner_texts()[-2:] == ["Bottom 2", "Bottom"]
    page.get_by_role("button", name="Remove: bottom 2").click()
    settle(page)
    assert names.all_inner_texts() == ["Third", "Top", "Second", "Bottom"]


def test_the_unit_is_switched_and_the_cake_stays(page: Page) -> None:
    """Bare numbers get the unit they had."""
    before = page.locator("#sizes").inner_text()
    page.get_by_label("cm", exact=True).check()
    settle(page)
    assert page.locator("#f-tier-0-size").input_value() == "10 in"
    assert page.locator("#sizes").inner_text() == before


def test_a_file_is_opened_and_saved_with_its_comments(page: Page, tmp_path: Path) -> None:
    """What was not touched is as it was, byte for byte."""
    starter = next(path for path in SAMPLES if path.stem == "starter")
    page.locator("#file").set_input_files(starter)
    until(page, "document.getElementById('f-title').value === 'My first cake'")
    for size, text in (("8 in", starter.read_text("utf-8")), ("9 in", None)):
        page.locator("#f-tier-0-size").fill(size)
        settle(page)
        with page.expect_download() as download:
            page.locator("#save").click()
        saved = Path(download.value.path()).read_text("utf-8")
        assert saved == (text or starter.read_text("utf-8").replace('"8 in"   ', '"9 in"   ', 1))


def test_a_link_carries_the_cake(page: Page, server: Server) -> None:
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
    settle(other)
    assert other.locator("#f-title").input_value() == "Shared cake"
    assert not any("cake=" in url.partition("#")[0] for url in spec)
    other.context.close()


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


def test_a_click_on_the_picture_opens_its_field(page: Page) -> None:
    """What is clicked in the middle is a tier or something on it, and its field has the focus."""
    until(page, "document.querySelector('.cake-canvas').dataset.shown")
    page.locator(".cake-canvas").click()
    assert page.evaluate("document.activeElement.id").startswith("f-tier-")


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

    page.route("**/cake", hold)
    for size in ("11 in", "16 in", "15 in", "12 in"):
        page.locator("#f-tier-0-size").fill(size)
    page.wait_for_timeout(100)
    page.evaluate(
        "window.seen = []; new MutationObserver(() => window.seen.push("
        "document.getElementById('sizes').innerText)).observe("
        "document.getElementById('sizes'), {subtree: true, childList: true})"
    )
    held[0].continue_()
    settle(page)
    assert asked == ["11 in", "12 in"]
    first, *_, last = page.evaluate("window.seen")
    assert "279.4 mm (11 in)" in first
    assert "304.8 mm (12 in)" in last


def test_the_bench_list_is_shown(page: Page) -> None:
    """Each part of it, with the very rows of the pack's."""
    page.wait_for_selector("#bench details")
    page.evaluate("document.querySelectorAll('#bench details').forEach(each => each.open = true)")
    found = sections(bench(make_plan(sample("harbour-wedding"))))
    assert page.locator("#bench summary").all_inner_texts() == [part.title for part in found]
    shown = page.locator("#bench tbody tr").all_inner_texts()
    assert [row.split("\t") for row in shown] == [list(row) for part in found for row in part.rows]


def test_markup_in_a_name_is_shown_as_text(page: Page) -> None:
    """No script of a title runs, and none becomes an element."""
    page.locator("#f-title").fill("<img src=x onerror=alert(1)>")
    page.locator("#f-tier-0-name").fill("<b>bold</b>")
    settle(page)
    assert "<b>bold</b>" in page.locator("#sizes").inner_text()
    assert page.locator("#sizes b").count() == 0


@pytest.mark.parametrize("width", [360, 640, 1600])
def test_it_fits_and_can_be_touched(page: Page, width: int) -> None:
    """Nothing sticks out sideways (640 px is 1280 at 200 %), and controls are 44 px or more."""
    page.set_viewport_size({"width": width, "height": 900})
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    small = page.evaluate(
        "least => [...document.querySelectorAll('button, select, input, summary, .steps a')]"
        ".filter(each => each.offsetParent).map(each => {"
        " const box = (each.closest('.tick') ?? each).getBoundingClientRect();"
        " return [each.id || each.textContent, box.width, box.height] })"
        ".filter(([, wide, tall]) => wide < least || tall < least)",
        LEAST_TOUCH,
    )
    assert small == []


def _start(page: Page) -> None:
    page.wait_for_selector("#sheets li")
    page.wait_for_selector("#bench details")


def _unfolded(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach(each => each.open = true)")
    page.locator("#f-tier-1-lettering").click()


def _wrong(page: Page) -> None:
    page.locator("#f-tier-1-depth").fill("x")
    settle(page)


def _piece(page: Page) -> None:
    page.locator("[data-piece='second/collar']").click()


def _sheet(page: Page) -> None:
    page.locator("#sheets button").first.click()


def _link(page: Page) -> None:
    page.locator("#share").click()


VIEWS = (_start, _unfolded, _wrong, _piece, _sheet, _link)


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("view", VIEWS, ids=lambda view: view.__name__.strip("_"))
def test_nothing_bars_anyone(page: Page, view: Any, scheme: Any) -> None:  # noqa: ANN401
    """axe-core finds no violation on any view, light and dark, wide and on a phone."""
    page.emulate_media(color_scheme=scheme)
    view(page)
    for width in (1400, 390):
        page.set_viewport_size({"width": width, "height": 900})
        found = Axe().run(page).response["violations"]
        assert [(each["id"], [node["html"] for node in each["nodes"]]) for each in found] == []


def test_axe_can_find_something(page: Page) -> None:
    """A control without a label is found, so that finding none means something."""
    page.evaluate("document.querySelector('main').append(document.createElement('select'))")
    found = Axe().run(page).response["violations"]
    assert "select-name" in json.dumps([each["id"] for each in found])
