"""The command ``picture``: the cake from the front and from above, to look at or to show."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.cakefile.slug import file_name, slug
from templates_gen.cli.output import write_and_say
from templates_gen.cli.params import one_of, output_option
from templates_gen.cli.reading import Overrides, located, read, with_cake_file
from templates_gen.plan import make_plan
from templates_gen.views.picture import picture as draw

WIDTH, HEIGHT = 186.0, 260.0
"""The most room a picture takes, mm: with its blank edge it fits on A4 and Letter."""
ENDINGS = (".svg", ".pdf", ".png")


@click.command()
@with_cake_file
@output_option(
    "File to write: .svg, .pdf or .png. Default: a PDF named after the cake.",
    callback=one_of(ENDINGS),
)
def picture(cake_file: str, overrides: Overrides, output: Path | None) -> None:
    """Draw a cake from the front and from above, to scale, with its sizes."""
    cake, source = read(cake_file, overrides)
    place = output or Path(f"{file_name(slug(cake.title))}.pdf")
    with located(source):
        block = draw(make_plan(cake), WIDTH, HEIGHT)
    from templates_gen.writers.picture import PICTURES

    write_and_say({place: PICTURES[place.suffix.lower()](cake.title, block.drawing)})
