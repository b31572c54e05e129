"""Files that a command writes: all of them or none, whatever stops it."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

import click

from templates_gen.cli import READ, WRITTEN
from templates_gen.cli.interrupts import raising_interrupts
from templates_gen.cli.journal import Change, naming, settle
from templates_gen.cli.locking import locked
from templates_gen.errors import FileError


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all files or, when one cannot be written, none. Raises FileError.

    All lie in the folder of one of them or right below it. Folders that are missing are made,
    whatever command or option the files come from.
    """
    folder = min((place.parent for place in files), key=lambda each: len(each.parts))
    with alone_in(folder):
        replace(folder, files)


def write_and_say(files: Mapping[Path, bytes]) -> None:
    """Write files as write_all does, and say which."""
    write_all(files)
    for place in files:
        click.echo(f"Written: {place}")


def replace(
    folder: Path, files: Mapping[Path, bytes], removes: Mapping[str, str] | None = None
) -> None:
    """Write files, and remove those of a name and SHA-256, within ``alone_in(folder)``.

    Raises FileError, also where a file would be lost that the command has read.
    """
    for place in files:
        _spare(place)
    contents = {place.relative_to(folder).as_posix(): each for place, each in files.items()}
    names = [*contents, *{parent for name in contents if (parent := name.rpartition("/")[0])}]
    fresh = tuple(name for name in names if not _is_there(folder / name))
    Change(folder, tuple(contents), fresh, removes or {}).apply(contents)
    if (ctx := click.get_current_context(silent=True)) is not None:
        ctx.meta[WRITTEN] = True


def refuse_existing(place: Path) -> None:
    """Raise FileError where a file for someone to go on writing in would take another's place."""
    if os.path.lexists(place):
        raise FileError(f"{place} is already there and stays as it is; choose another name")


def spared(*places: Path) -> None:
    """Keep files that a command reads from being written over by it."""
    click.get_current_context().meta.setdefault(READ, []).extend(places)


def _spare(place: Path) -> None:
    ctx = click.get_current_context(silent=True)
    for each in ctx.meta.get(READ, ()) if ctx else ():
        with suppress(OSError):
            if place.samefile(each):
                raise FileError(
                    f"{place} is a file that this command reads, and would be lost. Nothing was"
                    " changed; choose another name or folder"
                )


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
