"""Reading a cake for a command, so that every later problem still names its file and line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

import click

from templates_gen.cake.model import Cake
from templates_gen.cake.reading import parse_cake, read_text
from templates_gen.cake.source import CakeText
from templates_gen.drawing.piece import Piece
from templates_gen.errors import CakeError, Key, Source
from templates_gen.pieces.doubts import doubts

CAKE_FILE = click.argument("cake_file", metavar="CAKE.toml", type=click.Path(allow_dash=True))


def read(cake_file: str) -> tuple[Cake, CakeText]:
    """Return the cake of a file, and its text."""
    text = read_text(cake_file)
    return parse_cake(text), text


@dataclass(frozen=True, slots=True)
class OptionSource:
    """The command line as a source: keys that an option gave, by the name of the option.

    Any other key is looked up in ``rest``, or without it is the option of its last name.
    """

    options: Mapping[Key, str]
    rest: Source | None = None

    def where(self, key: Key) -> str:
        """Name the option, or the place in the file."""
        if key not in self.options and self.rest is not None:
            return self.rest.where(key)
        name = self.options.get(key, str(key[-1]) if key else "")
        return f"option --{name.replace('_', '-')}" if name else "command line"


def echo_doubts(cake: Cake, pieces: Sequence[Piece], source: Source) -> None:
    """Show what is doubtful about a cake, each with its place."""
    for doubt in doubts(cake, pieces):
        click.echo(f"Mind ({source.where(doubt.key)}): {doubt.text}")


@contextmanager
def located(source: Source) -> Iterator[Source]:
    """Give problems found within the block their place in ``source``."""
    try:
        yield source
    except CakeError as error:
        raise error.located(source) from None
