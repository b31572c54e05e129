"""Run the command line: ``templates-gen``, or ``python -m templates_gen``."""

from __future__ import annotations

import signal


def run() -> None:
    """Run the command line.

    Ctrl-C ends it at once, unless it is ignored, but for the parts that have to clear up: a library
    that is being imported would turn a KeyboardInterrupt into an error of its own.
    """
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, signal.SIG_DFL)

    from templates_gen.cli import main

    main(prog_name="templates-gen")


if __name__ == "__main__":
    run()
