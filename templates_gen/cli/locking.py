"""One run at a time in a folder: a lock that the system takes back when a run is killed."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from templates_gen.errors import FileError

LOCK = ".templates-gen.lock"


@contextmanager
def locked(folder: Path) -> Iterator[None]:
    """Keep other runs out of a folder within the block.

    Raises FileError at once when one is at work there, OSError when no lock can be made.
    """
    file = folder / LOCK
    opened = _opened(file)
    while not _still_there(file, opened):  # the run before has just taken its lock away
        os.close(opened)
        opened = _opened(file)
    try:
        yield
    finally:
        with suppress(OSError):
            file.unlink()
        os.close(opened)
        if sys.platform == "win32":  # where no file is removed while it is open
            with suppress(OSError):
                file.unlink()


def _opened(file: Path) -> int:
    """Open and lock a file."""
    opened = os.open(file, os.O_RDWR | os.O_CREAT, 0o666)
    try:
        _lock(opened)
    except (BlockingIOError, PermissionError):
        os.close(opened)
        raise FileError(
            f"Another run is writing into {file.parent} at this moment. Nothing was changed; wait"
            " until it has ended, or choose another folder"
        ) from None
    except OSError:  # a file system without locks
        pass
    return opened


def _still_there(file: Path, opened: int) -> bool:
    try:
        return os.path.samestat(file.stat(), os.fstat(opened))
    except FileNotFoundError:
        return False


if sys.platform == "win32":
    import msvcrt

    def _lock(opened: int) -> None:
        msvcrt.locking(opened, msvcrt.LK_NBLCK, 1)

else:
    import fcntl

    def _lock(opened: int) -> None:
        fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
