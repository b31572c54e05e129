"""Random cakes by the thousand: ``python -m tests.campaign --cakes 3000 --seed 1``.

Each goes the whole way of ``tests.whole_way``. A table says how many were made, refused and failed,
by rule and by fault, which were slowest and how much memory they took; each failing cake is
written to a folder, with the files it speaks of, to be run again by ``templates-gen check``.
"""

from __future__ import annotations

import multiprocessing
import resource
import signal
import sys
import traceback
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from time import monotonic, process_time

import click
import tomlkit

from templates_gen.errors import CakeError
from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded, Table
from tests.random_cakes.files import put
from tests.whole_way import Times, go

LONGEST = 120
"""A cake that takes longer has failed, s; all times are those of the processor."""
SLOWEST = 8
"""How many of the slowest cakes the table names."""
ROUND = 100
"""So many cakes go by between two lines of progress, and through one process."""


class TooSlowError(Exception):
    """A cake took too long."""


@dataclass(frozen=True)
class Outcome:
    """What came of one cake: sheets, the key that refused it, or a fault."""

    seed: int
    seconds: float
    times: Mapping[str, float]
    memory: float
    """The largest that the process has been so far, MB."""
    sheets: int = 0
    refused: str = ""
    fault: str = ""


@dataclass
class Tally:
    """What came of the cakes so far."""

    outcomes: list[Outcome] = field(default_factory=list)

    def __str__(self) -> str:
        refused = sum(bool(each.refused) for each in self.outcomes)
        made = len(self.outcomes) - refused - self.failed
        return f"{len(self.outcomes)} cakes: {made} made, {refused} refused, {self.failed} failed"

    @property
    def failed(self) -> int:
        """How many cakes ended in a fault."""
        return sum(bool(each.fault) for each in self.outcomes)


@click.command()
@click.option("--cakes", default=300, show_default=True, help="How many cakes.")
@click.option("--seed", default=1, show_default=True, help="Seed of the first; others follow.")
@click.option("--jobs", default=1, show_default=True, help="How many at a time.")
@click.option("--minutes", default=600.0, help="Start no more cakes after so long.")
@click.option(
    "--failing",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("failing-cakes"),
    show_default=True,
    help="Folder for the cakes that fail.",
)
def campaign(cakes: int, seed: int, jobs: int, minutes: float, failing: Path) -> None:
    """Send random cakes the whole way, and say what came of them. Exits 1 where one failed."""
    tally, end = Tally(), monotonic() + 60 * minutes
    for outcome in _outcomes(range(seed, seed + cakes), jobs, end, failing):
        tally.outcomes.append(outcome)
        if outcome.fault:
            click.echo(f"{outcome.seed}: {outcome.fault}")
        if len(tally.outcomes) % ROUND == 0:
            click.echo(str(tally))
    click.echo("\n".join(_table(tally)))
    sys.exit(1 if tally.failed else 0)


def _outcomes(seeds: Sequence[int], jobs: int, end: float, failing: Path) -> Iterator[Outcome]:
    """Yield what comes of each cake until the clock says ``end``, in turn."""
    one = partial(_one, end=end, failing=failing)
    with multiprocessing.get_context("spawn").Pool(jobs, maxtasksperchild=ROUND) as pool:
        for outcome in pool.imap(one, seeds):
            if outcome is None:
                return
            yield outcome


def _one(seed: int, end: float, failing: Path) -> Outcome | None:
    """Send one cake its way, unless the time is up."""
    if monotonic() > end:
        return None
    start, times = process_time(), Times()
    with times.of("drawing"):
        data = cake_data(Seeded(seed))
    signal.signal(signal.SIGPROF, _too_slow)
    signal.setitimer(signal.ITIMER_PROF, LONGEST)
    sheets, refused, fault = 0, "", ""
    try:
        result = go(data, times)
        sheets = sum(len(pack.sheets) for pack in result.packs)
        refused = _rule(result.refusal) if result.refusal else ""
    except Exception as error:  # whatever it is, it is what the campaign looks for
        fault = _fault(error)
        _keep(data, failing / f"{seed}.toml", traceback.format_exc())
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return Outcome(
        seed, process_time() - start, dict(times.seconds), memory, sheets, refused, fault
    )


def _too_slow(*_: object) -> None:
    raise TooSlowError(f"a cake took more than {LONGEST} s")


def _rule(refusal: CakeError) -> str:
    """Name a rule by the first key that it refuses, without the numbers of tiers and designs."""
    return ".".join(part for part in refusal.problems[0].key if isinstance(part, str))


def _fault(error: Exception) -> str:
    """Name a fault by its kind, the deepest place in the package or the tests, and its text."""
    frames = traceback.extract_tb(error.__traceback__)
    ours = [each for each in frames if "site-packages" not in each.filename] or frames
    place = f"{'/'.join(Path(ours[-1].filename).parts[-2:])}:{ours[-1].name}"
    told = str(error).splitlines()
    return f"{type(error).__name__} in {place}: {told[0][:110] if told else ''}"


def _keep(data: Table, file: Path, trace: str) -> None:
    put(file.parent)
    comment = "".join(f"# {line}\n" for line in trace.splitlines()[-12:])
    file.write_text(tomlkit.dumps(data) + comment, encoding="utf-8")


def _table(tally: Tally) -> list[str]:
    """Return the lines of the table."""
    seconds: Counter[str] = Counter()
    for each in tally.outcomes:
        seconds.update(each.times)
    slowest = sorted(tally.outcomes, key=lambda each: -each.seconds)[:SLOWEST]
    rules = Counter(each.refused for each in tally.outcomes if each.refused)
    memory = max((each.memory for each in tally.outcomes), default=0)
    lines = [
        f"{tally}, from seed {min(each.seed for each in tally.outcomes)}",
        f"{sum(each.sheets for each in tally.outcomes)} sheets,"
        f" {sum(each.seconds for each in tally.outcomes):.0f} s, largest memory {memory:.0f} MB",
        "time: " + ", ".join(f"{name} {s:.1f} s" for name, s in seconds.items()),
        "slowest: " + ", ".join(f"{each.seconds:.1f} s (seed {each.seed})" for each in slowest),
        "refused by the first key they name:",
    ]
    lines += [f"  {count:5}  {rule}" for rule, count in rules.most_common()]
    faults = Counter(each.fault for each in tally.outcomes if each.fault)
    for fault, count in faults.most_common():
        seeds = [each.seed for each in tally.outcomes if each.fault == fault]
        lines.append(f"failed {count}: {fault} (seeds {seeds[:8]})")
    return lines


if __name__ == "__main__":
    campaign()
