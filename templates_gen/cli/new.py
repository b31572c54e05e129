"""The command ``new``: a cake file to start from."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.cli.output import refuse_existing, write_all
from templates_gen.cli.params import WordType
from templates_gen.cli.reading import quoted
from templates_gen.resources import folder

STARTER = "starter"


def sample_names() -> list[str]:
    """Return the names of the samples that travel with the package."""
    return sorted(path.stem for path in folder("samples").glob("*.toml"))


@click.command()
@click.argument("file", metavar="FILE.toml", type=click.Path(path_type=Path))
@click.option(
    "--sample",
    type=WordType(sample_names()),
    default=STARTER,
    show_default=True,
    help="Which cake to start from.",
)
def new(file: Path, sample: str) -> None:
    """Write a commented cake file to start from.

    A file that is already there is never overwritten; a folder that is missing is made.
    """
    text = (folder("samples") / f"{sample}.toml").read_bytes()
    refuse_existing(file)
    write_all({file: text})
    click.echo(
        f"Written: {file}. Change the sizes in it, then: templates-gen pack {quoted(str(file))}"
    )
