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
from templates_gen.web.answer import Answer
from templates_gen.web.app import create_app
from templates_gen.web.assets import asset, digest, names
from templates_gen.web.jobs import JOBS, run
from templates_gen.web.workers import QUICK, SECONDS
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
    first = len(client.get("/").data)
    for name in names():
        found = asset(name)
        assert found is not None
        first += len(found.packed)
        answer = client.get(f"/static/{digest()}/{name}", headers=packed)
        assert "immutable" in answer.headers["Cache-Control"]
        assert gzip.decompress(answer.data) == found.content
        assert client.get(f"/static/{digest()}/{name}").data == found.content
    assert client.get(f"/static/other/{name}").headers["Cache-Control"] == "no-store"
    assert first + len(gzip.compress(run("form", b"{}", {}).content)) < MOST_FIRST


def test_what_is_said_of_cake_files_is_made_once() -> None:
    """By a process; then it is kept, and not sent again to a browser that has it."""
    made: list[str] = []

    class Counting(_Echo):
        def run(self, job: str, content: bytes, options: object) -> Answer:
            made.append(job)
            return Answer(b"{}", status=200 if made[1:] else 503)

    client = create_app(Counting(), {"localhost"}).test_client()
    assert client.get("/form.json").status_code == 503
    first = client.get("/form.json")
    assert (first.status_code, first.data) == (200, b"{}")
    again = client.get("/form.json", headers={"If-None-Match": first.headers["ETag"]})
    assert again.status_code == 304
    assert made == ["form", "form"]


def test_pictures_of_samples_are_made_once_and_sent_compressed() -> None:
    """Each by a process; then it is kept for every browser that comes."""
    made: list[bytes] = []
    picture = b"<svg>" + b"M0 0" * 1000 + b"</svg>"

    class Counting(_Echo):
        def run(self, job: str, content: bytes, options: object) -> Answer:
            made.append(content)
            return Answer(picture, "image/svg+xml")

    client = create_app(Counting(), {"localhost"}).test_client()
    for name in ("starter", "naming-day", "starter"):
        sent = client.get(f"/samples/{name}.svg", headers={"Accept-Encoding": "gzip"})
        assert sent.mimetype == "image/svg+xml"
        assert gzip.decompress(sent.data) == picture
        assert len(sent.data) < len(picture) / 10
    assert len(made) == 2
    assert client.get("/samples/none.svg").status_code == 404


def test_the_server_knows_every_job() -> None:
    """And how long each may take, without importing what does them."""
    assert set(SECONDS) == set(JOBS)
    assert set(SECONDS) > QUICK


def test_the_page_does_not_wait_for_what_draws_cakes() -> None:
    """The server imports none of the libraries that take long; processes beside it do."""
    command = "import sys, templates_gen.cli.open_page, templates_gen.web.app; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", command], capture_output=True, check=True)
    imported = {name.split(".")[0] for name in done.stdout.decode().split()}
    assert "flask" in imported
    assert not imported & {"numpy", "shapely", "fontTools", "pydantic", "reportlab", "icalendar"}


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
