"""How soon the page shows what a key changed: ``python -m tests.web.pace``.

In Debian's Chromium each sample is opened, and a character is typed and taken away again in one
field after the other. It prints how long after a key the browser had painted the new picture, and
after how long all was shown; then how many pictures came while keys came at an even pace.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any

import click
from playwright.sync_api import Page

from templates_gen.resources import folder
from templates_gen.web.files import opened
from tests.browser import browsing
from tests.web.conftest import settle, until
from tests.web.server import Server, serving

WATCH = """
window.pace = { pictures: 0, picture: null, all: null };
let start = 0;
document.addEventListener("input", () => {
  start = performance.now();
  pace.picture = pace.all = null;
}, true);
const painted = (name) => requestAnimationFrame(() => setTimeout(() => {
  pace[name] ??= performance.now() - start;
}));
new MutationObserver(() => { pace.pictures += 1; painted("picture"); })
  .observe(document.querySelector(".cake-canvas"), { attributeFilter: ["data-shown"] });
new MutationObserver(() => { if (document.body.dataset.settled === "yes") painted("all"); })
  .observe(document.body, { attributeFilter: ["data-settled"] });
"""
"""Note when an edit is made, when its picture is painted and when all of its answer is."""
WRONG = "document.getElementById('figure-problems') !== null"
FIELDS = """
[...document.querySelectorAll("#panel input[type=text]")]
  .filter((each) => each.value && /[0-9]/.test(each.value)).map((each) => each.id)
"""
"""The fields of numbers that have a value."""
RICH = (16, 14, 12, 10, 8, 6)
"""Sizes of the tiers of a cake with much on every side, in."""


def rich(sizes: Sequence[float]) -> dict[str, Any]:
    """Return a cake with drips, swags, pearls, blossoms and a name on every tier."""
    tiers = [
        {
            "size": f"{size} in",
            "depth": "5 in",
            "drips": {"longest": "40 mm"},
            "design": [
                {"kind": "swags", "width": "60 mm", "top": "45 mm", "drop": "15 mm"},
                {"kind": "pearls", "width": "10 mm", "top": "118 mm"},
            ],
            "scatter": [
                {"shape": "blossom", "size": "10 mm", "count": 20, "shuffle": index, "top": "60 mm"}
            ],
            "lettering": [
                {"text": "Happy day", "font": "script", "level": "80 mm", "cap_height": "12 mm"}
            ],
        }
        for index, size in enumerate(sizes)
    ]
    return {"title": "Rich", "unit": "in", "tier": tiers}


def cakes() -> Iterator[tuple[str, dict[str, Any]]]:
    """Yield every sample and two rich cakes, each with its name."""
    for path in sorted(folder("samples").glob("*.toml")):
        yield path.stem, opened(path.read_text("utf-8"), path.name)
    yield "rich-6", rich(RICH)
    yield "rich-12", rich([size - less for size in RICH for less in (0, 1)])


def open_cake(page: Page, server: Server, cake: dict[str, Any]) -> float:
    """Open a cake as the one kept by the browser; return the ms until its picture is there."""
    page.goto(server.address, wait_until="domcontentloaded")
    settle(page)
    kept = json.dumps({"cake": cake, "opened": "", "files": {}})
    page.evaluate("kept => localStorage.setItem('cake-templates', kept)", kept)
    page.goto(server.address, wait_until="domcontentloaded")
    until(page, "document.querySelector('.cake-canvas').dataset.shown")
    return float(page.evaluate("performance.now()"))


def edits(page: Page, most: int) -> Iterator[tuple[float, float]]:
    """Type and take away a digit in fields; yield ms until picture and all, for each key."""
    page.locator("#go-tier\\.0").click()
    fields = page.evaluate(FIELDS)
    for id_ in fields[:: max(1, round(2 * len(fields) / most))]:
        page.evaluate(
            "id => { const e = document.getElementById(id);"
            " for (let d = e.closest('details'); d; d = d.parentElement.closest('details'))"
            " d.open = true; e.focus();"
            " const end = /^[^0-9]*[0-9]+/.exec(e.value)[0].length;"
            " e.setSelectionRange(end, end) }",
            id_,
        )
        page.wait_for_timeout(50)
        for key in (".", "1", "Backspace", "Backspace"):
            page.keyboard.press(key)
            until(page, f"pace.all !== null && (pace.picture !== null || {WRONG})")
            if not page.evaluate(WRONG):
                yield tuple(page.evaluate("[pace.picture, pace.all]"))


def pictures(page: Page, keys: int, pause: float) -> int:
    """Type keys, one every ``pause`` ms; return how many new pictures were shown meanwhile."""
    (id_, *_) = page.evaluate(FIELDS)
    page.evaluate("id => document.getElementById(id).focus()", id_)
    page.keyboard.press("End")
    settle(page)
    page.evaluate("pace.pictures = 0")
    for index in range(keys):
        page.keyboard.press("Backspace" if index % 2 else "Space")
        page.wait_for_timeout(pause)
    return int(page.evaluate("pace.pictures"))


def at(values: Sequence[float], share: float) -> float:
    """Return the value that a share of the values does not exceed."""
    return sorted(values)[min(len(values) - 1, int(share * len(values)))]


@click.command()
@click.argument("names", nargs=-1)
@click.option("--most", default=40, show_default=True, help="Keys typed in each cake.")
def main(names: Sequence[str], most: int) -> None:
    """Measure how soon the page shows an edit, of all cakes or of those NAMES."""
    with serving() as server, browsing() as browser:
        for name, cake in cakes():
            if names and name not in names:
                continue
            page = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
            first = open_cake(page, server, cake)
            settle(page)
            page.wait_for_timeout(2500)
            page.evaluate(WATCH)
            times = list(edits(page, most))
            said = f"{name:18} first picture {first:5.0f} ms; {len(times)} keys:"
            for what, values in zip(("picture", "all"), zip(*times, strict=True), strict=True):
                said += f" {what} {at(values, 0.5):.0f}, 95 % {at(values, 0.95):.0f};"
            shown = pictures(page, 20, 200)
            click.echo(f"{said} {shown} pictures in 20 keys at 5 a second")
            page.context.close()


if __name__ == "__main__":
    main()
