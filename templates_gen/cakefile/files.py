"""Reading a file that a person named."""

from __future__ import annotations

import stat
from pathlib import Path


def reason(error: OSError | ValueError) -> object:
    """Return why a file cannot be read or written, without its name again."""
    return getattr(error, "strerror", None) or error


def content_of(path: Path, most: int) -> bytes:
    """Return up to ``most`` bytes of a file.

    Raises OSError or ValueError; anything but a regular file is refused, as a pipe may never end.
    """
    kind = path.stat().st_mode
    if stat.S_ISDIR(kind):
        raise IsADirectoryError(0, "it is a folder")
    if not stat.S_ISREG(kind):
        raise OSError(0, "it is a pipe or a device, not a file")
    with path.open("rb") as stream:
        return stream.read(most)
