"""A progress bar that appears only on a screen, and only when the work takes over a second."""

from __future__ import annotations

import sys
import time
from contextlib import ExitStack
from types import TracebackType
from typing import Any

import click

from templates_gen.cli.interrupts import raising_interrupts

PATIENCE = 1.0
"""Seconds of work before a bar is worth showing."""


class Progress:
    """Count steps; show a bar once they have taken a while.

    ``steps`` may be set later, before the first of them is done.
    """

    def __init__(self, steps: int = 0) -> None:
        self.steps = steps
        self._done = 0
        self._start = time.monotonic()
        self._bar: Any = None
        self._exits = ExitStack()

    def __enter__(self) -> Progress:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._exits.__exit__(kind, error, trace)

    def step(self) -> None:
        """Count one step done."""
        self._done += 1
        if self._bar is not None:
            self._bar.update(1)
        elif sys.stderr.isatty() and time.monotonic() - self._start > PATIENCE:
            self._exits.enter_context(raising_interrupts())  # a bar hides the cursor
            bar: Any = click.progressbar(length=self.steps, file=sys.stderr, label="Making")
            self._bar = self._exits.enter_context(bar)
            self._bar.update(self._done)
