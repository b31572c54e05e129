"""Reading a cake for a command, and printing its warnings, its figures and its problems."""

from __future__ import annotations

import os
import re
import shlex
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import click

from templates_gen.cakefile.cake import Cake
from templates_gen.cakefile.fields import values_in
from templates_gen.cakefile.overrides import Override, overridden, parse_override
from templates_gen.cakefile.reading import checked, parse_cake, parse_data, read_text
from templates_gen.cakefile.source import CakeText
from templates_gen.cli.output import spared
from templates_gen.drawing.attached import Attached
from templates_gen.errors import CakeError, Key, PlanWarning, Problem, Source

Overrides = tuple[Override, ...]
"""Values set beside a cake file by options."""


@dataclass(frozen=True, slots=True)
class OptionSource:
    """The command line as a source: keys that an option gave, by the name of the option.

    Any other key is looked up in ``rest``, or without it is the option of its last name.
    """

    options: Mapping[Key, str]
    rest: Source | None = None

    def where(self, key: Key) -> str:
        """Name the option, or the place in the file."""
        if key in self.options:
            return f"option --{self.options[key]}"
        if self.rest is not None:
            return self.rest.where(key)
        return f"option --{str(key[-1]).replace('_', '-')}" if key else "command line"


def _override(ctx: click.Context, param: click.Parameter, texts: tuple[str, ...]) -> Overrides:
    try:
        return tuple(parse_override(text) for text in texts)
    except ValueError:
        example = '--set bottom.size="9 in"'
        raise click.BadParameter(f"write NAME=VALUE, for example {example}", ctx, param) from None


def with_cake_file(command: Callable[..., None]) -> Callable[..., None]:
    """Give a command the cake file that it reads, and the values set beside it."""
    argument = click.argument("cake_file", metavar="CAKE.toml", type=click.Path(allow_dash=True))
    option = click.option(
        "--set",
        "overrides",
        metavar="NAME=VALUE",
        multiple=True,
        callback=_override,
        help='Use another value than in the cake file, such as bottom.size="9 in" for the tier'
        " called bottom; an empty value leaves the key out. May be given several times.",
    )
    return argument(option(command))


def read(file: str, overrides: Overrides = ()) -> tuple[Cake, Source]:
    """Return the cake of a file with values set, and where its values come from."""
    text = read_text(file)
    cake, source = _read(text, overrides)
    spare(cake, text.folder, text.name)
    return cake, source


def spare(cake: Cake, folder: Path | None, *names: str) -> None:
    """Keep files of these names, and those that a cake speaks of, from being written over."""
    if folder is not None:
        attached = (each.name for _, each in values_in(cake) if isinstance(each, Attached))
        spared(*(folder / name for name in (*names, *attached)))


def _read(text: CakeText, overrides: Overrides) -> tuple[Cake, Source]:
    if not overrides:
        return parse_cake(text), text
    data = parse_data(text)
    options: dict[Key, str] = {(each.name,): f"set {each.name}" for each in overrides}
    with located(OptionSource(options, text)):
        data, keys = overridden(data, overrides)
    set_by = {key: f"set {each.name}" for key, each in zip(keys, overrides, strict=True)}
    source = OptionSource(set_by, text)
    return checked(data, text, source), source


def with_options(source: Source, **options: object) -> OptionSource:
    """Return the source of a cake whose keys of these names were given as options, if they were."""
    return OptionSource({(name,): name for name, value in options.items() if value}, source)


def echo_warnings(warnings: Iterable[PlanWarning], source: Source) -> None:
    """Show warnings, each with its place."""
    for warning in warnings:
        of_options = isinstance(source, OptionSource) and source.rest is None
        text = _by_option(warning.text) if of_options else warning.text
        click.echo(f"Warning ({source.where(warning.key)}): {text}")


VALUES = 21
"""Where the values of a table begin, and go on when they are wider than the screen."""
_WITHIN = re.compile(r"(?<=[^\s,]) (?=\S)")
"""A blank within a measure or a name, where no line is broken."""


def echo_table(table: str) -> None:
    """Show a table; on a screen, with lines no wider than it, broken after commas and columns."""
    if sys.stdout.isatty():
        wrapper = textwrap.TextWrapper(
            width=shutil.get_terminal_size().columns,
            subsequent_indent=" " * VALUES,
            break_long_words=False,
            break_on_hyphens=False,
        )
        lines = (wrapper.fill(_WITHIN.sub("\u00a0", line)) for line in table.splitlines())
        table = "\n".join(lines).replace("\u00a0", " ")
    click.echo(table)


def quoted(word: str) -> str:
    """Return a word as it is typed at the shell, so that a command can be copied."""
    if word.startswith("-"):
        word = f".{os.sep}{word}"
    if os.name == "nt":
        return f'"{word}"' if " " in word else word
    return shlex.quote(word)


@contextmanager
def located(source: Source) -> Iterator[Source]:
    """Give problems found within the block their place in ``source``."""
    try:
        yield source
    except CakeError as error:
        raise error.located(source) from None


@contextmanager
def as_options(source: OptionSource) -> Iterator[OptionSource]:
    """Tell problems found within the block in the words of the command line."""
    try:
        yield source
    except CakeError as error:
        problems = [
            Problem(each.key, *map(_by_option, (each.found, each.allowed, each.advice)))
            for each in error.problems
        ]
        raise CakeError(problems, source) from None


_SETTING = re.compile(
    r"""\b([a-z_]+)\ =\ (?:"([^"]*)"|“([^”]*)”|\[([^]]*)\]|(\w+))|\[\w+\]\ ([a-z_]+)""", re.X
)
"""A setting as messages write it: ``key = value`` or ``[table] key``."""
_KEY = re.compile(r"(?<![-\w])[a-z]+(?:_[a-z]+)+(?!\w)")
"""A key of several words."""


def _by_option(text: str) -> str:
    """Write the settings in a message as options: ``--trim 15mm`` for ``trim = "15 mm"``."""
    keys = {param.name for param in click.get_current_context().command.params}
    text = _SETTING.sub(_option, text)
    return _KEY.sub(lambda key: key[0].replace("_", "-") if key[0] in keys else key[0], text)


def _option(setting: re.Match[str]) -> str:
    key, quoted, curly, several, bare, alone = setting.groups("")
    name = f"--{(key or alone).replace('_', '-')}"
    if alone or bare == "true":
        return name
    values = (
        [value.strip('" ') for value in several.split(",")] if several else [quoted + curly + bare]
    )
    return " ".join(f"{name} {_word(value)}" for value in values)


def _word(value: str) -> str:
    return value.replace(" ", "") if value[:1].isdigit() else shlex.quote(value)
