"""The option --set: a value beside the cake file."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.cli.command import ask, call

CAKE = """
title = "Regatta"
[[tier]]
name = "bottom"
size = "10 in"
depth = "5 in"
[[tier]]
name = "top"
size = "6 in"
depth = "4 in"
"""


@pytest.fixture
def cake(tmp_path: Path) -> str:
    """Return the name of a cake file."""
    file = tmp_path / "regatta.toml"
    file.write_text(CAKE, encoding="utf-8")
    return str(file)


def test_a_value_set_is_as_if_the_file_said_so(cake: str, tmp_path: Path) -> None:
    """All figures are those of a file with the value in it."""
    other = tmp_path / "other.toml"
    other.write_text(CAKE.replace("10 in", "9 in").replace("4 in", "8 cm"), encoding="utf-8")
    options = ("--set", "bottom.size=9 in", "--set", "top.depth=8 cm")
    found = json.loads(ask("figures", cake, *options, "--json"))
    assert found == json.loads(ask("figures", str(other), "--json"))
    assert found != json.loads(ask("figures", cake, "--json"))


@pytest.mark.parametrize("command", ["pack", "check", "figures", "bench", "picture"])
def test_commands_that_read_a_cake_take_it(
    command: str, cake: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Each says that the value cannot be, and which option gave it."""
    monkeypatch.chdir(tmp_path)
    result = call(command, cake, "--set", "bottom.size=9 miles")
    assert result.exit_code == 1
    assert "option --set bottom.size" in result.output
    assert "miles" in result.output


@pytest.mark.parametrize(
    ("option", "words"),
    [
        ("botom.size=9 in", ("option --set botom.size", "did you mean “bottom”?")),
        ("bottom.sise=9 in", ("option --set bottom.sise", "did you mean “size”?")),
        (
            "bottom.shallowest_depth=9 in",
            ("option --set bottom.shallowest_depth", "shallowest_depth"),
        ),
    ],
)
def test_what_is_wrong_is_found_at_its_option(
    option: str, words: tuple[str, ...], cake: str
) -> None:
    """A name that is not there, a key that is none, a value that does not fit."""
    result = call("check", cake, "--set", option)
    assert result.exit_code == 1
    assert all(word in result.output for word in words), result.output


def test_a_fault_of_the_file_keeps_its_line(cake: str) -> None:
    """What no option set is looked for in the file."""
    Path(cake).write_text(CAKE.replace("4 in", "4 miles"), encoding="utf-8")
    result = call("check", cake, "--set", "bottom.size=9 in")
    assert "regatta.toml, line 10" in result.output


def test_an_option_without_a_value_is_wrong_usage(cake: str) -> None:
    """The message shows how it is written."""
    result = call("check", cake, "--set", "bottom.size")
    assert result.exit_code == 2
    assert "NAME=VALUE" in result.output
