"""The command as the tests call it: in this process where that will do, or in one of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import IO

from click.testing import CliRunner, Result

from templates_gen.cli import main

TIER = "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
"""A cake file of three lines that makes a pack of few sheets."""


def call(*arguments: str | Path, stdin: str | bytes = "") -> Result:
    """Run the command in this process; what it did not mean to raise is raised here too."""
    words = [str(argument) for argument in arguments]
    done = CliRunner().invoke(main, words, input=stdin, prog_name="templates-gen")
    if done.exception is not None and not isinstance(done.exception, SystemExit):
        raise done.exception
    return done


def ask(*arguments: str | Path, stdin: str | bytes = "") -> str:
    """Run the command in this process, which must succeed, and return what it prints."""
    done = call(*arguments, stdin=stdin)
    assert done.exit_code == 0, done.output
    return done.stdout


def process(
    *arguments: str | Path,
    cwd: Path,
    environment: Mapping[str, str] | None = None,
    stdout: IO[bytes] | int = subprocess.PIPE,
) -> subprocess.CompletedProcess[bytes]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "templates_gen", *map(str, arguments)],
        cwd=cwd,
        env={**os.environ, **(environment or {})},
        stdin=subprocess.DEVNULL,
        stdout=stdout,
        stderr=subprocess.PIPE,
        check=False,
    )


def snapshot(folder: Path) -> dict[str, bytes | None]:
    """Return every path below a folder and what is in it."""
    return {
        str(path.relative_to(folder)): path.read_bytes() if path.is_file() else None
        for path in sorted(folder.rglob("*"))
    }
