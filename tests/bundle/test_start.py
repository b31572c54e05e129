"""A double-click that fails is not a double-click that does nothing."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

START = """
import os, sys
sys.argv = ["templates-gen"]
import templates_gen.cli.open_page as page
from templates_gen.errors import TemplatesGenError
def place(first): {fault}
page._place = place
from templates_gen.bundle.start import start
start()
"""


def started(fault: str, tmp_path: Path, home: Path) -> tuple[subprocess.CompletedProcess[str], str]:
    """Start the program as a double-click does; return how it ended and what a browser opened."""
    opened = tmp_path / "opened"
    browser = tmp_path / "browser"
    browser.write_text(f'#!/bin/sh\necho "$1" >> {opened}\n')
    browser.chmod(0o755)
    kept = {name: value for name, value in os.environ.items() if not name.startswith("XDG_")}
    done = subprocess.run(
        [sys.executable, "-c", START.format(fault=fault)],
        env=kept | {"HOME": str(home), "BROWSER": f"{browser} %s"},
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    return done, opened.read_text() if opened.exists() else ""


@pytest.mark.parametrize(
    ("fault", "shown"),
    [
        ("raise TemplatesGenError('other programs are at all <8137>')", "at all &lt;8137&gt;"),
        ("raise KeyError('rim')", "Internal error of templates-gen"),
        ("pass\nsys.modules['templates_gen.__main__'] = None", "ModuleNotFoundError"),
    ],
)
def test_a_start_that_fails_is_seen(fault: str, shown: str, tmp_path: Path) -> None:
    """In the browser, in a file for whoever helps, and in the terminal where there is one."""
    done, opened = started(fault, tmp_path, tmp_path)
    assert done.returncode != 0
    page = Path(opened.strip().removeprefix("file://"))
    text = page.read_text("utf-8")
    log = tmp_path / ".local" / "state" / "templates-gen" / "log" / "start.log"
    assert page.parent == log.parent
    assert shown in text
    assert str(log) in text
    assert log.read_text("utf-8") == done.stderr


def test_it_is_seen_where_nothing_can_be_kept(tmp_path: Path) -> None:
    """A folder for logs that cannot be made is no reason to say nothing."""
    home = tmp_path / "home"
    home.write_text("a file, where a folder should be")
    _, opened = started("raise TemplatesGenError('no room')", tmp_path, home)
    assert "no room" in Path(opened.strip().removeprefix("file://")).read_text("utf-8")


def test_a_start_that_goes_well_opens_no_page_of_its_own(tmp_path: Path) -> None:
    """And ends as it was meant to."""
    done, opened = started("raise SystemExit(0)", tmp_path, tmp_path)
    assert (done.returncode, opened) == (0, "")
