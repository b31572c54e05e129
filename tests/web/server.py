"""A page to test: a server of its own on this machine, started as a decorator starts it."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.client import HTTPConnection
from pathlib import Path


@dataclass(frozen=True)
class Server:
    """A server that runs: where it is, and its process."""

    host: str
    port: int
    pid: int
    path: str = "/"
    said: str = ""
    process: subprocess.Popen[str] | None = None
    json: dict[str, str] = field(default_factory=lambda: {"Content-Type": "application/json"})

    @property
    def address(self) -> str:
        """The address of the page."""
        return f"http://{self.host}:{self.port}{self.path}"

    def ask(
        self, method: str, path: str, body: bytes | str = b"", **headers: str
    ) -> tuple[int, dict[str, str], bytes]:
        """Return status, headers and content of an answer."""
        connection = HTTPConnection(self.host, self.port, timeout=60)
        sent = self.json | {name.replace("_", "-"): value for name, value in headers.items()}
        connection.request(method, path, body, sent)
        response = connection.getresponse()
        return response.status, dict(response.getheaders()), response.read()


RUN = (sys.executable, "-m", "templates_gen")
"""The program of this environment."""


@contextmanager
def serving(host: str = "127.0.0.1") -> Iterator[Server]:
    """Run a server on a free port, and stop it as Ctrl-C does."""
    with started(*RUN, "serve", "--no-open", "--port", "0", "--host", host) as running:
        yield running


@contextmanager
def started(*command: str | Path, **environment: str) -> Iterator[Server]:
    """Run a program that sends the page, and stop it, if it still runs, as Ctrl-C does."""
    process = subprocess.Popen(
        command,
        stdout=subprocess.PIPE,
        text=True,
        env={**(environment or os.environ), "PYTHONUNBUFFERED": "1"},
    )
    assert process.stdout is not None
    try:
        said = ""
        while not said.endswith(("Ctrl-C.\n", "on the page.\n")):
            line = process.stdout.readline()
            assert line, said
            said += line
        found = re.search(r"http://([\d.]+):(\d+)(\S*)", said)
        assert found, said
        yield Server(found[1], int(found[2]), process.pid, found[3], said, process=process)
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(20)
