"""The command ``portions``: which tins, one on the other, make so many portions."""

from __future__ import annotations

import click

from templates_gen.bench.servings import SIZES, most_portions, of_tin, proposals
from templates_gen.cli.reading import echo_table
from templates_gen.cli.whole_number import WholeNumber
from templates_gen.errors import FileError

MOST = 2000


@click.command()
@click.argument("number", type=WholeNumber(1, MOST), metavar="NUMBER")
@click.option(
    "--shape",
    type=click.Choice(["round", "square"]),
    default="round",
    show_default=True,
    help="Shape of the tins.",
)
@click.option(
    "--size",
    type=click.Choice(list(SIZES)),
    default="wedding",
    show_default=True,
    help="Size of a portion: wedding 1 × 2 in, coffee 1 × 1 in, party 2 × 2 in.",
)
def portions(number: int, shape: str, size: str) -> None:
    """List stacks of tins for a number of portions.

    Tins are of even inches, each tier is 4 in deep.
    """
    found = proposals(number, shape, size)
    if not found:
        most = most_portions(shape, size)
        raise FileError(
            f"{number} {size} portions are more than {most}, the most of a stack of five {shape}"
            " tins up to 16 in: serve the rest from cakes in the kitchen"
        )
    for each in found:
        tins = " + ".join(f"{tin} in ({of_tin(tin, shape, size)})" for tin in each.tins)
        spare = each.portions - number
        left = f"{spare} to spare" if spare else "none to spare"
        echo_table(f"{each.portions} portions: {tins}, {left}")
