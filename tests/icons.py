"""Public icon sets, fetched by npm for the tests alone, to read artwork that others have drawn."""

from __future__ import annotations

import os
import shutil
import subprocess
import tarfile
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

SETS = {"feather-icons": "4.29.2", "@mapbox/maki": "8.2.0"}
"""By their names on npm, with the version: one of strokes (MIT), one of filled shapes (CC0)."""


@cache
def icons(name: str) -> dict[str, bytes]:
    """Return every SVG of an icon set by its name.

    Without npm, or where it reaches nothing, the test is skipped; where CI is set it fails.
    """
    with TemporaryDirectory() as folder:
        try:
            npm = shutil.which("npm") or "npm"
            subprocess.run(
                [npm, "pack", "--silent", f"{name}@{SETS[name]}"],
                cwd=folder,
                check=True,
                capture_output=True,
                timeout=120,
            )
        except (OSError, subprocess.SubprocessError) as error:
            if os.environ.get("CI"):
                raise
            pytest.skip(f"npm does not reach {name}: {error}")
        (archive,) = Path(folder).glob("*.tgz")
        with tarfile.open(archive) as tar:
            members = [m for m in tar.getmembers() if m.isfile() and "/icons/" in m.name]
            files = {
                Path(m.name).stem: tar.extractfile(m) for m in members if m.name.endswith("svg")
            }
            return {stem: file.read() for stem, file in sorted(files.items()) if file is not None}
