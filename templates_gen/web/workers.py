"""Work done beside the server, in processes of bounded time and memory.

A job that takes too long or too much ends its process, and nothing else.
"""

from __future__ import annotations

import gc
import itertools
import multiprocessing
import os
import signal
import traceback
from collections.abc import Mapping
from contextlib import suppress
from multiprocessing.connection import Connection
from threading import Condition, Lock

from templates_gen.web.answer import Answer, refusal

SECONDS = {
    "form": 10.0,
    "cake": 30.0,
    "front": 30.0,
    "scene": 30.0,
    "bench": 60.0,
    "calendar": 10.0,
    "sheets": 60.0,
    "pack": 60.0,
    "piece": 30.0,
    "open": 10.0,
    "save": 10.0,
    "stack": 10.0,
    "shape": 10.0,
    "convert": 10.0,
    "resize": 30.0,
    "class": 120.0,
    "class-list": 10.0,
    "handout": 30.0,
    "chart": 60.0,
    "choices": 10.0,
    "sample-picture": 10.0,
}
"""All jobs, and the longest that each may take."""
QUICK = {
    "form",
    "resize",
    "cake",
    "front",
    "scene",
    "open",
    "save",
    "stack",
    "shape",
    "convert",
    "choices",
    "sample-picture",
}
"""Jobs that a decorator waits for: they never wait for another that takes long."""
BEHIND = 4
"""How much a process for other jobs steps back behind those for quick ones (niceness)."""
IDLE_SECONDS = 2.0
"""A process without work for so long, s, looks for what it no longer needs."""
MOST_UNSWEPT = 500
"""Jobs after which it does so all the same."""
GIVING_UP = 1.0
"""How long a newer edit waits for the process that gives up an older one, s."""
PATIENCE = 30.0
"""How long a request waits for its turn, s."""
STARTING = 60.0
"""How long a process may take to be ready, s: no part of the time of a job."""
MEMORY = 2 * 1024**3
"""Bytes that a process may use."""
STARTED_ON = b'{"cake": {"tier": [{"size": "8 in", "depth": "4 in", "drips": {}}]}}'
"""A cake made before the first request, where that leaves time for it."""
FIRST_JOBS = ("cake", "scene", "front")
"""What is done with it."""
READY = "ready"
TRIES = 2
"""How often a job is given to a process: it may be ended from outside once."""
TOO_LONG = (
    "this cake takes too long to draw here: leave out small pieces, designs or tiers, or make the"
    " pack with templates-gen pack"
)
ENDED = "the computer ended this work twice, as it does when memory is short: try again"
INTERNAL_ERROR = (
    "This is a fault of templates-gen, not of your cake. Nothing was written, and what you typed is"
    " still here. The details are where the page was started."
)


def _work(pipe: Connection, niceness: int) -> None:
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
                _done(job, STARTED_ON, {})
        gc.freeze()  # what was imported stays: no need to look through it again
        gc.disable()  # what is kept between edits is much, and none of it garbage
        requests = Requests(pipe)
        MEMO.before = requests.check
        for count in itertools.count(1):
            pipe.send(_done(*requests.next()))
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
    gc.collect(0)
    if not pipe.poll(IDLE_SECONDS) or count % MOST_UNSWEPT == 0:
        gc.collect()


def _done(job: str, content: bytes, options: Mapping[str, str]) -> Answer:
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


class EndedError(Exception):
    """A process has ended before it answered, as when the system needs its memory."""


class _Worker:
    """One process and the pipe to it."""

    def __init__(self, niceness: int = 0) -> None:
        context = multiprocessing.get_context("spawn")
        self._pipe, theirs = context.Pipe()
        self._process = context.Process(target=_work, args=(theirs, niceness), daemon=True)
        self._process.start()
        self._is_ready = False
        self._number = 0
        self._sending = Lock()
        theirs.close()

    def run(
        self, job: str, content: bytes, options: Mapping[str, str], seconds: float
    ) -> Answer | None:
        """Return the answer, or None when there is none in time.

        Raises EndedError when the process has ended.
        """
        try:
            if not self._is_ready:
                self._is_ready = self._pipe.poll(STARTING) and self._pipe.recv() == READY
            with self._sending:
                self._number += 1
                self._pipe.send((self._number, (job, content, dict(options))))
            if self._is_ready and self._pipe.poll(seconds):
                answer: Answer = self._pipe.recv()
                return answer
        except (EOFError, OSError):
            raise EndedError from None
        return None

    def cancel(self) -> None:
        """Have the job under way given up at its next step, if it is not done by then."""
        with self._sending, suppress(OSError):
            self._pipe.send((self._number, None))

    def stop(self) -> None:
        """End the process."""
        self._pipe.close()
        self._process.kill()
        self._process.join()


