"""Work done beside the server, in processes of bounded time and memory.

A job that takes too long or too much ends its process, and nothing else.
"""

from __future__ import annotations

import itertools
import multiprocessing
from collections.abc import Mapping
from contextlib import suppress
from functools import partial
from threading import Condition, Lock

from templates_gen.web.answer import Answer, refusal
from templates_gen.web.process import READY, work

SECONDS = {
    "form": 30.0,
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
    "class-columns": 10.0,
    "handout": 30.0,
    "chart": 60.0,
    "choices": 30.0,
    "sample-picture": 30.0,
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
    "class-columns",
    "sample-picture",
}
"""Jobs that a decorator waits for: they never wait for another that takes long."""
BEHIND = 4
"""How much a process for other jobs steps back behind those for quick ones (niceness)."""
GIVING_UP = 1.0
"""How long a newer edit waits for the process that gives up an older one, s."""
AT_HOME = 0.5
"""How long a request waits for the process that knows its cake, s; then any other may have it."""
MANY_MORE = 2
"""How many more homes of a kind of job are worth making a cake anew in another process."""
MOST_HOMES = 200
"""Tabs of browsers, each with a kind of job, whose process is remembered: the latest."""
PATIENCE = 30.0
"""How long a request waits for its turn, s."""
STARTING = 60.0
"""How long a process may take to be ready, s: no part of the time of a job."""
TRIES = 2
"""How often a job is given to a process: it may be ended from outside once."""
TOO_LONG = (
    "this cake takes too long to draw here: leave out small pieces, designs or tiers, or make the"
    " pack with templates-gen pack"
)
ENDED = "the computer ended this work twice, as it does when memory is short: try again"
BUSY = "the server is busy with other cakes: try again in a moment"
STOPPED = "the page has been stopped: start it again with templates-gen serve"


class EndedError(Exception):
    """A process has ended before it answered, as when the system needs its memory."""


class _Worker:
    """One process and the pipe to it."""

    def __init__(self, niceness: int = 0) -> None:
        context = multiprocessing.get_context("spawn")
        self._pipe, theirs = context.Pipe()
        self._process = context.Process(target=work, args=(theirs, niceness), daemon=True)
        self._process.start()
        self.is_ready = False
        self._number = 0
        self._sending = Lock()
        theirs.close()

    def look(self) -> None:
        """Notice whether a process that has no job is ready for one."""
        with suppress(EOFError, OSError):
            self.is_ready = self.is_ready or (self._pipe.poll() and self._pipe.recv() == READY)

    def run(
        self, job: str, content: bytes, options: Mapping[str, str], seconds: float
    ) -> Answer | None:
        """Return the answer, or None when there is none in time.

        Raises EndedError when the process has ended.
        """
        try:
            if not self.is_ready:
                self.is_ready = self._pipe.poll(STARTING) and self._pipe.recv() == READY
            with self._sending:
                self._number += 1
                self._pipe.send((self._number, (job, content, dict(options))))
            if self.is_ready and self._pipe.poll(seconds):
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


def _remember(kept: dict[tuple[str, str], _Worker], key: tuple[str, str], worker: _Worker) -> None:
    """Keep the process of a job of a tab, and forget the oldest of too many."""
    kept.pop(key, None)
    kept[key] = worker
    if len(kept) > MOST_HOMES:
        kept.pop(next(iter(kept)))


class ClosedError(Exception):
    """All processes have been ended, and no more are started."""


