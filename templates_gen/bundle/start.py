"""What the program of a bundle does: the page without arguments, else the command line."""

from __future__ import annotations

import multiprocessing
import sys
from contextlib import nullcontext

from templates_gen.bundle.visible import failures_are_visible


def start() -> None:
    """Run the program, or, as its own child, the work that it was started for."""
    multiprocessing.freeze_support()
    is_double_click = len(sys.argv) == 1
    if is_double_click:
        sys.argv.append("open")
    with failures_are_visible() if is_double_click else nullcontext():
        from templates_gen.__main__ import run

        run()


if __name__ == "__main__":
    start()
