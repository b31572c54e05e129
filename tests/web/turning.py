"""How smoothly the cake turns: ``python -m tests.web.turning``.

In Debian's Chromium a sample is opened and turned by the range below its picture, a step at every
frame of the screen, with the processor slowed down as on an old tablet. It prints how many frames
came in a second, of the sample of four tiers or of those named; and, as other programs may take
their share of the processor, how many it would be by the time that the page itself worked.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import click
from playwright.sync_api import CDPSession, Page

from tests.browser import browsing
from tests.web.conftest import settle, start_from
from tests.web.server import serving

SLOWER = 6
"""How many times slower the processor is made."""
RESTED = 4000
"""ms after which the lists and the pages that follow an edit are made too."""
TURN = """async (seconds) => {
  const range = document.getElementById("turn");
  const times = [];
  let turn = -180;
  await new Promise((done) => {
    const step = (now) => {
      times.push(now);
      if (now - times[0] > seconds * 1000) return done();
      turn = turn >= 180 ? -180 : turn + 5;
      range.value = turn;
      range.dispatchEvent(new Event("input", { bubbles: true }));
      requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  });
  return times;
}"""
"""Turn the cake a step at every frame; return when each frame was, ms."""


@dataclass(frozen=True, slots=True)
class Turned:
    """How long each frame took, ms, and how long the page worked for all of them, s."""

    frames: list[float]
    worked: float

    @property
    def rate(self) -> float:
        """Frames in a second, as they came."""
        return 1000 * len(self.frames) / sum(self.frames)

    def alone(self, slower: float) -> float:
        """Frames in a second on a processor so much slower that does nothing else."""
        return len(self.frames) / (self.worked * slower)


def turned(page: Page, seconds: float, slower: float) -> Turned:
    """Turn the cake for a while with a slower processor."""
    devtools = page.context.new_cdp_session(page)
    devtools.send("Performance.enable", {"timeDomain": "threadTicks"})
    devtools.send("Emulation.setCPUThrottlingRate", {"rate": slower})
    before = _worked(devtools)
    times = page.evaluate(TURN, seconds)
    worked = _worked(devtools) - before
    devtools.send("Emulation.setCPUThrottlingRate", {"rate": 1})
    frames = [later - sooner for sooner, later in pairwise(times)]
    return Turned(frames, worked)


def _worked(devtools: CDPSession) -> float:
    """Return for how long the page has worked on its own thread so far, s."""
    metrics = devtools.send("Performance.getMetrics")["metrics"]
    return float(next(each["value"] for each in metrics if each["name"] == "TaskDuration"))


@click.command()
@click.argument("names", nargs=-1)
@click.option("--seconds", default=5.0, show_default=True)
@click.option("--slower", default=float(SLOWER), show_default=True)
def main(names: Sequence[str], seconds: float, slower: float) -> None:
    """Measure how smoothly samples turn: that of four tiers, or those NAMES."""
    with serving() as server, browsing() as browser:
        for name in names or ("harbour-wedding",):
            page = browser.new_context(viewport={"width": 1280, "height": 900}).new_page()
            page.goto(server.address, wait_until="domcontentloaded")
            settle(page)
            start_from(page, name)
            page.wait_for_timeout(RESTED)
            seen = turned(page, seconds, slower)
            own = turned(page, seconds, 1)
            click.echo(
                f"{name}, {slower:g} times slower: {seen.rate:.0f} frames a second as they came,"
                f" {own.alone(slower):.0f} by the {1000 * own.worked / len(own.frames):.1f} ms that"
                " a frame takes of the page's own time"
            )
            page.context.close()


if __name__ == "__main__":
    main()
