"""The command new: a commented cake file to start from, and nothing overwritten."""

from __future__ import annotations

import shlex
from pathlib import Path

import pytest

from templates_gen.cakefile.reading import read_cake
from tests.cakes import SAMPLES
from tests.cli.command import ask, call


@pytest.fixture(autouse=True)
def _desk(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_starter() -> None:
    """The starter is a commented cake file, and the command that follows makes a pack of it."""
    said = ask("new", "my cake.toml")
    text = Path("my cake.toml").read_text("utf-8")
    comments = [line for line in text.splitlines() if "#" in line]
    assert len(comments) > len(text.splitlines()) / 2
    program, *words = shlex.split(said.rpartition(": ")[2])
    assert program == "templates-gen"
    ask(*words, "--out", "out")
    assert list(Path("out").glob("*.pdf"))


def test_other_places() -> None:
    """A name like an option or in a missing folder is no trouble to the command that follows."""
    for words in (["--", "-x.toml"], ["a/b/c.toml"]):
        command = ask("new", *words).rpartition(": ")[2]
        ask("figures", *shlex.split(command)[2:])


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: str(path.stem))
def test_sample(path: Path) -> None:
    """Each sample can be started from, byte for byte."""
    ask("new", "mine.toml", "--sample", path.stem)
    assert Path("mine.toml").read_bytes() == path.read_bytes()


def test_three_scenarios() -> None:
    """The samples cover one tier, four tiers on a 14 in drum, and metric tiers on Letter."""
    cakes = [read_cake(path) for path in SAMPLES]
    assert any(len(cake.tier) == 1 for cake in cakes)
    assert any(cake.unit == "cm" and cake.paper == "letter" for cake in cakes)
    (large,) = [cake for cake in cakes if len(cake.tier) == 4]
    assert large.drum.size is not None
    assert large.drum.size.text == "14 in"
    assert {tier.cover for tier in large.tier} == {"drape", "panelled"}
    assert sum(tier.drips is not None for tier in large.tier) == 2
    assert any(tier.panels and tier.panels.mould for tier in large.tier)


@pytest.mark.parametrize("content", [b"", b"mine"])
def test_never_overwrites(content: bytes) -> None:
    """A file that is there stays as it is, an empty one too."""
    Path("cake.toml").write_bytes(content)
    assert call("new", "cake.toml").exit_code == 1
    assert Path("cake.toml").read_bytes() == content


def test_dangling_link() -> None:
    """A link to nowhere is not written through."""
    Path("cake.toml").symlink_to("elsewhere.toml")
    assert call("new", "cake.toml").exit_code == 1
    assert not Path("elsewhere.toml").exists()
