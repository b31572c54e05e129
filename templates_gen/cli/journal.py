"""Files of a folder replaced together: after a kill at any moment the journal says what to do.

Beside each place a draft (``.NAME.part``) and a link to the older file (``.NAME.old``) are made.
The journal is one hidden file that lists the places; its ending is the state of the change:

- ``preparing``: no place has changed yet; what lies beside them is thrown away;
- ``finishing``: every draft is whole and on the disk; those that are left are put in their place;
- ``undoing``: a place could not be changed; the older files are put back.
"""

from __future__ import annotations

import json
import os
import shutil
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import asdict, dataclass, field
from enum import StrEnum
from hashlib import sha256
from pathlib import Path, PurePosixPath
from typing import Any

from templates_gen.cakefile.files import reason
from templates_gen.errors import FileError


class State(StrEnum):
    """How far a change has come."""

    PREPARING = "preparing"
    FINISHING = "finishing"
    UNDOING = "undoing"


@dataclass(frozen=True, slots=True)
class Change:
    """Files to put in a folder and files to remove, by their names in it.

    ``fresh`` lists the files and folders that were not there; a file to remove has its SHA-256
    and stays when it is no longer the same.
    """

    folder: Path = field(repr=False)
    puts: tuple[str, ...]
    fresh: tuple[str, ...] = ()
    removes: Mapping[str, str] = field(default_factory=dict)

    def apply(self, contents: Mapping[str, bytes]) -> None:
        """Make the change whole or, when anything fails, not at all. Raises FileError."""
        state = State.PREPARING
        try:
            self._write()
            self._prepare(contents)
            self._enter(State.PREPARING, State.FINISHING)
            state = State.FINISHING
            self._finish()
        except BaseException:
            self._break_off(state)
            raise
        self._close(State.FINISHING)

    def _break_off(self, state: State) -> None:
        """Undo what was done so far. Raises FileError when that cannot be done either."""
        try:
            if state is State.FINISHING:
                self._enter(State.FINISHING, State.UNDOING)
                state = State.UNDOING
            self._settle(state)
        except FileError:
            raise FileError(
                f"{self.folder} can be changed neither to the new files nor back to the older ones,"
                f" and holds some of each. To mend it later: templates-gen check {self.folder}"
            ) from None

    def _write(self) -> None:
        """Write the journal of a change that begins."""
        written = {key: value for key, value in asdict(self).items() if key != "folder"}
        draft = journal(self.folder, "draft")
        with naming(self.folder):
            write_durably(draft, json.dumps(written).encode())
            draft.replace(journal(self.folder, State.PREPARING))
            flush_folder(self.folder)

    def _prepare(self, contents: Mapping[str, bytes]) -> None:
        """Write every draft, and keep the older files."""
        self._each(self.puts, lambda name, place: _draft(place, contents[name]))
        older = [name for name in self._names() if name not in self.fresh]
        self._each(older, lambda _, place: _keep(place))
        self._flush()

    def _finish(self) -> None:
        """Put the drafts that are left in their places, and remove what is to be removed."""
        self._each(self.puts, lambda _, place: _put(place, "part"))
        self._each(self.removes, lambda name, place: _unlink(place, self.removes[name]))
        self._flush()

    def _undo(self) -> None:
        """Put the older files back, and remove those that are new."""

        def undo(name: str, place: Path) -> None:
            if name in self.fresh:
                place.unlink(missing_ok=True)
            else:
                _put(place, "old")

        self._each(self._names(), undo)

    def _settle(self, state: State) -> None:
        """Bring a change that was broken off to its end."""
        if state is State.FINISHING:
            self._finish()
        elif state is State.UNDOING:
            self._undo()
        self._close(state)

    def _close(self, state: State) -> None:
        """Clear up, the journal last."""
        for name in self._names():
            for ending in ("part", "old"):
                _remove(beside(self.folder / name, ending))
        for folder in sorted(self._folders() - {self.folder}):
            if state is State.FINISHING or folder.name in self.fresh:
                with suppress(OSError):
                    folder.rmdir()  # one that holds anything stays
        _remove(journal(self.folder, "draft"))
        for each in State:
            _remove(journal(self.folder, each))
        flush_folder(self.folder)

    def _enter(self, old: State, new: State) -> None:
        with naming(self.folder):
            journal(self.folder, old).replace(journal(self.folder, new))
            flush_folder(self.folder)

    def _names(self) -> tuple[str, ...]:
        return (*self.puts, *self.removes)

    def _folders(self) -> set[Path]:
        return {self.folder, *((self.folder / name).parent for name in self._names())}

    def _flush(self) -> None:
        for folder in self._folders():
            flush_folder(folder)

    def _each(self, names: Iterable[str], act: Callable[[str, Path], None]) -> None:
        """Do something at the place of each name. Raises FileError with the place."""
        for name in names:
            place = self.folder / name
            with naming(place):
                act(name, place)


