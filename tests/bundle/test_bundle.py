"""The bundle does what the package does, without Python."""

from __future__ import annotations

import shutil
import subprocess
import zipfile
from pathlib import Path

import pytest

from templates_gen import __version__
from tests.bundle.conftest import unpacked
from tests.cakes import SAMPLES
from tests.cli.command import ask
from tests.judges import run
from tests.web.server import Server
from tests.web.test_page import test_three_tiers_with_drips_panels_and_a_name_from_blank

__all__ = ["test_three_tiers_with_drips_panels_and_a_name_from_blank"]

LARGEST = 90_000_000
"""Bytes of the ZIP."""


def said(program: Path, home: dict[str, str], *arguments: str | Path) -> str:
    """Run the program, which must succeed, and return what it prints."""
    done = subprocess.run(
        [program, *arguments], capture_output=True, text=True, timeout=300, check=False, env=home
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_archive_is_small(archive: Path) -> None:
    """And has what a user looks for first."""
    assert archive.stat().st_size <= LARGEST
    names = {Path(name).name for name in zipfile.ZipFile(archive).namelist()}
    assert {"templates-gen", "README.txt", "licences.txt"} <= names


def test_it_takes_every_command(program: Path, home: dict[str, str]) -> None:
    """The help names the same commands, and the version is the same."""
    assert said(program, home, "--help").split() == ask("--help").split()
    assert __version__ in said(program, home, "--version")


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_packs_have_the_same_bytes(
    program: Path, home: dict[str, str], tmp_path: Path, path: Path
) -> None:
    """Every file of a pack."""
    said(program, home, "pack", path, "--out", tmp_path / "bundle")
    ask("pack", path, "--out", str(tmp_path / "package"))
    ours, theirs = (
        {
            file.relative_to(tmp_path / name): file.read_bytes()
            for file in (tmp_path / name).rglob("*")
            if file.is_file()
        }
        for name in ("package", "bundle")
    )
    assert ours
    assert theirs == ours


def test_a_second_start_finds_the_page(program: Path, home: dict[str, str], server: Server) -> None:
    """As a second double-click does."""
    text = said(program, home, "open", "--no-open", "--port", str(server.port))
    assert text == f"The page is running already: {server.address}\n"


def test_licences_of_all_that_is_inside(program: Path, server: Server) -> None:
    """The page shows the file, which names Python and each package that has a folder."""
    text = (program.parent / "licences.txt").read_text("utf-8")
    assert server.ask("GET", "/licences")[2].decode() == text
    assert "\nPython 3." in text
    for package in ("reportlab", "shapely", "numpy", "pikepdf", "pillow", "pyinstaller"):
        assert f"\n{package} " in text


def files(folder: Path) -> dict[Path, bytes]:
    """Return all files in a folder."""
    found = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder): path.read_bytes() for path in found}


def test_an_update_leaves_settings_alone(archive: Path, tmp_path: Path) -> None:
    """A measured printer is still known to another copy; nothing is written beside the program.

    So whoever removes the folder has removed the program.
    """
    (tmp_path / "home").mkdir()
    home = {"HOME": str(tmp_path / "home"), "PATH": ""}
    program = unpacked(archive, tmp_path / "old")
    before = files(program.parent)
    said(program, home, "printer", "--name", "Attic", "--measured", "149.5 mm x 150 mm")
    said(program, home, "pack", SAMPLES[0], "--out", tmp_path / "out")
    kept = files(tmp_path / "home")
    assert [path.name for path in kept] == ["printers.toml"]
    assert files(program.parent) == before
    shutil.rmtree(program.parent)
    fresh = unpacked(archive, tmp_path / "new")
    said(fresh, home, "pack", SAMPLES[0], "--printer", "attic", "--out", tmp_path / "out")
    assert files(tmp_path / "home") == kept


def test_one_line_starts_the_wheel(wheel: Path, tmp_path: Path) -> None:
    """Uv takes what it needs from the index of packages, into a folder that it throws away."""
    uvx = ("tool", "run", "--isolated", "--cache-dir", tmp_path / "cache", "--from", wheel)
    assert __version__ in run("uv", *uvx, "templates-gen", "--version")
