"""The page for others: on the network of a house or a shop, and under another WSGI server."""

from __future__ import annotations

import gzip
import json
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from http.client import HTTPConnection

import cv2
import numpy as np
import pytest

from templates_gen.cli.serve import qr_code
from templates_gen.web.app import create_app
from templates_gen.web.assets import assets, digest
from templates_gen.web.jobs import Answer
from tests.web.server import Server, serving

CAKE = json.dumps({"cake": {"tier": [{"size": "8 in", "depth": "4 in", "drips": {}}]}})
MOST_FIRST = 500_000
"""Bytes of all that a first visit loads, at most."""


class _Echo:
    """Workers that do nothing."""

    def run(self, job: str, content: bytes, options: object) -> Answer:
        """Answer with what came."""
        return Answer(content)


def test_what_a_qr_code_says() -> None:
    """The half blocks in the terminal, drawn as they look, are read back by another program."""
    address = "http://192.168.1.20:8137/Zr0-Ab_9xYz1/"
    rows: list[list[int]] = []
    for line in qr_code(address).splitlines():
        rows += [[255 * (char in full) for char in line] for full in ("█▀", "█▄")]
    image = np.array(rows).repeat(8, axis=0).repeat(8, axis=1).astype(np.uint8)
    assert cv2.QRCodeDetector().detectAndDecode(image)[0] == address


def test_a_page_on_the_network_has_a_secret_address() -> None:
    """It prints an address for other devices, a code, a warning; elsewhere there is nothing."""
    with serving("0.0.0.0") as server:
        assert server.host not in ("0.0.0.0", "localhost")
        assert len(server.path) > 10
        assert "Warning" in server.said
        assert "█" in server.said
        assert server.ask("GET", "/")[0] == 404
        assert server.ask("GET", server.path)[0] == 200
        assert server.ask("POST", f"{server.path}cake", CAKE)[0] == 200
        assert server.ask("GET", f"{server.path}static/{digest()}/main.js")[0] == 200


def test_half_open_requests_leave_the_page_usable(server: Server) -> None:
    """While 120 clients have sent half of a request, another is answered."""
    with ExitStack() as open_ones:
        clients = [
            open_ones.enter_context(socket.create_connection((server.host, server.port)))
            for _ in range(120)
        ]
        for client in clients:
            client.sendall(b"POST /cake HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 99\r\n\r\n{")
        assert server.ask("GET", "/")[0] == 200
        for client in clients:
            with pytest.raises(BlockingIOError):  # none was turned away to make room
                client.recv(1, socket.MSG_DONTWAIT)


def test_files_of_the_page_are_compressed_and_kept_for_good() -> None:
    """By a digest in their address; under another digest they are sent, but not to be kept."""
    client = create_app(_Echo(), {"localhost"}).test_client()
    packed = {"Accept-Encoding": "gzip"}
    for name, asset in assets().items():
        answer = client.get(f"/static/{digest()}/{name}", headers=packed)
        assert "immutable" in answer.headers["Cache-Control"]
        assert gzip.decompress(answer.data) == asset.content
        assert client.get(f"/static/{digest()}/{name}").data == asset.content
    assert client.get(f"/static/other/{name}").headers["Cache-Control"] == "no-store"
    first = sum(len(asset.packed) for asset in assets().values()) + len(client.get("/").data)
    assert first < MOST_FIRST


@contextmanager
def hosted() -> Iterator[Server]:
    """Run the page under gunicorn with two workers."""
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    command = ["-m", "gunicorn", "--workers", "2", "--bind", f"127.0.0.1:{port}"]
    process = subprocess.Popen(
        [sys.executable, *command, "templates_gen.web.wsgi:create('cake.school')"],
        stderr=subprocess.DEVNULL,
    )
    try:
        yield Server("127.0.0.1", port, process.pid)
    finally:
        process.send_signal(signal.SIGTERM)
        process.wait(30)


def answered(server: Server, path: str, host: str) -> bytes:
    """Return the answer on a new connection, so that any worker may give it."""
    until = time.monotonic() + 60
    while True:
        connection = HTTPConnection(server.host, server.port, timeout=60)
        try:
            connection.request("POST", path, CAKE, server.json | {"Host": host})
        except ConnectionRefusedError:
            assert time.monotonic() < until
            time.sleep(0.2)
            continue
        response = connection.getresponse()
        assert response.status == 200
        return response.read()


def test_two_workers_behind_one_name() -> None:
    """Whichever worker answers, the answer is the same; no request needs the one before."""
    with hosted() as server:
        for path in ("/cake", "/pack?paper=a4"):
            assert len({answered(server, path, "cake.school") for _ in range(6)}) == 1
        with pytest.raises(AssertionError):
            answered(server, "/cake", "elsewhere.example")
