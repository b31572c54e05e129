"""Whether this environment has the lowest versions that pyproject.toml allows.

``python -m tests.lowest`` names each requirement, also of the tests, that another one has lifted.
"""

from __future__ import annotations

import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import version
from pathlib import Path

PROJECT = Path(__file__).resolve().parent.parent / "pyproject.toml"


def lifted() -> Iterator[str]:
    """Yield each requirement that is not there in its lowest version, and the version that is."""
    project = tomllib.loads(PROJECT.read_text(encoding="utf-8"))["project"]
    for requirement in [*project["dependencies"], *project["optional-dependencies"]["test"]]:
        name, lowest = requirement.split(">=")
        if not f"{version(name)}.".startswith(f"{lowest}."):
            yield f"{requirement}, but {version(name)} is installed"


if __name__ == "__main__":
    sys.exit("\n".join(lifted()) or None)
