"""Work done beside the server, in processes of bounded time and memory.

A job that takes too long or too much ends its process, and nothing else.
"""

from __future__ import annotations

import gc
import multiprocessing
import signal
import traceback
from collections.abc import Mapping
from contextlib import suppress
from multiprocessing.connection import Connection
from queue import Empty, LifoQueue

from templates_gen.web.jobs import Answer, refusal, run

SECONDS = {"pack": 60.0, "sheets": 60.0, "piece": 30.0}
"""The longest a job may take; any other has ``SHORT``."""
SHORT = 10.0
PATIENCE = 30.0
"""How long a request waits for its turn, s."""
STARTING = 60.0
"""How long a process may take to be ready, s: no part of the time of a job."""
MEMORY = 2 * 1024**3
"""Bytes that a process may use."""
STARTED_ON = b'{"cake": {"tier": [{"size": "8 in", "depth": "4 in", "drips": {}}]}}'
"""A cake made before the first request, so that all is imported and ready."""
READY = "ready"
FAULT = (
    "This is a fault of templates-gen, not of your cake. Nothing was written, and what you typed is"
    " still here. The details are where the page was started."
)


def _work(pipe: Connection) -> None:
    """Do jobs from a pipe until it is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _bound_memory()
    for job in ("cake", "front"):
        _done(job, STARTED_ON, {})
    gc.freeze()  # what was imported stays: no need to look through it again
    with suppress(EOFError, BrokenPipeError):
        pipe.send(READY)
        while True:
            pipe.send(_done(*pipe.recv()))


def _done(job: str, content: bytes, options: Mapping[str, str]) -> Answer:
    try:
        return run(job, content, options)
    except MemoryError:
        return refusal("so large a cake has no room on this page: leave some out", 503)
    except Exception:
        # a fault of the program ends one answer, not the work
        traceback.print_exc()
        return refusal(FAULT, 500)


def _bound_memory() -> None:
    try:
        import resource
    except ImportError:  # no such limits on this system
        return
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


class _Worker:
    """One process and the pipe to it."""

    def __init__(self) -> None:
        context = multiprocessing.get_context("spawn")
        self._pipe, theirs = context.Pipe()
        self._process = context.Process(target=_work, args=(theirs,), daemon=True)
        self._process.start()
        self._is_ready = False
        theirs.close()

    def run(
        self, job: str, content: bytes, options: Mapping[str, str], seconds: float
    ) -> Answer | None:
        """Return the answer, or None when there is none in time or the process has ended."""
        with suppress(EOFError, OSError):
            if not self._is_ready:
                self._is_ready = self._pipe.poll(STARTING) and self._pipe.recv() == READY
            self._pipe.send((job, content, dict(options)))
            if self._is_ready and self._pipe.poll(seconds):
                answer: Answer = self._pipe.recv()
                return answer
        return None

    def stop(self) -> None:
        """End the process."""
        self._pipe.close()
        self._process.kill()
        self._process.join()


class Workers:
    """A few processes; the one that was used last is used next, as it remembers most."""

    def __init__(self, count: int = 2) -> None:
        self._all = {_Worker() for _ in range(count)}
        self._unused_in_tier: LifoQueue[_Worker] = LifoQueue()
        for worker in self._all:
            self._unused_in_tier.put(worker)

    def run(self, job: str, content: bytes, options: Mapping[str, str]) -> Answer:
        """Do a job when a process is free."""
        try:
            worker = self._unused_in_tier.get(timeout=PATIENCE)
        except Empty:
            return refusal("the server is busy with other cakes: try again in a moment", 503)
        try:
            answer = worker.run(job, content, options, SECONDS.get(job, SHORT))
            if answer is None:
                self._all.discard(worker)
                worker.stop()
                worker = _Worker()
                self._all.add(worker)
        finally:
            self._unused_in_tier.put(worker)
        return answer or refusal("this cake takes too long to make here: leave some out", 503)

    def close(self) -> None:
        """End all processes."""
        for worker in self._all:
            worker.stop()
