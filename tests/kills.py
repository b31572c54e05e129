"""Kill the command pack while it replaces an older pack, and tell what each death leaves.

``python -m tests.kills --kills 200`` kills it at random moments of its run and at every change it
makes to the folder, and prints a table: where it was killed, how often the folder then held the
older pack, the new one, a change that a journal tells how to finish, or a mixture without one; and
how often ``check`` of the folder, and then the next run, put everything right.
"""

from __future__ import annotations

import argparse
import os
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from functools import partial
from itertools import count
from pathlib import Path

from templates_gen.cli.journal import State, journal
from templates_gen.cli.pack_folder import put_pack, settled
from tests.cli.command import TIER, ask, snapshot

NEW = f"{TIER}cover = 'none'\n"
OLD = f"{TIER.replace('8 in', '9 in')}cover = 'panelled'\n[tier.panels]\ncount = 8\n"
"""The older pack has pieces that the new one lacks."""
CHANGES = {"os.mkdir", "os.rmdir", "os.rename", "os.remove", "os.link", "os.truncate"}
LIMITS = (0, 100, 1_000, 5_000, 10_000, 20_000)
"""Bytes that a file may hold at the most."""
Files = dict[str, bytes | None]
FOUND = ("old", "new", "journal", "mixed")
"""What a folder may hold after a kill."""


def seen(folder: Path) -> Files:
    """Return the files of a folder that are in sight."""
    return {
        name: content
        for name, content in snapshot(folder).items()
        if content is not None and not Path(name).name.startswith(".")
    }


def found(folder: Path, old: Files, new: Files) -> str:
    """Tell which pack a folder holds."""
    files = seen(folder)
    if files in (old, new):
        return "old" if files == old else "new"
    started = any(journal(folder, state).exists() for state in (State.FINISHING, State.UNDOING))
    return "journal" if started else "mixed"


def checked(folder: Path, old: Files, new: Files) -> bool:
    """Check a folder, and tell whether it then holds one whole pack."""
    ask("check", folder)
    return seen(folder) in (old, new)


def is_mended(folder: Path, old: Files, new: Files) -> bool:
    """Tell whether a check makes a folder whole, and the next run leaves the new pack only."""
    whole = checked(folder, old, new)
    ask("pack", "cake.toml", "--out", folder)
    files = {name for name, content in snapshot(folder).items() if content is not None}
    return whole and files == set(new) and seen(folder) == new


def die_at_change(folder: Path, number: int) -> None:
    """Kill this process when it is about to change the folder for the n-th time."""
    left = count(number - 1, -1)

    def watch(event: str, arguments: tuple[object, ...]) -> None:
        opens = event == "open" and bool(int(str(arguments[2])) & (os.O_WRONLY | os.O_RDWR))
        inside = str(arguments[0]).startswith(str(folder)) if arguments else False
        if (opens or event in CHANGES) and inside and next(left) == 0:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)


def die_at_size(limit: int) -> None:
    """Have the system kill this process in the middle of a file that grows over the limit."""
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    signal.signal(signal.SIGXFSZ, signal.SIG_DFL)


def killed(work: Callable[[], object], sentence: Callable[[], None]) -> bool:
    """Do the work in a copy of this process under a sentence; return whether it was killed."""
    child = os.fork()
    if child == 0:
        try:
            sentence()
            work()
        finally:
            os._exit(0)
    return os.WIFSIGNALED(os.waitpid(child, 0)[1])


def at_every_change(before: Path, new: Files) -> Iterator[Path]:
    """Yield what a kill at each change leaves of a folder, then one in the middle of a file.

    The process that is killed has the files at hand and only puts them in the folder.
    """
    contents = {name: content for name, content in new.items() if content is not None}
    for number in count(1):
        folder = before.with_name(f"change-{number}")
        shutil.copytree(before, folder)
        died = killed(partial(_put, folder, contents), partial(die_at_change, folder, number))
        yield folder
        if not died:
            break
    for limit in LIMITS:
        folder = before.with_name(f"limit-{limit}")
        shutil.copytree(before, folder)
        killed(partial(_put, folder, contents), partial(die_at_size, limit))
        yield folder


def _put(folder: Path, contents: dict[str, bytes]) -> None:
    put_pack(folder, "Cake", contents, settled(folder))


def at_random(before: Path, kills: int, seed: int) -> Iterator[Path]:
    """Yield what a kill at a random moment leaves of a folder: of the whole run, or of its end."""
    chance = random.Random(seed)
    words = [sys.executable, "-m", "templates_gen", "pack", "cake.toml", "--out"]
    start = time.monotonic()
    subprocess.run([*words, before.with_name("timed")], check=True, capture_output=True)
    whole = time.monotonic() - start
    for number in range(kills):
        folder = before.with_name(f"random-{number}")
        shutil.copytree(before, folder)
        running = subprocess.Popen([*words, folder], stdout=subprocess.DEVNULL)
        time.sleep(chance.uniform(0.7 if number % 2 else 0.0, 1.1) * whole)
        running.kill()
        running.wait()
        yield folder


def desk(folder: Path) -> tuple[Path, Files, Files]:
    """Lay out an older pack and the cake file of the new one; return it and both packs' files."""
    ask("pack", "-", "--out", folder / "before", stdin=OLD)
    (folder / "cake.toml").write_text(NEW)
    ask("pack", folder / "cake.toml", "--out", folder / "whole")
    return folder / "before", seen(folder / "before"), seen(folder / "whole")


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    spec = parser.parse_args()
    with tempfile.TemporaryDirectory() as place:
        os.chdir(place)
        before, old, new = desk(Path(place))
        kinds = {
            "every change": at_every_change(before, new),
            "random moments": at_random(before, spec.kills, spec.seed),
        }
        print(f"{'killed at':16}{'kills':>8}", *(f"{word:>8}" for word in (*FOUND, "mended")))
        for kind, folders in kinds.items():
            tally: Counter[str] = Counter()
            for folder in folders:
                tally.update(["kills", found(folder, old, new)])
                tally["mended"] += is_mended(folder, old, new)
                shutil.rmtree(folder)
            print(f"{kind:16}{tally['kills']:8}", *(f"{tally[w]:8}" for w in (*FOUND, "mended")))


if __name__ == "__main__":
    main()
