"""Opened and saved, a cake file keeps its comments where nothing changed."""

from __future__ import annotations

import tomllib
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.editing import plain, saved
from templates_gen.cakefile.reading import cake_from
from templates_gen.cakefile.writing import cake_text
from templates_gen.errors import CakeError, FileError
from templates_gen.web.files import opened
from tests.cakes import SAMPLES
from tests.strategies import cakes

STARTER = next(path for path in SAMPLES if path.stem == "starter").read_text("utf-8")


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_file_that_was_not_changed_is_saved_as_it_was(path: Path) -> None:
    """To the last byte, comments and blanks included."""
    text = path.read_text("utf-8")
    assert saved(opened(text, path.name), text) == text


def _size(data: dict[str, Any]) -> None:
    data["tier"][0]["size"] = "9 in"


def _swap(data: dict[str, Any]) -> None:
    data["tier"].reverse()


def _add(data: dict[str, Any]) -> None:
    data["tier"].append({"size": "4 in", "depth": "3 in", "design": [{"kind": "swags"}]})


def _less(data: dict[str, Any]) -> None:
    del data["tier"][0]["drips"]
    data["unit"] = "in"


def _other(data: dict[str, Any]) -> None:
    data["tier"][1]["panels"] = {"count": 9}
    data["drum"] = {"size": "14 in"}


@pytest.mark.parametrize("edit", [_size, _swap, _add, _less, _other])
def test_a_changed_file_has_the_change_and_the_comments(
    edit: Callable[[dict[str, Any]], None],
) -> None:
    """It reads back as the changed data, and the comments of what stayed are there."""
    data = opened(STARTER, "a.toml")
    edit(data)
    text = saved(data, STARTER)
    assert opened(text, "a.toml") == data
    for comment in ("# A cake file: what the cake is", "# the bottom tier; only size", "# the tin"):
        assert comment in text


def test_a_new_tier_stands_apart() -> None:
    """A blank line comes before it, as before the tiers of the file."""
    data = opened(STARTER, "a.toml")
    _add(data)
    assert saved(data, STARTER).count("\n\n[[tier]]\nsize") == 1


def test_a_new_value_keeps_the_comment_beside_it() -> None:
    """The comment explains the key, not the value."""
    data = opened(STARTER, "a.toml")
    _size(data)
    assert 'size = "9 in"            # the tin' in saved(data, STARTER)


@settings(max_examples=30)
@given(cakes(), cakes())
def test_any_cake_is_saved_over_any_other(before: Cake, after: Cake) -> None:
    """Whatever was opened, what is saved reads back as the cake that was asked for."""
    data = plain(tomllib.loads(cake_text(after)))
    text = saved(data, cake_text(before))
    assert plain(tomllib.loads(text)) == data


def test_without_a_file_it_is_the_text_of_the_command_line() -> None:
    """A cake planned on the page is written as the public function writes it."""
    data = {"unit": "in", "tier": [{"size": "8", "depth": "4 1/2", "drips": {}}]}
    assert saved(data) == cake_text(cake_from(data))


def test_a_cake_that_is_wrong_is_saved_all_the_same() -> None:
    """Work is not lost for a mistake in it."""
    data = {"tier": [{"size": "8 furlongs", "depth": "4 in"}]}
    assert opened(saved(data), "a.toml") == data
    with pytest.raises(CakeError):
        cake_from(data)


def test_a_day_comes_back_as_a_day() -> None:
    """JSON has no days: they go as text, and one that was not changed stays as it was."""
    text = "[work]\nready = 2027-06-19 14:00:00 # noon is too early\n"
    text += "[[tier]]\nsize = '8 in'\ndepth = '4 in'\n"
    data = opened(text, "a.toml")
    assert data["work"]["ready"] == "2027-06-19 14:00:00"
    assert saved(data, text) == text


def test_a_file_that_is_no_toml_says_where() -> None:
    """The message is that of the command line, with the line."""
    with pytest.raises(CakeError, match=r"a\.toml, line 2"):
        opened('title = "x"\nsize = 8 in\n', "a.toml")


def test_a_picture_is_told_from_a_cake_file() -> None:
    """As a browser reads it; a line of it would say nothing."""
    with pytest.raises(FileError, match=r"^a\.png is no text, .*ends in \.toml$"):
        opened("\ufffdPNG\r\n\x1a\n\0\0\0\rIHDR", "a.png")
