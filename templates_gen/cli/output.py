"""Files: written whole beside their place, then put in it, so that none is ever half-written."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable, Mapping
from contextlib import ExitStack, suppress
from pathlib import Path

import click

from templates_gen.cli import WRITTEN
from templates_gen.errors import FileError


def write_all(files: Mapping[Path, bytes]) -> None:
    """Write all files or, when one cannot be written, none. Raises FileError.

    Folders that are missing are made, whatever command or option the files come from.
    """
    with ExitStack() as undo:
        try:
            _make_folders(dict.fromkeys(place.parent for place in files), undo)
            drafts = {place: _draft(place, content, undo) for place, content in files.items()}
            for place, draft in drafts.items():
                _put(draft, place, undo)
        except (OSError, ValueError) as error:
            reason = getattr(error, "strerror", None) or error
            name = getattr(error, "filename", None) or ""
            raise FileError(
                f"{name} cannot be written: {reason}. Nothing was changed; choose another place"
            ) from None
        undo.pop_all()
    if (ctx := click.get_current_context(silent=True)) is not None:
        ctx.meta[WRITTEN] = True
    for place in files:
        _remove(_beside(place, "old"))


def _make_folders(folders: Iterable[Path], undo: ExitStack) -> None:
    """Make folders, and on undoing take away those that were made."""
    for folder in folders:
        for each in reversed((folder, *folder.parents)):
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
