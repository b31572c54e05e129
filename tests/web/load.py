"""A bounded load on a page of this machine: clients that edit the sample of four tiers.

``python -m tests.web.load`` starts a server, lets 8 clients edit for 30 s and prints what it
measured; ``--clients 1`` tells how fast the answer to one decorator is. ``--edits 2000`` lets one
client make so many edits, and prints the memory after each tenth of them.
"""

from __future__ import annotations

import copy
import json
import math
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass, field
from http.client import HTTPConnection
from itertools import islice
from pathlib import Path
from typing import Any

import click

from templates_gen.resources import folder
from templates_gen.web.files import opened
from tests.web.server import Server, serving

SAMPLE = opened((folder("samples") / "harbour-wedding.toml").read_text("utf-8"), "sample")
EDITS = (
    (("tier", 1, "drips", "spacing"), "{} mm", 20, 40),
    (("tier", 3, "drips", "longest"), "{} mm", 20, 60),
    (("tier", 0, "depth"), "{} mm", 100, 160),
    (("tier", 2, "size"), "{} mm", 130, 170),
    (("tier", 0, "panels", "height"), "{} mm", 20, 60),
    (("title",), "Harbour {}", 0, 99),
)
"""Keys that clients change, and between which numbers."""
SHOWN = {"cake": "pieces", "scene": "bodies"}
"""What the page asks for after an edit, and which parts of the answer it keeps for the next."""

TENTHS = 10


@dataclass
class Measured:
    """What the clients saw: seconds until each edit was answered, and what went wrong."""

    seconds: list[float] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    def at(self, share: float) -> float:
        """Return the time within which a share of the edits was answered, s."""
        ordered = sorted(self.seconds)
        return ordered[min(len(ordered) - 1, int(share * len(ordered)))]


def bodies(client: int) -> Iterator[dict[str, Any]]:
    """Yield the sample of four tiers after one edit after the other, never the same twice."""
    cake = copy.deepcopy(SAMPLE)
    for step in range(1_000_000):
        key, text, low, high = EDITS[(step + client) % len(EDITS)]
        owner: Any = cake
        for name in key[:-1]:
            owner = owner[name]
        owner[key[-1]] = text.format(round(low + (step * 7.31 + client * 3.7) % (high - low), 2))
        yield {"cake": cake}


def edit(
    server: Server, client: int, until: float, measured: Measured, most: int | None = None
) -> None:
    """Edit until a moment of the steady clock, and ask for what the page asks: sizes and picture.

    What the page has it does not ask for again. An edit is answered when both are. There are
    ``most`` edits at the most.
    """
    connections = {job: HTTPConnection(server.host, server.port, timeout=60) for job in SHOWN}
    known: dict[str, list[str]] = {job: [] for job in SHOWN}
    for body in islice(bodies(client), most):
        start = time.monotonic()
        if start > until:
            return
        for job, connection in connections.items():
            sent = json.dumps(body | {"known": known[job]})
            connection.request("POST", f"/{job}?tab={client}", sent, server.json)
        for job, connection in connections.items():
            response = connection.getresponse()
            content = response.read()
            if response.status != 200:
                measured.errors.append(f"{job} {response.status}: {content[:200]!r}")
            else:
                known[job] = [each["digest"] for each in json.loads(content)[SHOWN[job]]]
        measured.seconds.append(time.monotonic() - start)


def load(server: Server, clients: int, seconds: float) -> Measured:
    """Let clients edit at once for a while."""
    measured = Measured()
    until = time.monotonic() + seconds
    threads = [
        threading.Thread(target=edit, args=(server, client, until, measured))
        for client in range(clients)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return measured


def growth(server: Server, edits: int) -> Iterator[tuple[int, int]]:
    """Let one client edit; yield after each tenth of the edits how many and the bytes in use."""
    measured = Measured()
    for part in range(1, TENTHS + 1):
        edit(server, part, math.inf, measured, edits // TENTHS)
        if measured.errors:
            raise click.ClickException(measured.errors[0])
        yield len(measured.seconds), memory(server)


def memory(server: Server) -> int:
    """Return the resident bytes of a server and the processes it started."""
    pids = [server.pid, *(int(pid) for pid in _children(server.pid))]
    return sum(_resident(pid) for pid in pids)


def _children(pid: int) -> list[str]:
    # a process that a request started is a child of the thread that answered it
    tasks = Path(f"/proc/{pid}/task").glob("*/children")
    return [child for task in tasks for child in task.read_text().split()]


def _resident(pid: int) -> int:
    found = Path(f"/proc/{pid}/status").read_text().split("VmRSS:")
    return int(found[1].split()[0]) * 1024


@click.command()
@click.option("--clients", default=8, show_default=True)
@click.option("--seconds", default=30.0, show_default=True)
@click.option("--edits", default=0, help="Edits of one client, to see how memory grows.")
def main(clients: int, seconds: float, edits: int) -> None:
    """Measure how the page stands a load."""
    if edits:
        with serving() as server:
            for done, used in growth(server, edits):
                click.echo(f"{done} edits: {used / 1e6:.0f} MB")
        return
    with serving() as server:
        load(server, clients, seconds / 2)  # until its memory is full of pieces
        before = memory(server)
        measured = load(server, clients, seconds)
        after = memory(server)
    shares = ", ".join(
        f"{share:.0%} within {measured.at(share) * 1000:.0f} ms" for share in (0.5, 0.95, 0.99)
    )
    click.echo(f"{len(measured.seconds)} edits answered: {shares}")
    click.echo(
        f"{len(measured.errors)} errors; memory {before / 1e6:.0f} MB, then {after / 1e6:.0f} MB"
    )


if __name__ == "__main__":
    main()
