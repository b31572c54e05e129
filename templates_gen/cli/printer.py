"""The command ``printer``: measure a printer once, so that packs come out true on it."""

from __future__ import annotations

from pathlib import Path

import click

from templates_gen.cakefile.lengths import Length, LengthError
from templates_gen.cakefile.papers import parse_papers
from templates_gen.cakefile.printer_store import (
    printer_named,
    printers_text,
    store_file,
    stored_printers,
)
from templates_gen.cakefile.printers import BAR, Printer, measured
from templates_gen.cakefile.slug import slug
from templates_gen.cli.output import write_all
from templates_gen.cli.params import LengthType, PaperType, output_option
from templates_gen.cli.reading import OptionSource, located, quoted
from templates_gen.cover.printer_check import printer_check
from templates_gen.errors import FileError
from templates_gen.units import capital, decimal

LONGEST_NAME = 24
"""So that it has room at the head of every sheet, in characters."""


class _PrinterCommand(click.Command):
    """A command that takes ``--measured 149.2 x 150.6`` without quotes too."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """Join the words of the two lengths, then read the command line."""
        if "--measured" in args:
            start = args.index("--measured") + 1
            ends = (index for index in range(start, len(args)) if args[index].startswith("-"))
            end = next(ends, len(args))
            args = [*args[:start], *filter(None, [" ".join(args[start:end])]), *args[end:]]
        return super().parse_args(ctx, args)


def _checked_name(ctx: click.Context, param: click.Parameter, name: str) -> str:
    words = " ".join(name.split())
    if not words or len(words) > LONGEST_NAME or not words.isprintable() or not slug(words, ""):
        allowed = f"1 to {LONGEST_NAME} characters with a letter or figure among them"
        raise click.BadParameter(f"“{name}”; allowed: {allowed}", ctx, param)
    return words


@click.command(cls=_PrinterCommand)
@click.option(
    "--measured",
    "bars",
    metavar="ACROSS x UP",
    help="Save a printer: the two bars of its check sheet as you measured them, across the page"
    " and up the page, in mm or with a unit, such as 149.2x150.6.",
)
@click.option(
    "--name",
    default="home",
    show_default=True,
    callback=_checked_name,
    help="A name for the measured printer.",
)
@click.option(
    "--margin-sides",
    type=LengthType(),
    help="Unprintable margin at the sides, read off the steps. Default: the margin in the cake"
    " file. Example: 5mm.",
)
@click.option(
    "--margin-ends",
    type=LengthType(),
    help="Unprintable margin at the top and bottom, read off the steps. Default: the margin in"
    " the cake file. Example: 12mm.",
)
@click.option("--list", "listing", is_flag=True, help="List the saved printers.")
@click.option("--remove", metavar="NAME", help="Forget this printer.")
@click.option(
    "--check", metavar="NAME", help="Make the check sheet scaled for this printer, to check it."
)
@click.option(
    "--paper",
    type=PaperType(),
    default="a4",
    show_default=True,
    help="Paper for the check sheet, A4 or Letter or larger.",
)
@output_option(
    "PDF file for the check sheet. Default: one named after the paper, such as"
    " printer-check-a4.pdf."
)
def printer(
    *,
    bars: str | None,
    name: str,
    margin_sides: Length | None,
    margin_ends: Length | None,
    listing: bool,
    remove: str | None,
    check: str | None,
    paper: str,
    output: Path | None,
) -> None:
    """Measure a printer once: packs then come out at true size on it.

    Without options it makes the check sheet. Measure it, give what you read to --measured, then
    make packs with templates-gen pack --printer NAME, or write printer = "NAME" in the cake file.
    """
    _one_thing(measured=bars, list=listing, remove=remove, check=check)
    if bars is not None:
        _keep(name, bars, margin_sides, margin_ends)
    elif margin_sides is not None or margin_ends is not None:
        raise click.UsageError("--margin-sides and --margin-ends belong to --measured: give both.")
    elif listing:
        _list()
    elif remove is not None:
        _remove(remove)
    else:
        _sheets(paper, check, output)


def _one_thing(**given: object) -> None:
    """Raise UsageError where several things are to be done at once."""
    names = [f"--{name}" for name, value in given.items() if value not in (None, False)]
    if len(names) > 1:
        raise click.UsageError(f"{' and '.join(names)} together: give one of them.")


def _keep(name: str, bars: str, sides: Length | None, ends: Length | None) -> None:
    try:
        found = measured(name, bars, sides, ends)
    except LengthError as error:
        advice = f"\n{capital(error.advice)}." if error.advice else ""
        message = f"{error.found}; allowed: {error.allowed}.{advice}"
        raise click.BadParameter(message, param_hint="--measured") from None
    others = {key: each for key, each in stored_printers().items() if slug(key) != slug(name)}
    write_all({store_file(): printers_text({**others, name: found}).encode()})
    click.echo(f"Saved: {_said(found)}")
    click.echo(
        f"Make packs for it with: templates-gen pack CAKE.toml --printer {quoted(name)}"
        f'\nor write in the cake file: printer = "{name}"'
    )


def _said(kept: Printer) -> str:
    """Describe a printer in a line."""
    parts = [f"{decimal(BAR)} mm reads {decimal(kept.across * BAR, 2)} mm across the page"]
    parts.append(f"{decimal(kept.up * BAR, 2)} mm up the page")
    for word, mm in (("sides", kept.margin_sides), ("ends", kept.margin_ends)):
        parts += [] if mm is None else [f"{decimal(mm, 1)} mm blank at the {word}"]
    return f"{kept.name}: {', '.join(parts)}"


def _list() -> None:
    kept = stored_printers()
    for each in kept.values():
        click.echo(_said(each))
    if not kept:
        click.echo("No printer is saved. Print the check sheet first: templates-gen printer")


def _remove(name: str) -> None:
    kept = stored_printers()
    left = {key: each for key, each in kept.items() if slug(key) != slug(name)}
    if len(left) == len(kept):
        raise FileError(
            f"There is no printer “{name}” to remove; saved: {', '.join(kept) or 'none'}"
        )
    write_all({store_file(): printers_text(left).encode()})
    click.echo(f"Removed: {name}")


def _sheets(paper: str, name: str | None, output: Path | None) -> None:
    """Write the check sheet on a paper, or on each of several."""
    with located(OptionSource({("printer",): "check"})):
        found = printer_named(name)
        made = [printer_check(each, found) for each, _ in parse_papers([paper])]
    from templates_gen.writers.pdf import write_pdf

    for pack in made:
        place = output or Path(f"{pack.name}.pdf")
        if output and len(made) > 1:
            place = output.with_stem(f"{output.stem}-{pack.paper.name}")
        write_all({place: write_pdf(pack)})
        click.echo(f"Written: {place}. Print it at 100 % (actual size), then do what it says.")
