"""A bundle as a user has it: unpacked from its ZIP, on a computer with nothing on its path."""

from __future__ import annotations

import os
import socket
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.cli.test_platforms import ODD_FOLDER
from tests.web.server import Server, started
from tests.web.test_page import blank

__all__ = ["blank"]

ARCHIVE = "TEMPLATES_GEN_BUNDLE"
"""The variable with the path of the ZIP."""


WHEEL = "TEMPLATES_GEN_WHEEL"
"""The variable with the path of the wheel that it was made of."""


def _named(variable: str) -> Path:
    """Return the path that a variable names; without one skip, or fail where CI is set."""
    if not (found := os.environ.get(variable)):
        message = f"{variable} names no file: .ci/run shows how it is made"
        if os.environ.get("CI"):
            pytest.fail(message)
        pytest.skip(message)
    return Path(found)


@pytest.fixture(scope="session")
def archive() -> Path:
    """Return the ZIP."""
    return _named(ARCHIVE)


@pytest.fixture(scope="session")
def wheel() -> Path:
    """Return the wheel."""
    return _named(WHEEL)


@pytest.fixture(scope="session")
def program(archive: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Unpack the ZIP as a file manager does, and return the program."""
    return unpacked(archive, tmp_path_factory.mktemp("bundle") / ODD_FOLDER)


def unpacked(archive: Path, folder: Path) -> Path:
    """Unpack a ZIP into a folder, and return the program."""
    subprocess.run(["unzip", "-q", archive, "-d", folder], check=True)
    [found] = folder.glob("*/templates-gen")
    return found


@pytest.fixture(scope="session")
def home(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Return the only variables that there are: nothing is on the path."""
    return {"HOME": str(tmp_path_factory.mktemp("home")), "PATH": ""}


@pytest.fixture(scope="session")
def server(program: Path, home: dict[str, str]) -> Iterator[Server]:
    """Start the page of the bundle."""
    with socket.create_server(("127.0.0.1", 0)) as found:
        port = min(int(found.getsockname()[1]), 65_000)
    with started(program, "open", "--no-open", "--port", str(port), **home) as running:
        yield running
