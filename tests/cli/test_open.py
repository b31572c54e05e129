"""A double-click: the page starts once, is found again, opens a file, and ends from the page."""

from __future__ import annotations

import base64
import json
import socket
import subprocess
import zlib
from collections.abc import Iterator
from pathlib import Path
from random import Random

import pytest

from templates_gen import __version__
from templates_gen.cli import open_page
from tests.cli.command import TIER, call
from tests.web.server import RUN, Server, started


def free_port() -> int:
    """Return a port that no program has."""
    with socket.create_server(("127.0.0.1", 0)) as found:
        return min(int(found.getsockname()[1]), 65_000)


@pytest.fixture(scope="module")
def running() -> Iterator[Server]:
    """Start the page as a double-click does."""
    with started(*RUN, "open", "--no-open", "--port", str(free_port())) as found:
        yield found


def again(server: Server, *arguments: str | Path) -> subprocess.CompletedProcess[str]:
    """Start the page a second time."""
    command = [*RUN, "open", "--port", str(server.port), *map(str, arguments)]
    environment = {"PATH": "", "BROWSER": "echo %s"}
    return subprocess.run(
        command, capture_output=True, text=True, timeout=60, check=False, env=environment
    )


def test_a_second_start_finds_the_page_that_runs(running: Server) -> None:
    """And opens it, instead of a second one."""
    done = again(running, "--no-open")
    assert done.returncode == 0
    assert done.stdout == f"The page is running already: {running.address}\n"


def test_the_page_says_what_it_is(running: Server) -> None:
    """So that a second start knows it."""
    status, _, content = running.ask("GET", "/alive")
    assert (status, json.loads(content)) == (200, {"name": "templates-gen", "version": __version__})


def test_a_file_is_opened_by_the_address(
    running: Server, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The address holds the file as the page unpacks it."""
    opened: list[str] = []
    monkeypatch.setattr("webbrowser.open", opened.append)
    file = tmp_path / "Tom & Ann.cake.toml"
    file.write_text(f'title = "Größe ½"\n{TIER}', encoding="utf-8")
    assert call("open", file, "--port", str(running.port)).exit_code == 0
    [address] = opened
    start, _, packed = address.partition("#file=")
    assert start == running.address
    content = zlib.decompress(base64.urlsafe_b64decode(packed + "=" * (-len(packed) % 4)), -15)
    assert json.loads(content) == {"name": file.name, "text": file.read_text("utf-8")}


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (None, "cannot be read: No such file or directory"),
        (b"\xff\xfe\x00", "not UTF-8 text"),
        (b"# " + Random(1).randbytes(40_000).hex().encode(), "is too long to open this way"),
    ],
    ids=["missing", "no text", "long"],
)
def test_a_file_that_cannot_be_opened(tmp_path: Path, content: bytes | None, message: str) -> None:
    """It is said, and nothing starts."""
    file = tmp_path / "a.toml"
    if content is not None:
        file.write_bytes(content)
    done = call("open", file, "--port", str(free_port()))
    assert done.exit_code == 1
    assert message in done.output


def test_another_program_at_the_port_is_passed_over() -> None:
    """The page is then at the next port; what is there is not asked twice."""
    with socket.create_server(("127.0.0.1", free_port())) as busy:
        port = busy.getsockname()[1]
        with started(*_impatient(port)) as found:
            assert port < found.port < port + open_page.PORTS


def _impatient(port: int) -> list[str]:
    """Return a command that waits a second for an answer, instead of long."""
    code = (
        "import sys; from templates_gen.cli import main, open_page; open_page.PATIENCE = 1.0;"
        f" main(['open', '--no-open', '--port', '{port}'])"
    )
    return [RUN[0], "-c", code]


def test_the_page_ends_the_program() -> None:
    """Once it has answered, cleanly; but not for another site or a form."""
    with started(*RUN, "open", "--no-open", "--port", str(free_port())) as server:
        assert server.process is not None
        assert b'id="quit"' in server.ask("GET", "/")[2]
        assert server.ask("POST", "/quit", b"{}", Origin="http://elsewhere.example")[0] == 403
        assert server.ask("POST", "/quit", b"a=b", Content_Type="text/plain")[0] == 415
        assert server.process.poll() is None
        assert server.ask("POST", "/quit", b"{}")[0] == 200
        assert server.process.wait(20) == 0
