"""Ctrl-C where a run has to clear up: anywhere else it ends the run at once."""

from __future__ import annotations

import signal
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def raising_interrupts() -> Iterator[None]:
    """Let Ctrl-C within the block raise KeyboardInterrupt, so that the block can clear up."""
    if signal.getsignal(signal.SIGINT) is not signal.SIG_DFL:
        yield  # whoever calls has seen to it
        return
    signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, signal.SIG_DFL)
