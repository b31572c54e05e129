"""The command ``handout``: two pages that a student can follow."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.cakefile.papers import paper_for_words
from templates_gen.cakefile.slug import file_name, slug
from templates_gen.cli.output import write_and_say
from templates_gen.cli.params import PaperType, one_of, output_option
from templates_gen.cli.reading import Overrides, located, read, with_cake_file
from templates_gen.plan import make_plan

ENDINGS = (".pdf", ".html")


@click.command()
@with_cake_file
@click.option(
    "--paper",
    type=PaperType(),
    help="Paper of the pages; if you leave it out, that of the cake file.",
)
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
    with located(source):
        plan = make_plan(cake)
    found = contents(plan)
    if place.suffix.lower() == ".html":
        content = handout_html(plan, found)
    else:
        content = handout_pdf(plan, found, paper_for_words(paper or cake.paper))
    write_and_say({place: content})