class _Pool:
    """Processes, each of which remembers the cakes that have their home there.

    Each kind of job of a tab of a browser has a home, in different processes where there are
    several, so that the picture of a cake does not wait for its figures.
    """

    def __init__(self, niceness: int) -> None:
        self._niceness = niceness
        self._all: list[_Worker] = []
        self._free: list[_Worker] = []
        self._homes: dict[tuple[str, str], _Worker] = {}  # by tab and job, the latest last
        self._latest: dict[tuple[str, str], _Worker] = {}  # what did it the last time, likewise
        self._waiting: dict[int, _Worker | None] = {}  # in turn, each with the home it waits for
        self._turns = itertools.count()
        self._running: dict[tuple[str, str], _Worker] = {}
        self._change = Condition()
        self._starting = Lock()
        self._is_closed = False

    def add(self, instead_of: _Worker | None = None) -> None:
        """Start one more process, or one in the place of another. Raises ClosedError."""
        with self._starting:  # none is started while all are ended
            if self._is_closed:
                raise ClosedError
            worker = _Worker(self._niceness)
            with self._change:
                self._all = [each for each in self._all if each is not instead_of] + [worker]
        self._give_back(worker, instead_of)

    def _take(self, job: str, tab: str) -> _Worker | None:
        """Return a process when one is free: that which knows the cake, unless it is long at work.

        What the same tab of a browser wanted of this kind before is given up.
        """
        with self._change:
            self._cancel((tab, job))
            home = self._home(tab, job) if tab else None
            worker = self._wait(home, AT_HOME) if home else None
            worker = worker or self._wait(None, self._patience())
            if worker and tab:
                self._running[tab, job] = worker
                _remember(self._latest, (tab, job), worker)
            return worker

    def _patience(self) -> float:
        """Return how long a request waits: while all processes start, as long as that may take."""
        return PATIENCE if any(each.is_ready for each in self._all) else PATIENCE + STARTING

    def _home(self, tab: str, job: str) -> _Worker | None:
        """Return the home of such jobs of a tab, or None while some processes still start."""
        for worker in self._free:
            worker.look()
        if not all(worker.is_ready for worker in self._all):
            return None
        home = self._homes.get((tab, job))
        if home not in self._all:
            home = min(self._all, key=partial(self._fullness, tab, job))
        _remember(self._homes, (tab, job), home)
        return home

    def _fullness(
        self, tab: str, job: str, worker: _Worker
    ) -> tuple[int, int, bool, int, int, int]:
        """Return how badly a process suits as the home of such jobs of a tab: the least suits best.

        First comes how many homes of the tab are there. Then whether it has many more homes of the
        kind than another: the first process would keep all tabs of a class that started together.
        Then, as the first answers came before all processes were ready: whether it did not do the
        last such job, and what else it did last for the tab. Then how many homes of the kind and of
        all are there.
        """
        there = [key for key, home in self._homes.items() if home is worker]
        did = [job for (of, job), latest in self._latest.items() if latest is worker and of == tab]
        of_tab, of_kind = sum(of == tab for of, _ in there), sum(of == job for _, of in there)
        return of_tab, of_kind // MANY_MORE, job not in did, len(did), of_kind, len(there)

    def _wait(self, home: _Worker | None, seconds: float) -> _Worker | None:
        """Return a home, or for None any process, once it is free: those that came first go first.

        None where it is not free in time.
        """
        turn = next(self._turns)
        self._waiting[turn] = home
        self._change.wait_for(lambda: self._free_for(turn), seconds)
        worker = self._free_for(turn)
        del self._waiting[turn]
        if worker:
            self._free.remove(worker)
        self._change.notify_all()
        return worker

    def _free_for(self, turn: int) -> _Worker | None:
        """Return the free process that is for a turn, if there is one."""
        home = self._waiting[turn]
        if any(before < turn and at in (None, home) for before, at in self._waiting.items()):
            return None
        able = [each for each in self._free if home in (None, each)]
        return min(able, key=lambda worker: not worker.is_ready, default=None)

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
        try:
            for _ in range(TRIES):
                worker = self._take(job, options.get("tab", ""))
                if worker is None:
                    return refusal(BUSY, 503)
                with suppress(EndedError):
                    return self._answer(worker, job, content, options) or refusal(TOO_LONG, 503)
        except ClosedError:
            return refusal(STOPPED, 503)
        return refusal(ENDED, 503)

    def _answer(
        self, worker: _Worker, job: str, content: bytes, options: Mapping[str, str]
    ) -> Answer | None:
        """Return the answer of a process; one that gave none is replaced. Raises EndedError."""
        answer = None
        try:
            answer = worker.run(job, content, options, SECONDS[job])
        finally:
            if answer is None:
                worker.stop()
                self.add(instead_of=worker)
            else:
                self._give_back(worker)
        return answer

    def close(self) -> None:
        """End all processes."""
        with self._starting:
            self._is_closed = True
            for worker in self._all:
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
