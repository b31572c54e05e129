"""A process that does jobs: how it starts, what it keeps between them, what it gives up."""

from __future__ import annotations

import gc
import itertools
import os
import signal
import sys
import traceback
from collections.abc import Mapping
from contextlib import suppress
from multiprocessing.connection import Connection

from templates_gen.web.answer import Answer, refusal

IDLE_SECONDS = 2.0
"""A process without work for so long, s, looks for what it no longer needs."""
MOST_UNSWEPT = 500
"""Jobs after which it does so all the same."""
MOST_BLOCKS = 3_000_000
"""Pieces of memory, of some 50 bytes, above which a process keeps less of earlier cakes."""
LEFT_OUT = 100
"""How many values it forgets at a time."""
MEMORY = 2 * 1024**3
"""Bytes that a process may use."""
STARTED_ON = b'{"cake": {"tier": [{"size": "8 in", "depth": "4 in", "drips": {}}]}}'
"""A cake made before the first request, where that leaves time for it."""
FIRST_JOBS = ("cake", "scene", "front")
"""What is done with it."""
READY = "ready"
INTERNAL_ERROR = (
    "This is a fault of templates-gen, not of your cake. Nothing was written, and what you typed is"
    " still here. The details are where the page was started."
)


def work(pipe: Connection, niceness: int) -> None:
    """Do jobs from a pipe until it is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _bound_memory()
    if niceness and hasattr(os, "nice"):
        os.nice(niceness)
    import templates_gen.web.jobs  # noqa: F401 (by far the most of what there is to wait for)
    from templates_gen.web.live import MEMO

    with suppress(EOFError, ConnectionError):
        pipe.send(READY)
        for job in FIRST_JOBS:
            if not pipe.poll():
                done(job, STARTED_ON, {})
        gc.freeze()  # what was imported stays: no need to look through it again
        gc.disable()  # what is kept between edits is much, and none of it garbage
        requests = Requests(pipe)
        MEMO.before = requests.check
        for count in itertools.count(1):
            pipe.send(done(*requests.next()))
            _sweep(pipe, count)


Request = tuple[str, bytes, dict[str, str]]
"""A job, its body and its options."""


class CancelledError(Exception):
    """Nobody waits any more for the job under way."""


class Requests:
    """What comes through a pipe: numbered requests, and the numbers of those to be given up."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe
        self._number = 0

    def next(self) -> Request:
        """Wait for a request and return it."""
        while True:
            number, request = self._pipe.recv()
            if request is not None:  # else one that was answered meanwhile
                self._number = number
                found: Request = request
                return found

    def check(self) -> None:
        """Raise CancelledError where the request under way is to be given up."""
        while self._pipe.poll():
            number, _ = self._pipe.recv()
            if number == self._number:
                raise CancelledError


def _sweep(pipe: Connection, count: int) -> None:
    """Free what a job left, after its answer; all that is no longer needed, in a quiet moment."""
    from templates_gen.web.live import MEMO

    gc.collect(0)
    while sys.getallocatedblocks() > MOST_BLOCKS and MEMO.forget(LEFT_OUT):
        pass
    if not pipe.poll(IDLE_SECONDS) or count % MOST_UNSWEPT == 0:
        gc.collect()


def done(job: str, content: bytes, options: Mapping[str, str]) -> Answer:
    """Return the answer to a job, or say why there is none; a fault of the program is printed."""
    from templates_gen.web.jobs import run

    try:
        return run(job, content, options)
    except CancelledError:
        return refusal("a newer edit came before this was done", 409)
    except MemoryError:
        return refusal("so large a cake has no room on this page: leave some out", 503)
    except Exception:
        # a fault of the program ends one answer, not the work
        traceback.print_exc()
        return refusal(INTERNAL_ERROR, 500)


def _bound_memory() -> None:
    try:
        import resource
    except ImportError:  # no such limits on this system
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