def settle(folder: Path) -> State | None:
    """Finish or undo a change of the folder that was broken off; return how far it had come.

    Raises FileError when that cannot be done.
    """
    for state in State:
        file = journal(folder, state)
        if file.exists():
            _read(folder, file)._settle(state)
            return state
    _remove(journal(folder, "draft"))
    return None


def unsettled(folder: Path) -> bool:
    """Tell whether a change of the folder was broken off."""
    return any(journal(folder, state).exists() for state in State)


def _read(folder: Path, file: Path) -> Change:
    try:
        data: dict[str, Any] = json.loads(file.read_bytes())
        change = Change(folder, tuple(data["puts"]), tuple(data["fresh"]), dict(data["removes"]))
        inside = all(map(is_inside, (*change.puts, *change.removes)))
    except (OSError, ValueError, KeyError, TypeError):
        inside = False
    if not inside:
        raise FileError(f"{file} cannot be read: remove it, and make the pack again") from None
    return change


def is_inside(name: object) -> bool:
    """Tell whether a name that was read leads to a file inside the folder it was read in."""
    if not isinstance(name, str) or not name or "\\" in name or ":" in name:
        return False
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts


def journal(folder: Path, state: str) -> Path:
    """Return the place of the journal of a change in a state."""
    return folder / f".templates-gen.{state}"


def beside(place: Path, ending: str) -> Path:
    """Return the hidden place beside a file."""
    return place.with_name(f".{place.name}.{ending}")


def digest_of(file: Path) -> str | None:
    """Return the SHA-256 of a file, or None where there is none to read; a pipe may never end."""
    try:
        return sha256(file.read_bytes()).hexdigest() if file.is_file() else None
    except OSError:
        return None


def write_durably(file: Path, content: bytes) -> None:
    """Write a file and wait until it is on the disk."""
    with file.open("wb") as stream:
        stream.write(content)
        stream.flush()
        os.fsync(stream.fileno())


def flush_folder(folder: Path) -> None:
    """Wait until the names in a folder are on the disk, where the system can say so."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


@contextmanager
def naming(place: Path) -> Iterator[None]:
    """Turn a failure within the block into one that names the place the user knows."""
    try:
        yield
    except (OSError, ValueError) as error:
        shown = place if place.name else place.absolute()  # “.” says nothing of where that is
        raise FileError(
            f"{shown} cannot be written: {reason(error)}. Nothing was changed; choose another place"
        ) from None


def _make(folder: Path) -> None:
    """Make a folder where there is none."""
    with naming(folder):
        if folder.exists() and not folder.is_dir():
            raise NotADirectoryError(0, "it is no folder")
        folder.mkdir(exist_ok=True)


def _draft(place: Path, content: bytes) -> None:
    """Write the draft of a file beside its place."""
    if place.is_dir():
        raise IsADirectoryError(0, "a folder has this name")
    _make(place.parent)
    write_durably(beside(place, "part"), content)


def _put(place: Path, ending: str) -> None:
    """Put what lies beside a place into it, where there is any."""
    if beside(place, ending).exists():
        beside(place, ending).replace(place)


def _unlink(place: Path, digest: str) -> None:
    """Remove a file that is still the same."""
    if digest_of(place) == digest:
        place.unlink()


def _keep(place: Path) -> None:
    """Keep the older file beside its place."""
    old = beside(place, "old")
    _remove(old)
    try:
        os.link(place, old)
    except OSError:  # a file system without links
        shutil.copy2(place, old)


def _remove(file: Path) -> None:
    with suppress(OSError):
        file.unlink(missing_ok=True)
