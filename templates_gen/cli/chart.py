"""The command ``chart``: what tins of each size take, on one page for the wall."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.cakefile.lengths import Length, LengthError, parse_length
from templates_gen.cakefile.papers import paper_for_words
from templates_gen.chart.table import DEFAULT_STRIP
from templates_gen.chart.table import chart as chart_of
from templates_gen.chart.tins import SHAPES, SIZES, Layers, tins
from templates_gen.cli.output import write_and_say
from templates_gen.cli.params import LengthCommand, LengthType, PaperType, one_of, output_option
from templates_gen.cli.reading import OptionSource, as_options
from templates_gen.terms import PLACES, UK, Terms

ENDINGS = (".pdf", ".csv", ".html")


def _sizes(ctx: click.Context, param: click.Parameter, text: str | None) -> tuple[Length, ...]:
    if text is None:
        return SIZES
    unit = ctx.params.get("unit")
    try:
        return tuple(parse_length(each, unit) for each in text.split(","))
    except LengthError as error:
        raise click.BadParameter(f"{error}. Write for example 6,8,10", ctx, param) from None


@click.command("chart", cls=LengthCommand)
@click.option(
    "--unit",
    type=click.Choice(["in", "cm"]),
    default="in",
    is_eager=True,
    show_default=True,
    help="Unit shown first, and of numbers without a unit.",
)
@click.option(
    "--sizes",
    callback=_sizes,
    metavar="SIZES",
    help="Tins such as 6,8,10. Default: 4 to 14 in, every 2 in.",
)
@click.option(
    "--shape",
    "shapes",
    type=click.Choice(SHAPES),
    multiple=True,
    help="round or square. Default: both.",
)
@click.option("--depth", type=LengthType(), default="4in", show_default=True, help="Depth of tins.")
@click.option("--coating", type=LengthType(), help="Thickness of the coating.")
@click.option("--fondant", type=LengthType(), help="Thickness of the rolled fondant.")
@click.option("--mould", type=LengthType(), help="Length of a panel from a mould, to see how many.")
@click.option("--strip", type=LengthType(), help="Length of a strip you have. Default: 24 in.")
@click.option(
    "--paper", type=PaperType(), default="a4", show_default=True, help="Paper of the page."
)
@click.option(
    "--words",
    type=click.Choice(list(PLACES)),
    default=UK,
    show_default=True,
    help="Words and spelling of a place.",
)
@output_option(
    "File to write, .pdf, .csv or .html.",
    default=Path("chart.pdf"),
    show_default=True,
    callback=one_of(ENDINGS),
)
def chart(
    unit: str,
    sizes: tuple[Length, ...],
    shapes: tuple[str, ...],
    depth: Length,
    coating: Length | None,
    fondant: Length | None,
    mould: Length | None,
    strip: Length | None,
    paper: str,
    words: str,
    output: Path,
) -> None:
    """Make a chart for the wall: what tins of each size take."""
    from templates_gen.chart.files import CHARTS

    layers = Layers(depth, coating, fondant, mould)
    with as_options(OptionSource({})):
        rows = list(tins(sizes, shapes or SHAPES, layers))
    made = chart_of(rows, layers, unit, strip or DEFAULT_STRIP).said(Terms(words))
    write_and_say({output: CHARTS[output.suffix.lower()](made, paper_for_words(paper))})
