"""The command ``keys``: every key of the cake file is explained, and every option by ``--help``."""

from __future__ import annotations

import json

import click
import pytest

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.keys import keys_of, tables
from templates_gen.cli import COMMANDS, main
from tests.cli.command import ask, call

TABLES = [("", Cake), *tables()]


def squeezed(text: str) -> str:
    """Return a text without line breaks and indents."""
    return " ".join(text.split())


def test_every_key_is_explained() -> None:
    """Each table is there once under its heading, each key with its example and what it is for."""
    said = ask("keys")
    flat = squeezed(said)
    for heading, model in TABLES:
        assert said.splitlines().count(heading) == 1 or not heading
        for info in keys_of(model).values():
            written = info.example if info.kind == "table" else f"{info.name} = {info.example}"
            about = f"{info.description[:1].upper()}{info.description[1:]}."
            assert f"{squeezed(written)} {squeezed(about)}" in flat


def test_what_holds_without_a_key_is_said() -> None:
    """A default is written as in the file; a key that must be there is called required."""
    said = squeezed(ask("keys", "tier"))
    assert "Extra fondant to cut off after fitting. Default: 15 mm." in said
    assert "Depth of the bare tier. Required." in said
    assert "Default: false." in said


@pytest.mark.parametrize("name", ["tier.drips", "drips", "[tier.drips]", "Drips"])
def test_one_table(name: str) -> None:
    """A table is named in full or by its last part; nothing else is shown."""
    said = ask("keys", name)
    assert said.startswith("[tier.drips]\n")
    assert "spacing" in said
    assert "[[tier]]" not in said


def test_the_top_of_the_file_is_a_table_too() -> None:
    """Keys outside all tables are those of top."""
    (table,) = json.loads(ask("keys", "top", "--json"))
    assert [each["key"] for each in table["keys"]] == list(keys_of(Cake))


def test_a_table_that_is_not_there() -> None:
    """The nearest name is offered, and all are listed."""
    result = call("keys", "drip")
    assert result.exit_code == 2
    assert "Did you mean “drips”?" in result.output
    assert "tier.lettering" in result.output


def test_the_same_as_data() -> None:
    """JSON has every table and key, what it takes, and its default."""
    found = {each["heading"]: each for each in json.loads(ask("keys", "--json"))}
    assert list(found) == [heading for heading, _ in TABLES]
    drips = {each["key"]: each for each in found["[tier.drips]"]["keys"]}
    assert drips["pattern"]["default"] == "random"
    assert "wave" in drips["pattern"]["choices"]
    assert {each["key"] for each in found["[[tier]]"]["keys"] if each["required"]} == {
        "size",
        "depth",
    }


@pytest.mark.parametrize("name", COMMANDS)
def test_every_option_is_explained(name: str) -> None:
    """The help of a command has each of its options, with words, and says what the command does."""
    command = main.get_command(click.Context(main), name)
    assert command is not None
    assert command.help
    said = ask(name, "--help")
    for param in command.params:
        if isinstance(param, click.Option):
            assert param.help, param.name
            assert max(param.opts, key=len) in said
