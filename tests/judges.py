"""Outside programs that judge what the project writes. A missing judge fails in CI."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path
from sysconfig import get_path

import pytest


def require(program: str) -> str:
    """Return the path of an outside program; without it skip, or fail where CI is set."""
    # scripts of this environment count, whether it is activated or not
    found = shutil.which(program, path=os.pathsep.join([get_path("scripts"), os.environ["PATH"]]))
    if found is None:
        message = f"the outside judge {program} is not installed"
        if os.environ.get("CI"):
            pytest.fail(message)
        pytest.skip(message)
    return found


def run(program: str, *arguments: str | Path) -> str:
    """Run an outside program and return what it prints; fail the test when it fails."""
    done = subprocess.run(
        [require(program), *map(str, arguments)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, f"{program}: {done.stdout}{done.stderr}"
    return done.stdout
