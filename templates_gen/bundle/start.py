"""What the program of a bundle does: the page without arguments, else the command line."""

from __future__ import annotations

import multiprocessing
import sys


def start() -> None:
    """Run the program, or, as its own child, the work that it was started for."""
    multiprocessing.freeze_support()
    if len(sys.argv) == 1:
        sys.argv.append("open")

    from templates_gen.__main__ import run

    run()


if __name__ == "__main__":
    start()
