"""Reading a cake for a command, so that every later problem still names its file and line."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import click

from templates_gen.cake.model import Cake
from templates_gen.cake.reading import CakeText, parse_cake, read_text
from templates_gen.errors import CakeError, Source

CAKE_FILE = click.argument("cake_file", metavar="CAKE.toml", type=click.Path(allow_dash=True))


def read(cake_file: str) -> tuple[Cake, CakeText]:
    """Return the cake of a file, and its text."""
    text = read_text(cake_file)
    return parse_cake(text), text


@contextmanager
def located(source: Source) -> Iterator[None]:
    """Give problems found within the block their place in ``source``."""
    try:
        yield
    except CakeError as error:
        raise error.located(source) from None
