"""Random cakes by the thousand: ``python -m tests.campaign --cakes 3000 --seed 1``.

Each goes the whole way of ``tests.whole_way``. A table says how many were made, refused and failed,
by rule and by fault, which were slowest and how much memory they took; each failing cake is
written to a folder, with the files it speaks of, to be run again by ``templates-gen check``.
"""

from __future__ import annotations

import resource
import signal
import sys
import traceback
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from time import perf_counter

import click
import tomlkit

from templates_gen.errors import CakeError
from tests.random_cakes.cakes import cake_data
from tests.random_cakes.chance import Seeded, Table
from tests.random_cakes.files import put
from tests.whole_way import Times, go

LONGEST = 120
"""A cake that takes longer has failed, s."""
SLOWEST = 5


class TooSlowError(Exception):
    """A cake took too long."""


@dataclass
class Tally:
    """What came of the cakes so far."""

    made: int = 0
    sheets: int = 0
    rules: Counter[str] = field(default_factory=Counter)
    faults: dict[str, list[int]] = field(default_factory=dict)
    slow: list[tuple[float, int]] = field(default_factory=list)
    times: Times = field(default_factory=Times)
    refused: int = 0

    @property
    def failed(self) -> int:
        """How many cakes ended in a fault."""
        return sum(map(len, self.faults.values()))


@click.command()
@click.option("--cakes", default=300, show_default=True, help="How many cakes.")
@click.option("--seed", default=1, show_default=True, help="Seed of the first; others follow.")
@click.option(
    "--failing",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("failing-cakes"),
    show_default=True,
    help="Folder for the cakes that fail.",
)
def campaign(cakes: int, seed: int, failing: Path) -> None:
    """Send random cakes the whole way, and say what came of them. Exits 1 where one failed."""
    tally = Tally()
    signal.signal(signal.SIGALRM, _too_slow)
    for each in range(seed, seed + cakes):
        start = perf_counter()
        _one(each, tally, failing)
        tally.slow = sorted([*tally.slow, (perf_counter() - start, each)], reverse=True)[:SLOWEST]
    click.echo("\n".join(_table(tally, cakes, seed)))
    sys.exit(1 if tally.failed else 0)


def _too_slow(*_: object) -> None:
    raise TooSlowError(f"a cake took more than {LONGEST} s")


def _one(seed: int, tally: Tally, failing: Path) -> None:
    """Send one cake its way."""
    with tally.times.of("drawing"):
        data = cake_data(Seeded(seed))
    signal.alarm(LONGEST)
    try:
        result = go(data, tally.times)
    except Exception as error:  # whatever it is, it is what the campaign looks for
        signal.alarm(0)
        fault = _fault(error)
        tally.faults.setdefault(fault, []).append(seed)
        _keep(data, failing / f"{seed}.toml", traceback.format_exc())
        click.echo(f"{seed}: {fault}")
    else:
        signal.alarm(0)
        _count(result.refusal, tally)
        tally.sheets += sum(len(pack.sheets) for pack in result.packs)


def _count(refusal: CakeError | None, tally: Tally) -> None:
    if refusal is None:
        tally.made += 1
        return
    tally.refused += 1
    key = tuple(part for part in refusal.problems[0].key if isinstance(part, str))
    tally.rules[".".join(key)] += 1


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


def _table(tally: Tally, cakes: int, seed: int) -> list[str]:
    """Return the lines of the table."""
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    whole = sum(tally.times.seconds.values())
    lines = [
        f"{cakes} cakes from seed {seed}: {tally.made} made, {tally.refused} refused,"
        f" {tally.failed} failed",
        f"{tally.sheets} sheets, {whole:.0f} s, largest memory {memory:.0f} MB",
        "time: " + ", ".join(f"{name} {s:.1f} s" for name, s in tally.times.seconds.items()),
        "slowest: " + ", ".join(f"{s:.1f} s (seed {each})" for s, each in tally.slow),
        "refused by the first key they name:",
    ]
    lines += [f"  {count:5}  {rule}" for rule, count in tally.rules.most_common()]
    lines += [
        f"failed {len(seeds)}: {fault} (seeds {seeds[:8]})" for fault, seeds in _by_count(tally)
    ]
    return lines


def _by_count(tally: Tally) -> list[tuple[str, list[int]]]:
    return sorted(tally.faults.items(), key=lambda item: -len(item[1]))


if __name__ == "__main__":
    campaign()
