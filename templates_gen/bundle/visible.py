"""A start without a terminal: what goes wrong is kept in a file and shown in the browser."""

from __future__ import annotations

import html
import os
import sys
import tempfile
import traceback
import webbrowser
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import BinaryIO

LOG, PAGE = "start.log", "start-failed.html"
ERRORS = 2
"""The number under which a process, and what it starts, writes its errors."""
FAILED = """\
<!doctype html>
<html lang="en">
<meta charset="utf-8">
<title>Cake templates could not start</title>
<style>
body {{ font: 1.1rem/1.5 sans-serif; max-width: 40rem; margin: 3rem auto; padding: 0 1rem }}
pre {{ white-space: pre-wrap; background: #eee; color: #222; padding: 1rem }}
</style>
<h1>Cake templates could not start</h1>
<p>Your cakes are safe: they are kept in your browser. This is what went wrong:</p>
<pre>{said}</pre>
<p>Start the program once more. If it fails again, unpack its ZIP anew and start that.</p>
<p>The same words are in the file <code>{log}</code>, to send to whoever gave you the program.</p>
</html>
"""


@contextmanager
def failures_are_visible() -> Iterator[None]:
    """Keep in a file what is said of errors within the block; if it fails, open a page that has it.

    Errors of processes that are started within the block are kept too.
    """
    log = log_file()
    with _errors_in(log) as terminal:
        try:
            yield
        except SystemExit as end:
            if end.code not in (None, 0):
                _show(log, terminal)
            raise
        except BaseException:
            traceback.print_exc()
            _show(log, terminal)
            sys.exit(1)


def log_file() -> Path:
    """Return the file for what is said of errors, in a folder that is there."""
    with suppress(ImportError, OSError):
        from platformdirs import user_log_path

        folder = user_log_path("templates-gen", appauthor=False)
        folder.mkdir(parents=True, exist_ok=True)
        if os.access(folder, os.W_OK):
            return folder / LOG
    return Path(tempfile.mkdtemp(prefix="templates-gen-")) / LOG


@contextmanager
def _errors_in(log: Path) -> Iterator[BinaryIO | None]:
    """Send errors to a file; yield where they went before, if they went anywhere."""
    before = sys.stderr
    try:
        terminal = os.fdopen(os.dup(ERRORS), "wb")
    except OSError:  # started without any
        terminal = None
    with log.open("w", encoding="utf-8", errors="backslashreplace", buffering=1) as stream:
        os.dup2(stream.fileno(), ERRORS)
        sys.stderr = stream
        try:
            yield terminal
        finally:
            sys.stderr = before
            if terminal is not None:
                os.dup2(terminal.fileno(), ERRORS)
                terminal.close()


def _show(log: Path, terminal: BinaryIO | None) -> None:
    """Open a page with what a file has, and write that to the terminal, if there is one."""
    sys.stderr.flush()
    said = log.read_text(encoding="utf-8", errors="replace")
    if terminal is not None:
        with suppress(OSError):
            terminal.write(said.encode())
            terminal.flush()
    page = log.with_name(PAGE)
    page.write_text(FAILED.format(said=html.escape(said), log=html.escape(str(log))), "utf-8")
    webbrowser.open(page.as_uri())
