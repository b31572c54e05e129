"""Files are whole or not there: a run that fails or is killed leaves the older pack as it was."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pikepdf
import pytest
from lxml import etree

from tests.cli.command import TIER, ask, call, snapshot

NEW = f"{TIER}cover = 'none'\n"
OLD = NEW.replace("8 in", "9 in")
Files = dict[str, bytes | None]
READERS: dict[str, Callable[[Path], object]] = {
    ".pdf": lambda path: pikepdf.open(path, attempt_recovery=False).close(),
    ".json": lambda path: json.loads(path.read_bytes()),
    ".svg": lambda path: etree.fromstring(path.read_bytes()),
}
"""Readers that refuse a file that is cut short, by ending."""


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in a folder with a cake file and, in ``out``, the pack of an older version of it."""
    monkeypatch.chdir(tmp_path)
    ask("pack", "-", "--out", "out", stdin=OLD)
    (tmp_path / "cake.toml").write_text(NEW)
    return tmp_path


def versions(desk: Path) -> tuple[Files, Files]:
    """Return the older pack and the new one."""
    ask("pack", "cake.toml", "--out", "new")
    old, new = snapshot(desk / "out"), snapshot(desk / "new")
    assert old.keys() == new.keys()
    assert all(old[name] != new[name] for name in old if name.endswith(("pdf", "collar.svg")))
    return old, new


def assert_whole(folder: Path, old: Files, new: Files) -> None:
    """Check that every file in sight is that of the older or of the new pack, and readable."""
    found = snapshot(folder)
    assert found.keys() >= old.keys()
    for name, content in found.items():
        if Path(name).name.startswith("."):
            continue  # a draft, out of sight
        assert content in (old[name], new[name]), f"{name} in {folder}"
        if content is not None:
            READERS[Path(name).suffix](folder / name)


