"""Files are whole or not there: a run that fails or is killed leaves the older pack as it was."""

from __future__ import annotations

import itertools
import json
import os
import resource
import sys
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from hashlib import sha256
from pathlib import Path

import pytest

from templates_gen.cli.journal import State, journal
from templates_gen.cli.output import alone_in
from templates_gen.cli.pack_folder import put_pack, settled
from templates_gen.errors import FileError
from tests.cli.command import TIER, ask, call, snapshot
from tests.kills import NEW, OLD, Files, at_every_change, at_random, checked, found, seen


@pytest.fixture
def desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Work in a folder with a cake file and, in ``out``, the pack of an older version of it."""
    monkeypatch.chdir(tmp_path)
    ask("pack", "-", "--out", "out", stdin=OLD)
    (tmp_path / "cake.toml").write_text(NEW)
    return tmp_path


def whole_packs(folder: Path) -> tuple[Path, Files, Files]:
    """Return the folder of the older pack, its files in sight, and those of the new pack."""
    ask("pack", "cake.toml", "--out", "new")
    return folder / "out", seen(folder / "out"), seen(folder / "new")


def test_killed_at_every_change(desk: Path) -> None:
    """A kill at any change leaves the older pack, the new one, or a journal that ends the change.

    In each case a check of the folder, and then the next run, puts everything right.
    """
    before, old, new = whole_packs(desk)
    assert old.keys() - new.keys()
    tally: Counter[str] = Counter()
    for folder in at_every_change(before, new):
        holds = found(folder, old, new)
        tally[holds] += 1
        assert holds != "mixed", folder
        assert checked(folder, old, new)
    # a draft and a link for each file, then its place
    assert tally["old"] > 2 * len(new)
    assert tally["journal"] >= len(new) - 1
    assert tally["new"] > 0


def test_next_run_mends(desk: Path) -> None:
    """The next run of the pack, too, ends what a kill amid the replacement left."""
    before, old, new = whole_packs(desk)
    left = [each for each in at_every_change(before, new) if found(each, old, new) == "journal"]
    for folder in left[:: len(left) // 2]:
        ask("pack", "cake.toml", "--out", folder)
        assert snapshot(folder) == snapshot(desk / "new")


def test_killed_at_random_moments(desk: Path) -> None:
    """A pack killed at any moment of its run leaves the older pack or the new one."""
    before, old, new = whole_packs(desk)
    for folder in at_random(before, 3, seed=1):
        assert found(folder, old, new) != "mixed"
        assert checked(folder, old, new)


def test_undo_cut_short(desk: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """When the older files cannot be put back either, the next run does it."""
    _, old, new = whole_packs(desk)
    real, calls = os.replace, itertools.count(1)

    def refusing(*places: str) -> None:
        # the journal is begun and entered, two files are put in place
        if next(calls) in (5, 7):
            raise PermissionError(1, "Operation not permitted", *places[1:])
        real(*places)

    with monkeypatch.context() as patch:
        patch.setattr(os, "replace", refusing)
        done = call("pack", "cake.toml", "--out", "out")
    assert done.exit_code == 1
    assert found(desk / "out", old, new) == "journal"
    assert "put right" in ask("check", "out")
    assert seen(desk / "out") == old


def test_what_the_new_pack_lacks(desk: Path) -> None:
    """Pieces of the older pack are removed if unchanged; what the user made or changed stays."""
    _, old, new = whole_packs(desk)
    lost = sorted(old.keys() - new.keys())
    assert len(lost) > 2
    (desk / "out" / lost[0]).write_text("changed by hand")
    manifest = (desk / "out/cake-a4.json").read_text()
    own = {"pieces/mine.svg": "my own", "cake-a4 (copy).json": manifest}
    for name, text in own.items():
        (desk / "out" / name).write_text(text)
    printed = ask("pack", "cake.toml", "--out", "out")
    assert set(seen(desk / "out")) == {*new, *own, lost[0]}
    assert [name for name in lost if f"Removed: {Path('out', name)} (" in printed] == lost[1:]


def test_another_cake(desk: Path) -> None:
    """The pack of a cake of another title stays beside the new one."""
    ask("pack", "-", "--out", "out", stdin=f"title = 'Other'\n{NEW}")
    assert {"cake-a4.pdf", "other-a4.pdf"} <= seen(desk / "out").keys()


def test_folder_without_a_piece_left(desk: Path) -> None:
    """With --format pdf the pieces of the older pack, and their folder, are removed."""
    ask("pack", "cake.toml", "--out", "out", "--format", "pdf")
    assert set(snapshot(desk / "out")) == {"cake-a4.pdf", "cake-a4.json"}


def test_two_runs_at_once(desk: Path) -> None:
    """Of two runs into one folder one wins whole, and the other says so and changes nothing."""
    _, _, new = whole_packs(desk)
    before = settled(desk / "out")
    with alone_in(desk / "out"):
        done = call("pack", "cake.toml", "--out", "out")
    assert done.exit_code == 1
    assert "Another run is writing into out at this moment" in done.stderr
    ask("pack", "cake.toml", "--out", "out")
    with pytest.raises(FileError, match="Another run has put a pack into"):
        put_pack(desk / "out", "Cake", {"cake-a4.pdf": b""}, before)
    assert seen(desk / "out") == new
    assert set(snapshot(desk / "out")) == set(snapshot(desk / "new"))


def test_check_of_a_folder(desk: Path) -> None:
    """Check names the pack with its mark, or each file that is missing or changed."""
    assert "Cake, pack mark " in ask("check", "out")
    (desk / "out" / "cake-a4.pdf").write_bytes(b"")
    piece = next((desk / "out" / "pieces").iterdir())
    piece.unlink()
    done = call("check", "out")
    assert done.exit_code == 1
    assert f"{Path('out', 'cake-a4.pdf')} is not as it was made" in done.stderr
    assert f"{piece.relative_to(desk)} is missing" in done.stderr
    assert "a folder without a pack" in call("check", ".").stderr


@pytest.mark.parametrize("name", ["../cake.toml", "/etc/hostname", "a/../../cake.toml", "C:x", ""])
def test_names_that_lead_outside(name: str, desk: Path) -> None:
    """A journal or manifest from elsewhere cannot reach a file outside its folder."""
    (desk / "far").mkdir()
    content = {"puts": [], "fresh": [], "removes": {name: sha256(NEW.encode()).hexdigest()}}
    journal(desk / "far", State.FINISHING).write_text(json.dumps(content))
    assert "cannot be read" in call("check", "far").stderr
    assert (desk / "cake.toml").read_text() == NEW


@contextmanager
def no_file_over(size: int) -> Iterator[None]:
    """Let the system refuse to let any file grow over a size, as a full disk would.

    Python keeps no bytecode meanwhile: it would not notice that it was cut off.
    """
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    kept, sys.dont_write_bytecode = sys.dont_write_bytecode, True
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        sys.dont_write_bytecode = kept


def test_write_error(desk: Path) -> None:
    """Whichever file cannot be written whole, the older pack stays, and nothing beside it."""
    _, _, new = whole_packs(desk)
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
        ("os.fsync", OSError(28, "No space left on device"), "new cannot"),
        ("os.open", PermissionError(13, "Shut", ".part"), "new cannot"),
        ("os.replace", OSError(28, "No space left on device"), "new cannot"),
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


def test_what_is_no_file_is_no_manifest(desk: Path) -> None:
    """A pipe, a loop and a link that leads nowhere beside a pack keep nobody from making one."""
    os.mkfifo("out/a.json")
    Path("out/b.json").symlink_to("b.json")
    Path("out/c.json").symlink_to("none")
    ask("pack", "cake.toml", "--out", "out")
    assert "all as they were made" in ask("check", "out")


def test_a_file_where_the_folder_of_pieces_goes(desk: Path) -> None:
    """The file is named, and stays."""
    Path("new").mkdir()
    Path("new/pieces").write_text("mine")
    done = call("pack", "cake.toml", "--out", "new")
    assert done.exit_code == 1
    assert "new/pieces cannot be written: it is no folder. Nothing was changed" in done.stderr
    assert seen(desk / "new") == {"pieces": b"mine"}


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


ART = "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9'><path d='M0 0 h5 v5 z'/></svg>"


@pytest.mark.parametrize(
    "arguments",
    [
        ("bench", "cake.toml", "--calendar", "cake.toml"),
        ("bench", "cake.toml", "--shopping", "../desk/./cake.toml"),
        ("bench", "cake.toml", "--plan", "link.toml"),
        ("class", "cake.toml", "register.csv", "--out", "."),
        ("picture", "cake.toml", "-o", "leaf.svg"),
        ("picture", "cake.toml", "--set", "title=B", "-o", "leaf.svg"),
        ("handout", "cake.toml", "-o", "page.html"),
        ("design", "--size=8in", "--depth=4in", "--kind=artwork", "--file=leaf.svg", "-oleaf.svg"),
    ],
)
def test_no_file_is_lost_that_a_command_reads(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, arguments: tuple[str, ...]
) -> None:
    """Not the cake file, by whatever way it is called, its artwork, nor the list of a class."""
    desk = tmp_path / "desk"
    desk.mkdir()
    monkeypatch.chdir(desk)
    design = "[[tier.design]]\nkind = 'artwork'\nfile = 'leaf.svg'\n"
    text = f"{TIER}{design}[work]\nready = 2027-06-19 14:00:00\n"
    (desk / "cake.toml").write_text(text)
    (desk / "page.html").symlink_to("leaf.svg")
    (desk / "link.toml").symlink_to("cake.toml")
    (desk / "leaf.svg").write_text(ART)
    (desk / "register.csv").write_text("name\nAda\n")
    before = snapshot(desk)
    done = call(*arguments)
    assert done.exit_code == 1
    assert "is a file that this command reads, and would be lost" in done.output
    assert snapshot(desk) == before


def test_a_file_beside_those_that_are_read_is_written_again(desk: Path) -> None:
    """A calendar of yesterday gives way to that of today; three lists need three files."""
    ready = f"{TIER}[work]\nready = 2027-06-19 14:00:00\n"
    (desk / "cake.toml").write_text(ready)
    (desk / "x.ics").write_text("old")
    ask("bench", "cake.toml", "--calendar", "x.ics")
    assert (desk / "x.ics").read_text().startswith("BEGIN:VCALENDAR")
    done = call("bench", "cake.toml", "--calendar", "y.ics", "--plan", "./y.ics")
    assert (done.exit_code, "need a file each" in done.output) == (2, True)
    assert not (desk / "y.ics").exists()


def test_a_cake_file_is_never_written_over_by_a_resized_one(desk: Path) -> None:
    """It is as with ``new``: whoever wants another name gives it."""
    (desk / "mine.toml").write_text("mine")
    for name in ("mine.toml", "cake.toml"):
        before = (desk / name).read_bytes()
        done = call("resize", "cake.toml", "--to", "9x4", "-o", name)
        assert (done.exit_code, "already there" in done.output) == (1, True)
        assert (desk / name).read_bytes() == before
