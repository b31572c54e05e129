"""The entry in the menu, judged by the programs that read such files."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from templates_gen.cli import menu
from tests.cli.command import TIER, ask, call
from tests.judges import require, run

pytestmark = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="for Linux")


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Return the folder that stands for the user's data, with the entry in it."""
    folder = tmp_path / "data"
    monkeypatch.setenv("XDG_DATA_HOME", str(folder))
    assert ask("menu") == "In the menu as “Cake templates”.\n"
    yield folder
    assert ask("menu", "--remove") == "Removed from the menu.\n"
    assert not list(folder.rglob("templates-gen*"))


def test_the_entry_is_one(data: Path) -> None:
    """By desktop-file-validate, which is silent about a good one."""
    assert run("desktop-file-validate", data / "applications/templates-gen.desktop") == ""


def test_a_cake_file_is_known_by_its_ending(data: Path, tmp_path: Path) -> None:
    """By the database that update-mime-database made, as gio reads it."""
    require("update-mime-database")
    for name, kind in (("a.cake.toml", menu.MIME), ("b.toml", "application/toml")):
        (tmp_path / name).write_text(TIER, encoding="utf-8")
        said = run("gio", "info", "--attributes=standard::fast-content-type", tmp_path / name)
        assert (kind in said) == (name == "a.cake.toml" or kind == "application/toml")


def test_the_icon_is_a_drawing(data: Path, tmp_path: Path) -> None:
    """By librsvg."""
    run("rsvg-convert", "-o", tmp_path / "icon.png", next(data.rglob("templates-gen.svg")))
    assert (tmp_path / "icon.png").stat().st_size > 100


@pytest.mark.parametrize(
    "name", ["plain", "two words", 'quote" and $HOME `x`', "back\\slash", "50 %"]
)
def test_any_folder_is_quoted(name: str) -> None:
    r"""As the specification has it: backslashes doubled for the value, then quoted for a shell."""
    value = menu.quoted(f"/opt/{name}/run")
    unescaped = value.replace("\\\\", "\\").replace("%%", "%")
    assert run("sh", "-c", f"printf %s {unescaped}") == f"/opt/{name}/run"


def test_a_folder_that_cannot_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It is said which file cannot be."""
    (tmp_path / "data").write_text("no folder")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    done = call("menu")
    assert done.exit_code == 1
    assert "templates-gen.svg cannot be written: Not a directory" in done.output
