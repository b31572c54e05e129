"""Rules of systems that the tests do not run on, as far as they can be played here."""

from __future__ import annotations

import fcntl
import importlib.util
import os
import sys
from pathlib import Path, PurePosixPath, PureWindowsPath
from types import ModuleType, SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from templates_gen.cakefile.slug import slug, tier_slug
from templates_gen.cli import locking, reading
from templates_gen.cli.journal import is_inside
from templates_gen.errors import FileError
from templates_gen.writers.manifest import read_listing
from tests.cli.command import ask

FORBIDDEN = set('<>:"/\\|?*') | {chr(code) for code in range(32)}
"""Microsoft, “Naming Files, Paths, and Namespaces”."""
DEVICES = ["con", "PRN", "Aux", "nul", "COM1", "com9", "LPT1", "com¹", "NUL."]
"""Names of devices, with or without an ending (from the same page)."""
ODD_FOLDER = "Tortenböden & Söhne, 100 %41 (копия) 'x'"
"""A user's folder: blanks, signs, letters outside ASCII, and what looks like an escape."""
WINDOWS_NAMES = [
    "..\\cake.toml",
    "C:cake.toml",
    "C:\\cake.toml",
    "\\\\server\\share\\a",
    "a\\..\\b",
]


@given(st.text() | st.sampled_from(DEVICES), st.sampled_from(["", ".pdf", "-a4.pdf", ".cake.toml"]))
def test_a_file_can_have_its_name_on_windows(title: str, ending: str) -> None:
    """Whatever a cake or a tier is called."""
    for stem in (slug(title), tier_slug(title, 0)):
        name = f"{stem}{ending}"
        assert not PureWindowsPath(name).is_reserved()
        assert not FORBIDDEN & set(name)
        assert name == name.strip(" .")
        assert PureWindowsPath(name).parts == PurePosixPath(name).parts == (name,)


@pytest.mark.parametrize("name", WINDOWS_NAMES)
def test_no_name_leads_outside_on_windows(name: str) -> None:
    """By a drive, a share or a backslash."""
    assert not is_inside(name)


def test_a_pack_lists_its_files_as_on_any_system(tmp_path: Path) -> None:
    """With slashes, so that a folder made on one system can be checked on another."""
    ask("new", tmp_path / "cake.toml")
    ask("pack", tmp_path / "cake.toml", "--out", tmp_path / "out")
    [manifest] = (tmp_path / "out").glob("*.json")
    listing = read_listing(manifest.read_bytes())
    assert listing is not None
    assert any("/" in name for name in listing.files)
    assert not any("\\" in name for name in listing.files)


def test_any_folder_will_do(tmp_path: Path) -> None:
    """A cake file and a pack in a folder with blanks and letters of other languages."""
    folder = tmp_path / ODD_FOLDER
    folder.mkdir()
    ask("new", folder / "Gâteau à étages.cake.toml")
    ask("pack", folder / "Gâteau à étages.cake.toml", "--out", folder / "Vorlagen 1")
    assert "all as they were made" in ask("check", folder / "Vorlagen 1")


def test_a_word_is_quoted_as_windows_has_it(monkeypatch: pytest.MonkeyPatch) -> None:
    """In the commands that messages give to copy."""
    monkeypatch.setattr(reading, "os", SimpleNamespace(name="nt", sep="\\"))
    assert reading.quoted("C:\\My cakes\\a.toml") == '"C:\\My cakes\\a.toml"'
    assert reading.quoted("cake.toml") == "cake.toml"
    assert reading.quoted("-a.toml") == ".\\-a.toml"


class _Msvcrt(ModuleType):
    """The module of Windows that locks, by a lock of this system.

    As its documentation has it: LK_NBLCK raises an error of the number EACCES where it is locked.
    """

    LK_NBLCK = 2

    def locking(self, opened: int, mode: int, count: int) -> None:
        """Lock some bytes of a file."""
        assert (mode, count) == (self.LK_NBLCK, 1)
        try:
            fcntl.flock(opened, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            raise PermissionError(13, "Permission denied") from None


def _open_files() -> set[str]:
    found = set()
    for link in Path("/proc/self/fd").iterdir():
        try:
            found.add(str(link.readlink()))
        except OSError:  # the one that lists them
            continue
    return found


@pytest.fixture
def windows_locking(monkeypatch: pytest.MonkeyPatch) -> ModuleType:
    """Return the module that locks as Windows imports it, where no open file can be removed."""
    monkeypatch.setitem(sys.modules, "msvcrt", _Msvcrt("msvcrt"))
    monkeypatch.setattr(sys, "platform", "win32")
    remove = os.unlink

    def unlink(path: Path, missing_ok: bool = False) -> None:
        if str(path) in _open_files():
            raise PermissionError(13, "The process cannot access the file")
        remove(path)

    monkeypatch.setattr(Path, "unlink", unlink)
    spec = importlib.util.spec_from_file_location("locking_on_windows", locking.__file__)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_a_folder_is_locked_as_on_windows(windows_locking: ModuleType, tmp_path: Path) -> None:
    """A second run is refused at once; after the first nothing is left, and the next may work."""
    for _ in range(2):
        with windows_locking.locked(tmp_path):
            with (
                pytest.raises(FileError, match="Another run is writing"),
                windows_locking.locked(tmp_path),
            ):
                pass
            assert (tmp_path / locking.LOCK).exists()
        assert list(tmp_path.iterdir()) == []