def test_readers_see_cut_files(desk: Path) -> None:
    """The readers refuse each file when a tenth of it is missing."""
    for path in [path for path in (desk / "out").rglob("*") if path.is_file()]:
        content = path.read_bytes()
        path.write_bytes(content[: len(content) * 9 // 10])
        with pytest.raises((pikepdf.PdfError, ValueError, etree.XMLSyntaxError)):
            READERS[path.suffix](path)


def test_killed_at_every_change(desk: Path) -> None:
    """A pack killed at any change leaves old or new files, each whole; the next run clears up."""
    old, new = versions(desk)
    subprocess.run(
        [sys.executable, "-m", "tests.cli.dying", desk / "out", desk / "cake.toml"],
        check=True,
        cwd=Path(__file__).parents[2],
    )
    left = list(desk.glob("out.*"))
    # a draft, a link to the older file, its place, and the link taken away, for each file
    assert len(left) > 4 * sum(content is not None for content in new.values())
    for folder in left:
        assert_whole(folder, old, new)
    assert any(snapshot(folder) == new for folder in left)
    beside = {Path(name).suffix for folder in left for name in set(snapshot(folder)) - set(new)}
    assert beside == {".part", ".old"}, "killed amid drafts, and amid links"
    for folder in left:
        ask("pack", "cake.toml", "--out", folder)
        assert snapshot(folder) == new, "the next run clears up"


def test_killed_at_any_moment(desk: Path) -> None:
    """A pack killed at any moment of its run leaves old or new files, each whole."""
    old, new = versions(desk)
    words = [sys.executable, "-m", "templates_gen", "pack", "cake.toml", "--out", "out"]
    start = time.monotonic()
    subprocess.run(words, check=True, capture_output=True)
    whole = time.monotonic() - start
    for share in (0.3, 0.7, 0.85, 0.9, 0.95, 1.0):
        running = subprocess.Popen(words, stdout=subprocess.DEVNULL)
        time.sleep(share * whole)
        running.kill()
        running.wait()
        assert_whole(desk / "out", old, new)


@contextmanager
def no_file_over(size: int) -> Iterator[None]:
    """Let the system refuse to let any file grow over a size, as a full disk would."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def test_write_error(desk: Path) -> None:
    """Whichever file cannot be written whole, the older pack stays, and nothing beside it."""
    _, new = versions(desk)
    before = snapshot(desk)
    sizes = [len(content) for content in new.values() if content]
    for size in sizes:
        with no_file_over(size - 1):
            done = call("pack", "cake.toml", "--out", "out")
        assert done.exit_code == 1
        assert "cannot be written: File too large" in done.stderr
        assert snapshot(desk) == before


def test_write_error_in_a_new_folder(desk: Path) -> None:
    """A first pack that cannot be written leaves neither file nor folder."""
    before = snapshot(desk)
    with no_file_over(1000):
        assert call("pack", "cake.toml", "--out", "fresh/deep").exit_code == 1
    assert snapshot(desk) == before


@pytest.mark.parametrize("nth", [1, 2, 3, 4, 5])
def test_error_while_putting_in_place(
    nth: int, desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """When the n-th file cannot be put in its place, the older pack stays as it was."""
    before = snapshot(desk)
    calls: list[None] = []
    real = os.replace

    def refusing(*places: str) -> None:
        calls.append(None)
        if len(calls) == nth:
            raise PermissionError(1, "Operation not permitted", *places[1:])
        real(*places)

    monkeypatch.setattr(os, "replace", refusing)
    done = call("pack", "cake.toml", "--out", "out")
    assert len(calls) >= nth
    assert done.exit_code == 1
    assert "cannot be written: Operation not permitted" in done.stderr
    assert snapshot(desk) == before


@pytest.mark.parametrize(
    ("function", "error", "says"),
    [
        ("pathlib.Path.write_bytes", OSError(28, "No space left on device"), "cake-a4.pdf cannot"),
        ("pathlib.Path.write_bytes", PermissionError(13, "Shut", ".part"), "cake-a4.pdf cannot"),
        ("pathlib.Path.write_bytes", OSError(36, "Too long"), "cake-a4.pdf cannot"),
        ("os.replace", OSError(28, "No space left on device"), "cake-a4.pdf cannot"),
        ("os.mkdir", OSError(30, "Read-only file system"), "new cannot"),
    ],
)
def test_a_message_names_the_place_and_the_reason(
    function: str, error: OSError, says: str, desk: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whatever fails, the file or folder is named as the decorator knows it, with the reason."""

    def failing(*_: object) -> None:
        raise error

    before = snapshot(desk)
    monkeypatch.setattr(function, failing)
    done = call("pack", "cake.toml", "--out", "new")
    monkeypatch.undo()
    assert done.exit_code == 1
    assert f"{says} be written: {error.strerror}. Nothing was changed" in done.stderr
    assert "part" not in done.stderr
    assert snapshot(desk) == before


def test_name_taken_by_a_folder(desk: Path) -> None:
    """A folder that has the name of one of the files stops the whole pack."""
    (desk / "out" / "cake-a4.json").unlink()
    (desk / "out" / "cake-a4.json").mkdir()
    before = snapshot(desk)
    done = call("pack", "cake.toml", "--out", "out")
    assert done.exit_code == 1
    assert "cake-a4.json cannot be written" in done.stderr
    assert snapshot(desk) == before


@pytest.mark.parametrize("ending", ["pdf", "svg"])
def test_one_off(ending: str, desk: Path) -> None:
    """A one-off that cannot be written leaves the older file."""
    words = ("disc", "--size", "8in", "-o", f"disc.{ending}")
    (desk / f"disc.{ending}").write_text("an older disc")
    before = snapshot(desk)
    with no_file_over(500):
        assert call(*words).exit_code == 1
    assert snapshot(desk) == before


def test_starter(desk: Path) -> None:
    """A starter that cannot be written whole is not there at all."""
    with no_file_over(100):
        assert call("new", "starter.toml").exit_code == 1
    assert not (desk / "starter.toml").exists()
