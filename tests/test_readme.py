"""The README cannot lie: its commands are run, its examples read, its pictures drawn again."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
import sys
import sysconfig
from collections.abc import Callable
from pathlib import Path
from zipfile import ZipFile

import cv2
import numpy as np
import pytest

from templates_gen.drawing.shapes import SHAPES
from tests import shape_gallery
from tests.cakes import cake
from tests.gallery import GALLERY, gallery, numbers_and_rest
from tests.reference import COMPOSED, PICTURES, SAMPLES, picture

README = SAMPLES.parent / "README.md"
TEXT = README.read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w+)\n(.*?)^```$", TEXT, flags=re.M | re.S)
SHELL = [body for kind, body in BLOCKS if kind == "sh"]
SET_UP = [body for body in SHELL if "venv" in body]
SCRIPTS = sysconfig.get_path("scripts")
UNCOMPILED = {"PIP_NO_COMPILE": "1"}
"""What is called once needs no more compiled than it imports."""


def copied(folder: Path) -> Path:
    """Return a copy of the checkout, as a clone has it."""
    ignored = shutil.ignore_patterns(".*", "out", "build", "dist", "__pycache__", "*.egg-info")
    return Path(shutil.copytree(README.parent, folder / "copy", ignore=ignored))


def shell(script: str, folder: Path, **more: str) -> str:
    """Run a script in a folder; fail the test when it fails."""
    path = f"{SCRIPTS}{os.pathsep}{os.environ['PATH']}"
    # the test run's own settings must not reach the runs it starts
    inherited = {k: v for k, v in os.environ.items() if not k.startswith(("PYTEST", "COV_"))}
    done = subprocess.run(
        ["bash", "-euo", "pipefail", "-c", script],
        cwd=folder,
        env={**inherited, "PATH": path, **more},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_there_are_two_set_up_commands() -> None:
    """One makes a pack and one runs the tests; each is one line that does all its own set-up."""
    assert len(SET_UP) == 2
    assert all(len(body.strip().splitlines()) == 1 for body in SET_UP)


def test_the_first_command_makes_a_pack_with_nothing_installed(tmp_path: Path) -> None:
    """In a fresh copy it makes its environment and the files it speaks of."""
    folder = copied(tmp_path)
    shell(SET_UP[0], folder, **UNCOMPILED)
    assert (folder / "out" / "harbour-wedding-a4.pdf").read_bytes().startswith(b"%PDF-1.7")
    assert len(list((folder / "out" / "pieces").glob("*.svg"))) > 10


def test_the_second_command_runs_the_tests(tmp_path: Path) -> None:
    """In a fresh copy it makes its environment and runs tests; here only a few of them."""
    said = shell(
        SET_UP[1], copied(tmp_path), PYTEST_ADDOPTS="-n 0 tests/test_units.py", **UNCOMPILED
    )
    assert "[100%]" in said


def test_a_wheel_works_far_from_the_checkout(tmp_path: Path) -> None:
    """Built, installed in an empty environment and called elsewhere, it makes a pack.

    It carries all samples, and no picture of the README.
    """
    folder = copied(tmp_path)
    shell(f"'{sys.executable}' -m build --wheel --outdir '{tmp_path}/wheels' .", folder)
    (wheel,) = (tmp_path / "wheels").glob("*.whl")
    carried = {Path(name).name for name in ZipFile(wheel).namelist() if "/samples/" in name}
    assert carried == {path.name for path in SAMPLES.iterdir() if path.suffix in (".toml", ".csv")}
    shutil.rmtree(folder)
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    shell(
        f"'{sys.executable}' -m venv env && env/bin/pip install --quiet ../wheels/*.whl",
        elsewhere,
        **UNCOMPILED,
    )
    shell("env/bin/templates-gen new a.toml --sample naming-day", elsewhere)
    shell("env/bin/templates-gen pack a.toml --out made", elsewhere)
    assert (elsewhere / "made" / "naming-day-letter.pdf").stat().st_size > 10_000
    licences = list((elsewhere / "env").rglob("SourceSans3-LICENSE.md"))
    assert licences


@pytest.mark.parametrize("body", [body for body in SHELL if body not in SET_UP])
def test_other_commands_run_in_order(body: str, tmp_path: Path) -> None:
    """A block of commands does what it says, in an empty folder."""
    shell(body, tmp_path)


@pytest.mark.parametrize("body", [body for kind, body in BLOCKS if kind == "toml"])
def test_cake_files_shown_are_cake_files(body: str) -> None:
    """An example of a cake file can be read."""
    assert cake(body).tier


@pytest.mark.parametrize("body", [body for kind, body in BLOCKS if kind == "python"])
def test_python_shown_is_python(body: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """An example in Python runs where the samples are."""
    monkeypatch.chdir(README.parent)
    names: dict[str, object] = {}
    exec(body, names)
    assert isinstance(names["girth"], float)
    assert isinstance(names["pdf"], bytes)


def test_it_is_short_and_shows_its_pictures() -> None:
    """A page or two, without tables of keys or options; each picture it shows is there."""
    assert len(TEXT.splitlines()) <= 250
    assert "| `" not in TEXT
    assert "Usage:" not in TEXT
    shown = re.findall(r"!\[[^\]]+\]\(([^)]+)\)", TEXT)
    assert len(shown) > 3
    assert all((README.parent / name).is_file() for name in shown)


@pytest.mark.parametrize(("name", "made"), COMPOSED.items())
def test_what_is_put_together_is_what_the_program_makes_now(
    name: str, made: Callable[[], bytes]
) -> None:
    """Those of a class, of a page then and now, and at the head look the same when redrawn."""
    shown, now = (
        cv2.imdecode(np.frombuffer(content, np.uint8), cv2.IMREAD_COLOR)
        for content in ((SAMPLES / name).read_bytes(), made())
    )
    assert shown is not None
    assert now is not None
    assert shown.shape == now.shape
    assert np.mean(cv2.absdiff(shown, now)) < 1.0


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_a_sheet_as_it_is_printed_now(name: str) -> None:
    """Drawn again it looks the same, but for a little that another Poppler may smooth otherwise."""
    shown, now = (
        cv2.imdecode(np.frombuffer(content, np.uint8), cv2.IMREAD_GRAYSCALE)
        for content in ((SAMPLES / name).read_bytes(), picture(name))
    )
    assert shown is not None
    assert now is not None
    assert shown.shape == now.shape
    assert np.mean(cv2.absdiff(shown, now)) < 1.0
    assert np.mean(cv2.absdiff(shown, np.full_like(shown, 255))) > 3.0


def test_the_gallery_shows_every_shape_as_it_is_now() -> None:
    """Wraps and collars drawn again are the same, to the last place but one."""
    content = shape_gallery.GALLERY.read_text(encoding="utf-8")
    shown, now = numbers_and_rest(content), numbers_and_rest(shape_gallery.gallery())
    assert shown[1] == now[1]
    assert np.allclose(shown[0], now[0], atol=0.11)
    assert all(f">{shape}<" in content for shape in SHAPES)


def test_the_gallery_shows_the_designs_as_they_are_now() -> None:
    """Drawn again it is the same, to the last place but one."""
    shown, now = (
        numbers_and_rest(text) for text in (GALLERY.read_text(encoding="utf-8"), gallery())
    )
    assert shown[1] == now[1]
    assert np.allclose(shown[0], now[0], atol=0.11)
