"""Files: written whole beside their place, then put in it, so that none is ever half-written."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

import click

from templates_gen.cli import WRITTEN
from templates_gen.errors import FileError


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all files or, when one cannot be written, none. Raises FileError.

    Folders that are missing are made, whatever command or option the files come from.
    """
    with ExitStack() as undo:
        for folder in dict.fromkeys(place.parent for place in files):
            _make_folder(folder, undo)
        drafts = {}
        for place, content in files.items():
            with _naming(place):
                drafts[place] = _draft(place, content, undo)
        for place, draft in drafts.items():
            with _naming(place):
                _put(draft, place, undo)
        undo.pop_all()
    if (ctx := click.get_current_context(silent=True)) is not None:
        ctx.meta[WRITTEN] = True
    for place in files:
        _remove(_beside(place, "old"))


@contextmanager
def _naming(place: Path) -> Iterator[None]:
    """Say of an error within the block that this place cannot be written. Raises FileError."""
    try:
        yield
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or error
        raise FileError(
            f"{place} cannot be written: {reason}. Nothing was changed; choose another place"
        ) from None


def _make_folder(folder: Path, undo: ExitStack) -> None:
    """Make a folder and those it is in, and on undoing take away those that were made."""
    for each in reversed((folder, *folder.parents)):
        with _naming(each):
            if not each.exists():
                each.mkdir()
                undo.callback(_remove_folder, each)
            elif not each.is_dir():
                raise NotADirectoryError(0, "it is no folder", str(each))


def _draft(place: Path, content: bytes, undo: ExitStack) -> Path:
    """Write a file beside its place; its name is fixed, so that a killed run leaves no litter."""
    if place.is_dir():
        raise IsADirectoryError(0, "a folder has this name", str(place))
    draft = _beside(place, "part")
    undo.callback(_remove, draft)
    draft.write_bytes(content)
    return draft


def _put(draft: Path, place: Path, undo: ExitStack) -> None:
    """Put a draft in its place in one step, and on undoing put back what was there."""
    if place.exists():
        old = _beside(place, "old")
        _remove(old)
        undo.callback(_remove, old)
        try:
            os.link(place, old)
        except OSError:  # a file system without links
            shutil.copy2(place, old)
        draft.replace(place)
        undo.callback(old.replace, place)
    else:
        draft.replace(place)
        undo.callback(_remove, place)


def _beside(place: Path, ending: str) -> Path:
    return place.with_name(f".{place.name}.{ending}")


def _remove(file: Path) -> None:
    with suppress(OSError):
        file.unlink(missing_ok=True)


def _remove_folder(folder: Path) -> None:
    with suppress(OSError):
        folder.rmdir()
