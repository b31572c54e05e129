"""A newer edit ends the older one, and what that has made serves the newer."""

from __future__ import annotations

import json
import threading
import time
from multiprocessing import Pipe

import pytest
from playwright.sync_api import Page

from templates_gen.memo import Memo
from templates_gen.plan import make_plan
from templates_gen.web.answer import Answer
from templates_gen.web.process import CancelledError, Requests
from templates_gen.web.request import cake_of
from templates_gen.web.workers import Workers
from tests.web.conftest import settle, until
from tests.web.pace import FIELDS, WATCH, rich

MANY = rich([16, 14, 12])
HOLD = """() => {
  window.scenes = { asked: 0, held: 0, ended: 0, free: false };
  const real = window.fetch;
  const hold = (signal) => new Promise((_, refuse) => {
    scenes.held += 1;
    signal.addEventListener("abort", () => {
      scenes.ended += 1;
      refuse(signal.reason);
    });
  });
  window.fetch = async (address, init) => {
    if (address.startsWith("scene") && !address.includes("coarse") && !scenes.free) {
      scenes.asked += 1;
      await (scenes.asked === 1 ? new Promise((done) => { setTimeout(done, 400); })
        : hold(init.signal));
    }
    return real(address, init);
  };
}"""
"""Let the first whole picture take long, and no other come until they are free."""

SLOW_START = """
  window.scenes = [];
  window.answered = 0;
  const real = window.fetch;
  window.fetch = async (address, init) => {
    if (!String(address).startsWith("scene")) return real(address, init);
    scenes.push(String(address));
    if (scenes.length === 2) await new Promise((done) => { setTimeout(done, 400); });
    const response = await real(address, init);
    setTimeout(() => { answered += 1; }, 200); // by then it is shown
    return response;
  };
"""
"""Record the requests for pictures, and delay the first whole one."""


def test_a_request_is_given_up_before_its_next_step() -> None:
    """What was made is kept; a late word about an answered request does not end the next."""
    ours, theirs = Pipe()
    requests = Requests(theirs)
    memo = Memo(10, requests.check)
    first, second = ("cake", b"1", {"tab": "a"}), ("cake", b"2", {"tab": "a"})
    ours.send((1, first))
    assert requests.next() == first
    assert memo.get("one", lambda: 1) == 1
    ours.send((1, None))
    with pytest.raises(CancelledError):
        memo.get("two", lambda: 2)
    assert "one" in memo
    assert "two" not in memo
    ours.send((1, None))
    ours.send((2, second))
    assert requests.next() == second
    ours.send((1, None))
    assert memo.get("two", lambda: 2) == 2


def test_the_next_edit_goes_on_where_the_older_was_ended() -> None:
    """Ended after twenty steps, a plan needs only the others when it is made again."""

    class Steps:
        """Counts what is made, and ends it after so many steps."""

        count, most = 0, 20

        def check(self) -> None:
            """Count one more, or end it all."""
            if self.count == self.most:
                raise CancelledError
            self.count += 1

    steps, spec = Steps(), cake_of({"cake": MANY})
    memo = Memo(1000, steps.check)
    with pytest.raises(CancelledError):
        make_plan(spec, memo)
    steps.most = 10_000
    plan = make_plan(spec, memo)
    whole = Steps()
    whole.most = 10_000
    assert make_plan(spec, Memo(1000, whole.check)).pieces == plan.pieces
    # the step that was ended is counted once, and one piece may be within another
    assert whole.count <= steps.count <= whole.count + 1


def test_a_newer_edit_of_a_tab_ends_the_older() -> None:
    """The older is answered with 409, at once; another tab of the browser is not disturbed."""
    pool = Workers(1)
    answers: dict[str, Answer] = {}

    def ask(name: str, tab: str, title: str) -> None:
        content = json.dumps({"cake": {**MANY, "title": title}}).encode()
        answers[name] = pool.run("cake", content, {"tab": tab})

    try:
        pool.run("cake", b'{"cake": {"tier": [{"size": "8 in", "depth": "4 in"}]}}', {})
        older = threading.Thread(target=ask, args=("older", "a", "One"))
        older.start()
        while not pool._quick._running:
            assert older.is_alive()
            time.sleep(0.001)
        other = threading.Thread(target=ask, args=("other", "b", "Two"))
        other.start()
        ask("newer", "a", "Three")
        older.join()
        other.join()
    finally:
        pool.close()
    assert answers["older"].status == 409
    assert answers["newer"].status == answers["other"].status == 200


def test_every_key_has_its_picture_while_the_whole_one_takes_long(page: Page) -> None:
    """A coarse picture comes at each key, and what is left of the older edit is ended."""
    page.locator("[id='go-tier.0']").click()
    page.evaluate(WATCH)
    (id_, *_) = page.evaluate(FIELDS)
    page.evaluate("id => document.getElementById(id).focus()", id_)
    page.keyboard.press("End")
    with page.expect_response(lambda each: "/scene" in each.url and "coarse" not in each.url):
        page.keyboard.press("Space")  # a first whole picture does not count as long
    settle(page)
    page.evaluate(HOLD)
    page.keyboard.press("Backspace")
    settle(page)
    until(page, "pace.pictures > 0")
    keys = 6
    for key in range(1, keys + 1):
        before = page.evaluate("() => { pace.pictures = 0; return scenes.held; }")
        page.keyboard.press("Space" if key % 2 else "Backspace")
        until(page, f"pace.pictures > 0 && scenes.held > {before}")
        until(page, "scenes.held - scenes.ended === 1")
    assert page.evaluate("scenes.ended") >= keys - 1
    page.evaluate("scenes.free = true")
    page.keyboard.press("Space")
    until(page, "scenes.held === scenes.ended")
    settle(page)


def test_no_edit_is_coarse_because_the_start_was_slow(page: Page) -> None:
    """After a first picture that took long, that of the first edit comes whole at once."""
    page.add_init_script(SLOW_START)
    page.reload()
    until(page, "window.answered === 2")
    settle(page)
    first, second = page.evaluate("scenes")
    assert "coarse" in first
    assert "coarse" not in second
    page.locator("[id='go-tier.0']").click()
    page.locator("#f-tier-0-depth").press("End")
    page.locator("#f-tier-0-depth").press("Space")
    until(page, "scenes.length > 2")
    settle(page)
    assert "coarse" not in page.evaluate("scenes[2]")
