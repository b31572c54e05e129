"""Which process does a job: the one that knows the cake, in turn, and none after the end."""

from __future__ import annotations

import threading
from collections.abc import Iterator, Mapping

import pytest

from templates_gen.web import workers
from templates_gen.web.answer import Answer
from templates_gen.web.workers import Workers
from tests.web.conftest import wait_for


class Process:
    """Stands for a process: its jobs end when they may. All that were started are in ``all``."""

    all: list[Process]

    def __init__(self, niceness: int = 0) -> None:
        self.is_ready = True
        self.did: list[tuple[str, str]] = []
        self.may_end = threading.Event()
        self.may_end.set()
        self.is_ended = False
        Process.all.append(self)

    def look(self) -> None:
        """Be ready from the first."""

    def run(
        self, job: str, content: bytes, options: Mapping[str, str], seconds: float
    ) -> Answer | None:
        """Note the job of a tab, and wait until it may end."""
        self.did.append((options.get("tab", ""), job))
        self.may_end.wait(20)
        if self.is_ended:
            raise workers.EndedError
        return Answer(b"{}")

    def stop(self) -> None:
        """End the job under way."""
        self.is_ended = True
        self.may_end.set()


@pytest.fixture
def pool(monkeypatch: pytest.MonkeyPatch) -> Iterator[Workers]:
    """Return workers of two processes for quick jobs and one for the others."""
    Process.all = []
    monkeypatch.setattr(workers, "_Worker", Process)
    found = Workers()
    found.run("form", b"{}", {})
    for each in Process.all:
        each.did.clear()
    yield found
    found.close()


def ask(pool: Workers, job: str, tab: str) -> threading.Thread:
    """Have a job done for a tab beside the test."""
    asked = threading.Thread(target=pool.run, args=(job, b"{}", {"tab": tab}))
    asked.start()
    return asked


def test_a_tab_has_its_jobs_done_where_its_cake_is_known(pool: Workers) -> None:
    """Figures always by one process, pictures by the other; several tabs are shared out evenly."""
    tabs = "abcdefgh"
    for _ in range(3):
        for tab in tabs:
            for job in ("cake", "scene"):
                pool.run(job, b"{}", {"tab": tab})
    one, other = (set(process.did) for process in Process.all if process.did)
    assert not one & other
    for done in (one, other):
        assert {tab for tab, _ in done} == set(tabs)
        assert sum(job == "cake" for _, job in done) == len(tabs) / 2


def test_the_picture_stays_where_it_was_first_drawn(
    pool: Workers, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While another process starts one does all; then its figures alone go to the other."""
    first, second = Process.all[0], Process.all[-1]
    second.is_ready = False
    monkeypatch.setattr(pool._quick, "_free", [first])
    pool.run("scene", b"{}", {"tab": "a"})
    second.is_ready = True
    pool._quick._free = list(pool._quick._all)
    for job in ("cake", "scene", "cake", "scene"):
        pool.run(job, b"{}", {"tab": "a"})
    assert [job for _, job in first.did] == ["scene"] * 3
    assert [job for _, job in second.did] == ["cake"] * 2


def test_tabs_that_start_together_do_not_stay_with_one_process(
    pool: Workers, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What one process did while the other started is shared out evenly once both are ready."""
    tabs, (first, second) = "abcdefgh", (Process.all[0], Process.all[-1])
    second.is_ready = False
    monkeypatch.setattr(pool._quick, "_free", [first])
    for _ in range(2):
        for tab in tabs:
            for job in ("cake", "scene"):
                pool.run(job, b"{}", {"tab": tab})
        second.is_ready = True
        pool._quick._free = list(pool._quick._all)
    for job in ("cake", "scene"):
        assert sum(done == job for _, done in second.did) == len(tabs) / 2


def test_jobs_for_one_process_are_done_in_turn(pool: Workers) -> None:
    """While the home of three tabs is at work they wait for it, and then go first come first."""
    tabs = "abcdef"
    for tab in tabs:
        pool.run("cake", b"{}", {"tab": tab})
    home = Process.all[0]
    first, *others = [tab for tab, _ in home.did]
    assert len(others) == 2
    home.did.clear()
    home.may_end.clear()
    asked = [ask(pool, "cake", first)]
    wait_for(lambda: bool(home.did))
    for tab in others:
        waiting = len(pool._quick._waiting)
        asked.append(ask(pool, "cake", tab))
        wait_for(lambda before=waiting: len(pool._quick._waiting) > before)  # type: ignore[misc]
    home.may_end.set()
    for each in asked:
        each.join()
    assert [tab for tab, _ in home.did] == [first, *others]


def test_a_job_does_not_wait_long_for_one_process(
    pool: Workers, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where its home stays at work, another process does it."""
    monkeypatch.setattr(workers, "AT_HOME", 0.01)
    for tab in "abc":
        pool.run("cake", b"{}", {"tab": tab})
    home, other = Process.all[0], Process.all[-1]
    assert [tab for tab, _ in home.did] == ["a", "c"]
    home.may_end.clear()
    busy = ask(pool, "cake", "a")
    wait_for(lambda: len(home.did) == 3)
    assert pool.run("cake", b"{}", {"tab": "c"}).status == 200
    assert other.did[-1] == ("c", "cake")
    home.may_end.set()
    busy.join()


def test_requests_wait_for_the_first_process_however_slowly_it_starts(
    pool: Workers, monkeypatch: pytest.MonkeyPatch
) -> None:
    """While no process is ready a request is not refused after the usual wait for its turn."""
    monkeypatch.setattr(workers, "PATIENCE", 0.0)
    for each in Process.all:
        each.is_ready = False
        each.may_end.clear()
    answers: list[Answer] = []
    asked = [
        threading.Thread(target=lambda: answers.append(pool.run("form", b"{}", {})))
        for _ in range(4)
    ]
    for thread in asked:
        thread.start()
    wait_for(lambda: len(pool._quick._waiting) == 2)
    for each in Process.all:
        each.may_end.set()
    for thread in asked:
        thread.join()
    assert [each.status for each in answers] == [200] * 4


def test_one_that_waits_for_any_process_is_not_passed_by_later_ones(pool: Workers) -> None:
    """Nor does it hold up one that came before it."""
    quick = pool._quick
    home = quick._all[0]
    quick._free = [home]
    quick._waiting = {0: None, 1: home}
    assert quick._free_for(0) is home
    assert quick._free_for(1) is None
    quick._waiting = {0: home, 1: None}
    assert quick._free_for(0) is home
    quick._waiting = {}
    quick._free = list(quick._all)


def test_a_process_that_ended_is_replaced_for_its_tabs(pool: Workers) -> None:
    """The tab is answered by the new process, now and later."""
    pool.run("cake", b"{}", {"tab": "a"})
    Process.all[0].is_ended = True
    for _ in range(2):
        assert pool.run("cake", b"{}", {"tab": "a"}).status == 200
    assert len(Process.all) == 4
    assert len({id(process) for process in Process.all[1:] if ("a", "cake") in process.did}) == 1


def test_none_is_started_after_the_end(pool: Workers) -> None:
    """A job under way while all are ended is refused, and no process comes in their place."""
    home = Process.all[0]
    home.may_end.clear()
    answers: list[Answer] = []
    busy = threading.Thread(target=lambda: answers.append(pool.run("cake", b"{}", {"tab": "a"})))
    busy.start()
    wait_for(lambda: bool(home.did))
    pool.close()
    busy.join()
    assert len(Process.all) == 3
    assert [each.status for each in answers] == [503]
    assert b"stopped" in answers[0].content
