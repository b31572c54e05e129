"""The fonts and samples that travel with the package."""

from __future__ import annotations

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def folder(name: str) -> Path:
    """Return the folder ``fonts`` or ``samples``.

    In a wheel it lies inside the package, in a checkout beside it.
    """
    inside = _PACKAGE / name
    return inside if inside.is_dir() else _PACKAGE.parent / name
