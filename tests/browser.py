"""Debian's Chromium, which shows the page to the tests."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from playwright.sync_api import Browser, sync_playwright

from tests.judges import require


@contextmanager
def browsing() -> Iterator[Browser]:
    """Run Chromium without a window."""
    path = require("chromium")
    arguments = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=arguments)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """Run one Chromium for all tests: a process can drive it once."""
    with browsing() as browser:
        yield browser
