"""The command ``resize``: the same design on other tins, as a cake file of its own."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.bench.changes import changes
from templates_gen.bench.doubts import warnings
from templates_gen.cakefile.editing import plain, saved
from templates_gen.cakefile.lengths import LengthError
from templates_gen.cakefile.reading import checked, decoded, parse_data, read_text
from templates_gen.cakefile.resizing import resized, tins_of
from templates_gen.cli.output import refuse_existing, write_and_say
from templates_gen.cli.params import output_option
from templates_gen.cli.reading import echo_warnings, located
from templates_gen.plan import make_plan

EXAMPLE = '--to "12x5, 9x6, 6x4"'


@click.command()
@click.argument("cake_file", metavar="CAKE.toml", type=click.Path(allow_dash=True))
@click.option(
    "--to",
    "sizes",
    metavar="SIZES",
    required=True,
    help='The tins from the bottom up, such as "12x5, 9x6, 6x4"; a depth may be left out.',
)
@output_option("The cake file to write.", metavar="NEW.toml", required=True)
def resize(cake_file: str, sizes: str, output: Path) -> None:
    """Write the same design for other tins as a new cake file.

    Panels and repeats close again, what hangs keeps its share of the depth, and what has a true
    size, such as a mould, stays. Comments are kept, and what has changed is shown.
    """
    text = read_text(cake_file)
    data = parse_data(text)
    cake = checked(data, text)
    try:
        tins = tins_of(sizes, cake)
    except LengthError as error:
        raise click.UsageError(f"--to: {error}. Write for example {EXAMPLE}") from None
    with located(text):
        before = make_plan(cake)
    new = decoded(saved(plain(resized(data, tins)), text.text).encode(), output.name, text.folder)
    with located(new):
        after = make_plan(checked(parse_data(new), new))
    refuse_existing(output)
    write_and_say({output: new.text.encode()})
    for line in changes(before, after):
        click.echo(f"  {line}")
    echo_warnings(warnings(after), new)