class _Pool:
    """Processes that are as good as each other, but for what they remember."""

    def __init__(self, niceness: int) -> None:
        self._niceness = niceness
        self._all: set[_Worker] = set()
        self._free: list[_Worker] = []
        self._did: dict[str, _Worker] = {}
        self._running: dict[tuple[str, str], _Worker] = {}
        self._change = Condition()

    def add(self) -> None:
        """Start one more process."""
        worker = _Worker(self._niceness)
        self._all.add(worker)
        self._give_back(worker)

    def _take(self, job: str, tab: str) -> _Worker | None:
        """Return a free process when there is one: that which did such a job last, if it is.

        What the same tab of a browser wanted of this kind before is given up.
        """
        with self._change:
            self._cancel((tab, job))
            if not self._change.wait_for(lambda: self._free, PATIENCE):
                return None
            last = self._did.get(job)
            others = [each for each in self._free if each not in self._did.values()]
            worker = last if last in self._free else (others or self._free)[0]
            self._free.remove(worker)
            self._did[job] = worker
            if tab:
                self._running[tab, job] = worker
            return worker

    def _cancel(self, key: tuple[str, str]) -> None:
        """Have an older job given up, and wait a little for its process, which knows the cake."""
        if older := self._running.get(key):
            older.cancel()
            self._change.wait_for(lambda: self._running.get(key) is not older, GIVING_UP)

    def _give_back(self, worker: _Worker, instead_of: _Worker | None = None) -> None:
        done = instead_of or worker
        with self._change:
            self._running = {key: each for key, each in self._running.items() if each is not done}
            self._free.append(worker)
            self._change.notify_all()

    def run(self, job: str, content: bytes, options: Mapping[str, str]) -> Answer:
        """Do a job when a process is free."""
        for _ in range(TRIES):
            worker = self._take(job, options.get("tab", ""))
            if worker is None:
                return refusal("the server is busy with other cakes: try again in a moment", 503)
            with suppress(EndedError):
                return self._answer(worker, job, content, options) or refusal(TOO_LONG, 503)
        return refusal(ENDED, 503)

    def _answer(
        self, worker: _Worker, job: str, content: bytes, options: Mapping[str, str]
    ) -> Answer | None:
        """Return the answer of a process; one that gave none is replaced. Raises EndedError."""
        answer = None
        try:
            answer = worker.run(job, content, options, SECONDS[job])
        finally:
            free = worker
            if answer is None:
                self._all.discard(worker)
                worker.stop()
                free = _Worker(self._niceness)
                self._all.add(free)
            self._give_back(free, worker)
        return answer

    def close(self) -> None:
        """End all processes."""
        for worker in tuple(self._all):  # one may still be starting
            worker.stop()


class Workers:
    """Processes for quick jobs, and one that stands back behind them for all that can wait.

    One is started at once, the others after its first answer: they would make that wait.
    """

    def __init__(self, count: int = 2) -> None:
        self._quick, self._others = _Pool(0), _Pool(BEHIND)
        self._missing = [*[self._quick] * (count - 1), self._others]
        self._starting = Lock()
        self._quick.add()

    def run(self, job: str, content: bytes, options: Mapping[str, str]) -> Answer:
        """Do a job when a process is free."""
        if job in QUICK:
            answer = self._quick.run(job, content, options)
            self._start_others()
            return answer
        self._start_others()
        return self._others.run(job, content, options)

    def _start_others(self) -> None:
        with self._starting:
            while self._missing:
                self._missing.pop().add()

    def close(self) -> None:
        """End all processes."""
        with self._starting:
            self._missing.clear()
        self._quick.close()
        self._others.close()
