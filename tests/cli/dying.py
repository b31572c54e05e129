"""Kill the command at every change it makes to a folder, and keep what each death leaves.

Run as ``python -m tests.cli.dying FOLDER CAKE``: ``pack CAKE --out FOLDER`` is tried over and over
in copies of this process, each of which dies one change later than the one before, until one lives;
then with a limit on the size of a file, at which the system kills the writer in the middle
of it. The folder as the n-th death leaves it is moved to ``FOLDER.n``, and put back for the next.
"""

from __future__ import annotations

import os
import resource
import shutil
import signal
import sys
from collections.abc import Callable, Iterator
from functools import partial
from itertools import count
from pathlib import Path

from templates_gen.cli import main

CHANGES = {"os.mkdir", "os.rename", "os.remove", "os.link", "os.symlink", "os.truncate"}
LIMITS = (0, 100, 1_000, 5_000, 10_000, 20_000)
"""Bytes that a file may hold at the most."""


def die_at_change(folder: Path, number: int) -> None:
    """Kill this process when it is about to change the folder for the n-th time."""
    left = count(number - 1, -1)

    def watch(event: str, arguments: tuple[object, ...]) -> None:
        opens = event == "open" and arguments[1] is not None and "r" not in str(arguments[1])
        inside = str(arguments[0]).startswith(str(folder)) if arguments else False
        if (opens or event in CHANGES) and inside and next(left) == 0:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)


def die_at_size(limit: int) -> None:
    """Have the system kill this process in the middle of a file that grows over the limit."""
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    signal.signal(signal.SIGXFSZ, signal.SIG_DFL)


def killed(words: list[str], sentence: Callable[[], None]) -> bool:
    """Run the command in a copy of this process under a sentence; return whether it was killed."""
    child = os.fork()
    if child == 0:
        try:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
            sentence()
            main(words, standalone_mode=False)
        finally:
            os._exit(0)
    return os.WIFSIGNALED(os.waitpid(child, 0)[1])


def deaths(words: list[str], folder: Path) -> Iterator[None]:
    """Let the command die at every change, then at every limit."""
    for number in count(1):
        died = killed(words, partial(die_at_change, folder, number))
        yield
        if not died:
            break
    for limit in LIMITS:
        killed(words, partial(die_at_size, limit))
        yield


def run(folder: Path, cake: Path) -> None:
    """Keep what each death leaves, and put the folder back for the next."""
    words = ["pack", str(cake), "--out"]
    before = folder.with_name("before")
    shutil.copytree(folder, before)
    # once in this process, so that its copies need not import and read everything again
    main([*words, str(folder.with_name("warm"))], standalone_mode=False)
    for number, _ in enumerate(deaths([*words, str(folder)], folder)):
        folder.rename(folder.with_name(f"{folder.name}.{number}"))
        shutil.copytree(before, folder)


if __name__ == "__main__":
    run(Path(sys.argv[1]), Path(sys.argv[2]))
