"""Files that a command writes: all of them or none, whatever stops it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

import click

from templates_gen.cli import WRITTEN
from templates_gen.cli.interrupts import raising_interrupts
from templates_gen.cli.journal import Change, naming, settle
from templates_gen.cli.locking import locked


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all files or, when one cannot be written, none. Raises FileError.

    All lie in the folder of one of them or right below it. Folders that are missing are made,
    whatever command or option the files come from.
    """
    folder = min((place.parent for place in files), key=lambda each: len(each.parts))
    with alone_in(folder):
        replace(folder, files)


def replace(
    folder: Path, files: Mapping[Path, bytes], removes: Mapping[str, str] | None = None
) -> None:
    """Write files, and remove those of a name and SHA-256, within ``alone_in(folder)``."""
    contents = {place.relative_to(folder).as_posix(): each for place, each in files.items()}
    names = [*contents, *{parent for name in contents if (parent := name.rpartition("/")[0])}]
    fresh = tuple(name for name in names if not _is_there(folder / name))
    Change(folder, tuple(contents), fresh, removes or {}).apply(contents)
    if (ctx := click.get_current_context(silent=True)) is not None:
        ctx.meta[WRITTEN] = True


def _is_there(place: Path) -> bool:
    with naming(place):
        return place.exists()


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Make a folder where it is missing, settle what a killed run left, keep other runs out.

    Raises FileError. On any failure within the block the folders that were made are removed.
    """
    with raising_interrupts(), ExitStack() as made:
        for each in reversed((folder, *folder.parents)):
            with naming(each):
                if each.is_symlink() and not each.exists():
                    raise FileNotFoundError(0, "it is a link that leads nowhere")
                if not each.exists():
                    each.mkdir(exist_ok=True)
                    made.callback(_remove_folder, each)
                elif not each.is_dir():
                    raise NotADirectoryError(0, "it is no folder", str(each))
        with ExitStack() as lock:
            with naming(folder):
                lock.enter_context(locked(folder))
            settle(folder)
            yield
        made.pop_all()


def _remove_folder(folder: Path) -> None:
    with suppress(OSError):
        folder.rmdir()
