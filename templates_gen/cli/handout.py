"""The command ``handout``: two pages that a student can follow."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.cakefile.lengths import LengthError
from templates_gen.cakefile.papers import PAPERS, parse_paper
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.cli.output import write_all
from templates_gen.cli.params import one_of, output_option
from templates_gen.cli.reading import Overrides, located, read, with_cake_file
from templates_gen.plan import make_plan

ENDINGS = (".pdf", ".html")


@click.command()
@with_cake_file
@click.option("--paper", help="Paper of the pages; if you leave it out, that of the cake file.")
@output_option(
    "File to write, .pdf or .html; if you leave it out, a PDF named after the cake.",
    callback=one_of(ENDINGS),
)
def handout(cake_file: str, overrides: Overrides, paper: str | None, output: Path | None) -> None:
    """Make two pages that a student can follow: picture, steps, times.

    Also what to have ready, small drawings of the pieces with their sizes, cautions, and room for
    notes.
    """
    from templates_gen.handout.contents import handout as contents
    from templates_gen.handout.page import handout_pdf
    from templates_gen.handout.web_page import handout_html

    cake, source = read(cake_file, overrides)
    place = output or Path(f"{file_name(slug(cake.title))}-handout.pdf")
    try:
        sheet = parse_paper(paper) if paper else PAPERS.get(cake.paper, PAPERS["a4"])
    except LengthError as error:
        raise click.BadParameter(str(error), param_hint="--paper") from None
    with located(source):
        plan = make_plan(cake)
    found = contents(plan)
    if place.suffix.lower() == ".html":
        content = handout_html(plan, found)
    else:
        content = handout_pdf(plan, found, sheet)
    write_all({place: content})
    click.echo(f"Written: {place}")


COMMANDS = {"handout": handout}
