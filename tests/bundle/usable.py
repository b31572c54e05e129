"""How soon after a click the bundle is usable: ``python -m tests.bundle.usable ZIP``.

The ZIP is unpacked as a user does, and started again and again with an empty environment; Debian's
Chromium, which runs already, as a user's does, asks until the page answers. It prints how long
after the start the page could be typed into, and how long until it had shown the first picture that
the program had to draw; then for how long processors worked for it, whatever else they did.
"""

from __future__ import annotations

import os
import resource
import subprocess
import tempfile
import time
from http.client import HTTPConnection, HTTPException
from pathlib import Path

import click
from playwright.sync_api import Browser

from tests.browser import browsing
from tests.cli.test_open import free_port

PAUSE = 0.02
"""Between two questions whether the page answers, s."""
TYPED = "#stack-line"
DRAWN = "() => [...document.querySelectorAll('.samples img')].some(each => each.naturalWidth > 0)"


def usable(program: Path, home: str, browser: Browser) -> tuple[float, float, float]:
    """Start a bundle; return the s until one can type and until a picture, and those of work."""
    port = free_port()
    page = browser.new_context().new_page()
    before = _worked()
    began = time.monotonic()
    process = subprocess.Popen(
        [program, "open", "--no-open", "--port", str(port)],
        env={"HOME": home, "PATH": ""},
        stdout=subprocess.DEVNULL,
    )
    try:
        while not _answers(port):
            time.sleep(PAUSE)
        page.goto(f"http://127.0.0.1:{port}/", wait_until="commit")
        page.locator(TYPED).fill("8x4")
        typed = time.monotonic() - began
        while not page.evaluate(DRAWN):
            time.sleep(PAUSE)
        drawn = time.monotonic() - began
    finally:
        process.terminate()
        process.wait(20)
        page.context.close()
    return typed, drawn, _worked() - before


def _answers(port: int) -> bool:
    asking = HTTPConnection("127.0.0.1", port, timeout=20)
    try:
        asking.request("GET", "/alive")
        return asking.getresponse().status == 200
    except (OSError, HTTPException):
        return False
    finally:
        asking.close()


def _worked() -> float:
    """Return for how long processors have worked for what this process had started, s."""
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    return used.ru_utime + used.ru_stime


@click.command()
@click.argument("archive", type=click.Path(exists=True, path_type=Path))
@click.option("--times", default=3, show_default=True)
def main(archive: Path, times: int) -> None:
    """Measure how soon after a click the bundle in ARCHIVE is usable."""
    with tempfile.TemporaryDirectory() as folder, browsing() as browser:
        subprocess.run(["unzip", "-q", archive, "-d", folder], check=True)
        [program] = Path(folder).glob("*/templates-gen")
        for number in range(times):
            typed, drawn, worked = usable(program, folder, browser)
            load = os.getloadavg()[0]
            what = "first start" if number == 0 else "again"
            click.echo(
                f"{what}: typed after {typed:.2f} s, first picture after {drawn:.2f} s;"
                f" {worked:.2f} s of work, load {load:.1f} on {os.cpu_count()} processors"
            )


if __name__ == "__main__":
    main()
